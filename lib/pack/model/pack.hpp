#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/diagnostic.hpp"
#include "base/rates.hpp"
#include "base/scope.hpp"
#include "base/source.hpp"
#include "base/trade.hpp"
#include "numbers/grammar.hpp"

/// A pack as its author wrote it, with every id resolved to an index into the vectors of `Pack`. Format: rules/FORMAT.md.
namespace exworks {

struct StandingPlace {
  std::string id, name;
  Place place;
};

struct Caution {
  std::string id, name, text;
  bool always = false;
  std::vector<std::size_t> sources;
  Place place;
};

/// One word of British English and what it is called elsewhere.
struct Term {
  std::string word, en_us, en_au;
  Place place;
};

/// "Which family is it?": a question that a photo answers, and its answers.
struct Question {
  std::string id, ask;
  std::vector<std::pair<std::string, std::string>> answers;  ///< id, name
  Place place;
};

/// An answer that is right for vehicles of this family.
struct Hallmark {
  std::size_t question = 0, answer = 0;
  std::vector<std::size_t> sources;
  Place place;
};

struct Market {
  std::string id, name, country, steering;
  double share = 1;
  struct Period {
    Month first, last;  ///< both included
    double share = 1;
  };
  std::vector<Period> periods;  ///< in which another share holds
  Place place;

  double share_in(Month month) const;
};

struct Plant {
  std::string id, name, country;
  bool kit = false;
  double share = 1;
  AxisSet markets;
  std::optional<Edge> from, to;
  Place place;
};

struct Generation {
  std::string id, name;
  Place place;
};

struct Body {
  std::string id, name;
  std::string vehicle_class = "car";  ///< in law; one of vehicle_classes()
  Place place;
};

struct Variant {
  std::string id, name;
  std::size_t generation = 0, body = 0;
  AxisSet markets, plants;
  Edge from, to;
  std::optional<double> units;
  std::vector<std::size_t> sources;
  Place place;
};

struct Volume {
  Scope scope;
  Edge from, to;
  double units = 0;
  std::vector<std::size_t> sources;
  Place place;
};

struct Interchange {
  AxisSet variants, donors;
  std::string note;
  Place place;
};

struct Assembly {
  std::string id, name;
  Reversible reversible = Reversible::yes;
  std::optional<double> replaced;
  double hours = 0;
  std::vector<Interchange> interchange;
  std::vector<std::string> components;  ///< of vehicle_components()
  Place place;
};

struct Fact {
  std::string name;  ///< within its feature: its id, else made from its value and the month it begins; what `overrides` refers to
  ValueIndex value;
  Scope scope;
  std::optional<Edge> from, to;
  std::optional<std::int64_t> from_number, to_number;
  Fitted fitted = Fitted::standard;
  std::optional<double> share;
  std::vector<std::size_t> sources;
  bool disputed = false;
  std::optional<LegalBasis> law;  ///< when a legal requirement says it
  std::string note;
  Place place;
};

struct Value {
  std::string id, name, recognise;
  std::vector<std::size_t> looks_like;
  std::optional<double> measure, tolerance;
  Place place;
};

/// Several values under one name, for those who can't tell them apart.
struct NamedValues {
  std::string id, name;
  std::vector<ValueIndex> values;
  Place place;
};

/// Two values that are mixed up at a rate of their own.
struct Alike {
  std::size_t a = 0, b = 0;
  double rate = 0;
  Place place;
};

struct Feature {
  std::string id, name, ask, method = "look", tool, unit;
  std::size_t standing_place = 0;
  std::optional<std::size_t> assembly;
  int weight = 1;
  double minutes = 1;
  std::optional<double> altered;
  std::optional<ChangeClass> change_class;
  std::optional<double> foreign;
  std::vector<std::string> components;  ///< of vehicle_components(), which classifications speak of
  std::vector<std::size_t> cautions;
  Scope applies;                         ///< the vehicles that have it
  std::optional<ValueIndex> elsewhere;  ///< index into values: what the others show; without it they show "other"
  std::vector<Value> values;
  std::vector<Alike> alike;
  std::vector<NamedValues> groups;
  std::vector<Fact> facts;
  Place place;
};

/// A known alteration. With `assembly` it is an outside donor that sets several features; otherwise one feature's value.
struct LaterChange {
  std::string id, name, spot;
  Reversible reversible = Reversible::yes;
  std::optional<std::size_t> feature, assembly;
  /// The values left behind; Feature::values.size() is "other".
  std::vector<FeatureValue> sets;
  std::optional<Edge> from;
  double share = 1;
  double hours = 0;
  Scope scope;
  std::vector<std::size_t> sources;
  Place place;
};

/// A change over features of any assemblies, had or not as one: a saloon made open, six volts made twelve.
struct Conversion {
  std::string id, name, spot;
  Reversible reversible = Reversible::yes;
  struct Sets {
    FeatureIndex feature;
    ValueIndex value;  ///< Feature::values.size() is "other"
    double surely = 0.9;
  };
  std::vector<Sets> sets;
  std::optional<Edge> from;
  double share = 0;  ///< of the vehicles in its scope
  double hours = 0;
  Scope scope;
  std::vector<std::size_t> sources;
  Place place;
};

/// What a code in a number says: a scope to the engine, and perhaps the value of a feature.
struct CodeMeaning {
  std::optional<Scope> scope;
  std::optional<FeatureValue> sets;
};

struct NumberForm {
  FormGrammar grammar;
  Scope scope;
  std::optional<Edge> from, to;
  std::vector<std::vector<CodeMeaning>> meanings;  ///< [part][code], as in the grammar
  std::vector<std::size_t> sources;
  std::string example, note;
  Place place;
};

struct NumberRange {
  std::int64_t first = 0, last = 0;
  Edge from, to;
  Scope scope;
  std::vector<std::size_t> forms;  ///< empty: every form
  int spread = 1;                  ///< months
  std::string name;
  std::vector<std::size_t> sources;
  Place place;
};

struct Number {
  std::string id, name, where;
  bool identity = false;
  std::optional<std::size_t> assembly;
  std::vector<NumberForm> forms;
  std::vector<NumberRange> ranges;
  std::vector<std::size_t> sources;
  Place place;
};

/// A pack that another one extends.
struct BasePack {
  std::string id, name, version, digest, folder;
};

struct Pack {
  std::string id, name, version, folder;
  bool invented = false;
  std::string digest;  ///< SHA-256 of all that can change an answer: the files read, in order, law that it draws on, and the pack that it extends
  std::vector<BasePack> extends;  ///< the one it extends, then the one which that extends ...
  std::vector<Source> sources;
  std::vector<StandingPlace> places;
  std::vector<Caution> cautions;
  std::vector<Term> terms;
  std::vector<Question> questions;
  std::vector<Hallmark> hallmarks;
  Rates rates;
  std::vector<Market> markets;
  std::vector<Plant> plants;
  std::vector<Generation> generations;
  std::vector<Body> bodies;
  std::vector<Variant> variants;
  std::vector<Volume> volumes;
  std::vector<Assembly> assemblies;
  std::vector<Feature> features;
  std::vector<LaterChange> later_changes;
  std::vector<Conversion> conversions;
  std::vector<Number> numbers;
};

/// One way to a build: a variant, sold new in a market, from a plant, in the months `first` to `last` (both included).
struct Route {
  VariantIndex variant;
  MarketIndex market;
  PlantIndex plant;
  Month first, last;
};

/// Every route of the pack, variant by variant, market by market, plant by plant.
std::vector<Route> routes(const Pack& pack);

}  // namespace exworks
