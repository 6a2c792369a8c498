#pragma once
#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "oracle_axes.hpp"
#include "oracle_law.hpp"
#include "oracle_numbers.hpp"

/// Small packs as plain structs: the oracle enumerates them, the engine reads them as XML. Shares no code with the engine.
namespace exworks::test::oracle {

struct Variant {
  std::size_t generation = 0, body = 0;
  std::vector<bool> markets, plants;
  Window built;
  int doubt = 0;      ///< it began in one of the months built.first to built.first + doubt
  double units = 0;   ///< 0: the pack has no units
  int doubt_end = 0;  ///< it ended in one of the months built.last - doubt_end to built.last
};

struct Market {
  double share = 1;
  std::string country{};
};

/// The share of a market in these months.
struct ShareRow {
  std::size_t market = 0;
  Window months;
  double share = 1;
};

struct Plant {
  double share = 1;
  std::vector<bool> markets;
  std::optional<Window> at_work;
};

struct Volume {
  Scope scope;
  Window months;
  double units = 0;
};

struct Fact {
  std::size_t value = 0;
  Scope scope{};
  std::optional<Window> from{}, to{};
  std::string fitted = "standard";  ///< standard, option or dealer
  std::optional<double> share{};
  bool dots = false;  ///< an absent edge is written ".."
  std::optional<Serial> from_number{}, to_number{};
  std::size_t backing = 1;  ///< its sources: 0 two published ones, 1 one, 2 common practice, 3 memory
};

struct Change {
  std::size_t value = 0;
  Scope scope{};
  std::optional<Window> from{};
  double share = 1;
};

/// Two named values that are taken for each other at a rate of their own.
struct Alike {
  std::size_t a = 0, b = 0;
  double rate = 0;
};

struct Measure {
  double at = 0, tolerance = 0;
};

struct Feature {
  std::size_t values = 2;                                         ///< named ones; this number itself stands for `other`
  std::vector<std::pair<std::size_t, std::size_t>> looks_like{};  ///< the second may be `other`
  std::vector<Alike> alike{};
  Scope applies{};
  std::optional<std::size_t> assembly{};
  int weight = 1;
  std::optional<double> altered{}, foreign{};
  std::string kind{};  ///< consumable, accessory, upgrade, trim, panel, structure, plate, or nothing said
  std::vector<Fact> facts{};
  std::vector<Change> changes{};
  std::vector<std::pair<std::size_t, std::size_t>> laws{};  ///< of the pack, and the value that they ask for
  std::optional<std::size_t> elsewhere{};                   ///< the value that vehicles to which it does not apply show
  std::optional<std::size_t> of_number{};                   ///< stands for the serial of this number: its values are the ranges
  std::vector<std::vector<std::size_t>> groups{};           ///< values that have a name together
  std::vector<Measure> measures{};                          ///< [named value] where it is measured, in mm; else none
};

/// A later change of a whole assembly.
struct Outside {
  std::size_t assembly = 0;
  Scope scope;
  std::optional<Window> from;
  double share = 0.1;
  std::vector<std::pair<std::size_t, std::size_t>> sets;  ///< feature, value
};

struct Sets {
  std::size_t feature = 0, value = 0;
  double surely = 0.9;
};

/// What is done to several features at one time.
struct Conversion {
  Scope scope{};
  std::optional<Window> from{};
  double share = 0.01;
  std::vector<Sets> sets{};
};

struct Interchange {
  std::vector<bool> variants, donors;
};

struct Assembly {
  std::optional<double> replaced;
  std::vector<Interchange> rows;
};

using BySureness = std::array<double, 3>;  ///< sure, probable, guess

struct PackRates {
  BySureness confusion{0.02, 0.10, 0.25}, wrong_line{0.001, 0.005, 0.02}, not_recognised{0.0003, 0.01, 0.05},
      taken_for_ours{0.05, 0.15, 0.30};
  double altered = 0.04, replaced = 0.10;
  BySureness number_error{0.03, 0.15, 0.40};
  std::array<int, 4> edge_months{1, 2, 4, 6};  ///< [Fact::backing]
  double wrong_year = 0.03;
  std::vector<double> offset_shares{0.04, 0.08, 0.16, 0.44, 0.16, 0.08, 0.04};
  std::map<std::string, double> altered_of{{"consumable", 0.5}, {"accessory", 0.3},  {"upgrade", 0.12}, {"trim", 0.10},
                                           {"panel", 0.05},     {"structure", 0.01}, {"plate", 0.02}};
  double known = 0.6, foreign = 0.4, later_weight = 3, unnamed_outside = 0.1, outside_other = 0.6, relative = 0.75, local = 0.6;
  std::array<double, 4> levels{1.0 / 3, 1, 3, 9}, level_shares{0.42, 0.42, 0.12, 0.04};
};

struct SmallPack {
  std::size_t generations = 2, bodies = 1;
  std::vector<Variant> variants;
  std::vector<Market> markets;
  std::vector<Plant> plants;
  std::vector<Volume> volumes;
  std::vector<Feature> features;
  std::vector<Assembly> assemblies;
  std::vector<Outside> outsides;
  std::vector<Number> numbers{};
  std::vector<std::string> classes{};  ///< [body], in law; empty: cars
  std::vector<Law> laws{};
  std::vector<ShareRow> shares{};
  std::vector<Conversion> conversions{};
  PackRates rates{};
};

}  // namespace exworks::test::oracle
