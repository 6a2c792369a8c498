#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "oracle_axes.hpp"
#include "oracle_law.hpp"
#include "oracle_numbers.hpp"

/// Small random packs and inspections as plain structs: the oracle enumerates them, the engine reads them as XML.
/// Shares no code with the engine.
namespace exworks::test::oracle {

/// Chance with the same outcome on every machine (SplitMix64).
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next();
  std::size_t below(std::size_t n) { return static_cast<std::size_t>(next() % n); }
  int between(int low, int high) { return low + static_cast<int>(below(static_cast<std::size_t>(high - low + 1))); }
  bool chance(double p) { return static_cast<double>(next() >> 11U) * 0x1p-53 < p; }
  /// One of low, low + 0.01, ... high: a share that a pack writes with two decimals.
  double share(double low, double high);
  /// `count` of the numbers below `n`, in ascending order.
  std::vector<std::size_t> some(std::size_t n, std::size_t count);

 private:
  std::uint64_t state_;
};

struct Variant {
  std::size_t generation = 0, body = 0;
  std::vector<bool> markets, plants;
  Window built;
  int doubt = 0;     ///< it began in one of the months built.first to built.first + doubt
  double units = 0;  ///< 0: the pack has no units
  int doubt_end = 0;  ///< it ended in one of the months built.last - doubt_end to built.last
};

struct Market {
  double share = 1;
  std::string country{};
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
  Scope scope;
  std::optional<Window> from, to;
  std::string fitted;  ///< standard, option or dealer
  std::optional<double> share;
  bool dots = false;  ///< an absent edge is written ".."
  std::optional<Serial> from_number{}, to_number{};
};

struct Change {
  std::size_t value = 0;
  Scope scope;
  std::optional<Window> from;
  double share = 1;
};

struct Feature {
  std::size_t values = 2;  ///< named ones; this number itself stands for `other`
  std::vector<std::pair<std::size_t, std::size_t>> looks_like;
  Scope applies;
  std::optional<std::size_t> assembly;
  int weight = 1;
  std::optional<double> altered, slip;
  std::vector<Fact> facts;
  std::vector<Change> changes;
  std::vector<std::pair<std::size_t, std::size_t>> laws{};  ///< of the pack, and the value that they ask for
  std::optional<std::size_t> elsewhere{};                   ///< the value that vehicles to which it does not apply show
  std::optional<std::size_t> of_number{};  ///< stands for the serial of this number: its values are the ranges
};

/// A later change of a whole assembly.
struct Outside {
  std::size_t assembly = 0;
  Scope scope;
  std::optional<Window> from;
  double share = 0.1;
  std::vector<std::pair<std::size_t, std::size_t>> sets;  ///< feature, value
};

struct Interchange {
  std::vector<bool> variants, donors;
};

struct Assembly {
  std::optional<double> replaced;
  std::vector<Interchange> rows;
};

struct PackRates {
  double sure = 0.01, probable = 0.08, guess = 0.25, look_alike = 3, altered = 0.04, unlisted = 0.2, replaced = 0.10,
         number_error = 0.03;
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
  PackRates rates;
};

/// One look at a feature.
struct Look {
  std::size_t feature = 0, value = 0;
  std::string how = "seen", sure = "sure";
};

struct Paper {
  std::string kind;
  std::optional<Window> date, built;
  std::string date_text{}, built_text{};  ///< how they are written, where not in the usual way
};

/// What somebody says of the build, or what is given: one member at most of each axis.
struct Claim {
  Scope scope;
  std::optional<Window> built;
};

struct Visit {
  std::optional<int> month;  ///< of the inspection
  std::vector<Look> looks;
  std::vector<Paper> papers{};
  std::vector<Claim> claims{};
  std::vector<NumberText> numbers{};  ///< at most one of each number
  Claim given{};
  std::optional<bool> given_own{};
  std::vector<std::string> given_words{};  ///< how `given` is written, where not by the ids
};

/// A pack of 2-4 variants with 3-7 features, or another number of them.
SmallPack random_pack(Dice& dice);
/// A pack of 2 variants with this many features, all in one assembly or in none.
SmallPack long_pack(Dice& dice, std::size_t features, bool one_assembly);
/// Takes away what speaks of no vehicle; a value that nothing leads to any more gets a later change.
void tidy(SmallPack& pack);
inline constexpr Window always{-1000, 1000};
/// Was any vehicle built in both scopes and the period?
bool any_built(const SmallPack& pack, const Scope& scope, const Scope& also = {}, const Window& period = always);
/// Looks at about this share of the features.
Visit random_visit(const SmallPack& pack, Dice& dice, double share);

/// Adds papers and claims, and now and then a condition that some build meets.
void add_papers(const SmallPack& pack, Dice& dice, Visit& visit);

/// Plants that open late, close early and serve few markets; windows whose last month is in doubt.
void close_plants(SmallPack& pack, Dice& dice);
/// Adds an identity number, others, and changeovers tied to the first.
void add_numbers(SmallPack& pack, Dice& dice);
/// Writes some of the pack's numbers, with slips, and now and then whether the identity number is given as the vehicle's own.
void add_number_texts(const SmallPack& pack, Dice& dice, Visit& visit);

/// Countries, classes, requirements of law, and legal lines in the features.
void add_laws(SmallPack& pack, Dice& dice);
/// The requirements of one country as a file.
std::string laws_xml(const SmallPack& pack, const std::string& country);

std::string pack_xml(const SmallPack& pack);
/// `more`: further lines of the inspection.
std::string visit_xml(const SmallPack& pack, const Visit& visit, const std::string& more = "");
/// Papers and claims as lines of the inspection.
std::string papers_xml(const Visit& visit);
/// The numbers as lines of the pack, and of the inspection.
std::string numbers_xml(const SmallPack& pack);
std::string number_texts_xml(const Visit& visit);
/// The condition as the command takes it.
std::vector<std::string> given_words(const Visit& visit);

}  // namespace exworks::test::oracle
