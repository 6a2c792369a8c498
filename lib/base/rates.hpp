#pragma once
#include <array>
#include <cstddef>
#include <vector>

namespace exworks {

/// How sure an inspector was.
enum class Sureness { sure, probable, guess };

/// How far a look is trusted: where it tells listed values apart, and where it says "none of these".
struct Trust {
  Sureness listed = Sureness::sure, foreign = Sureness::sure;
};

/// A rate for each step of sureness: [Sureness].
using BySureness = std::array<double, 3>;

/// What a part is to the life of a vehicle: how readily it is changed by itself.
enum class ChangeClass { consumable, accessory, upgrade, trim, panel, structure, plate };
inline constexpr std::size_t change_classes = 7;
inline constexpr std::array<const char*, change_classes> change_class_words{"consumable", "accessory", "upgrade", "trim", "panel", "structure", "plate"};  ///< [ChangeClass], as packs write them

/// What a changeover rests on.
enum class EdgeBacking { two_sources, one_source, common_practice, memory };
inline constexpr std::size_t edge_backings = 4;

/// Judgement, not measurement: shares of surviving vehicles or of looks, 0 to 1, unless said otherwise. Common practice, no source;
/// a pack may override them. What each means, and why it is what it is: lib/handbook/the-arithmetic.md.
struct Rates {
  BySureness confusion{0.02, 0.10, 0.25};          ///< a value that looks like the one there is noted
  BySureness wrong_line{0.001, 0.005, 0.02};       ///< any other listed value is
  BySureness not_recognised{0.0003, 0.01, 0.05};   ///< "none of these" is noted though a listed value is there
  BySureness taken_for_ours{0.05, 0.15, 0.30};     ///< a listed value is noted though none of them is there

  double altered = 0.04;                           ///< a feature was changed by itself, where neither it nor its class says otherwise
  std::array<double, change_classes> of_class{0.5, 0.3, 0.12, 0.10, 0.05, 0.01, 0.02};  ///< [ChangeClass]: the same
  double replaced = 0.10;                          ///< an assembly was replaced
  BySureness number_error{0.03, 0.15, 0.40};       ///< a number is miswritten, or is not the vehicle's own

  double known = 0.6;                              ///< of changes by itself: those that the pack names, where it names some
  double foreign = 0.4;                            ///< of the others: to a kind from outside the family
  double later_weight = 3;                         ///< a factor: a later kind of the family against an earlier one, and a later donor
  double unnamed_outside = 0.1;                    ///< of replaced assemblies: from outside, and named by no one
  double outside_other = 0.6;                      ///< of such an assembly's features: none of the listed values
  double relative = 0.75;                          ///< of what a pack's silence leaves open: as on the nearest relative
  double local = 0.6;                              ///< of vehicles: sold new in the country where they stand

  std::array<int, edge_backings> edge_months{1, 2, 4, 6};  ///< [EdgeBacking], months: how far either side of its window a changeover may have fallen
  double wrong_year = 0.03;                        ///< of changeovers: anywhere within twelve months
  std::vector<double> offset_share{0.04, 0.08, 0.16, 0.44, 0.16, 0.08, 0.04};  ///< [offset]: that all dates of the pack are so many months early or late; the middle one: none

  std::vector<double> alteration{1.0 / 3, 1, 3, 9};            ///< [level]: a factor on all odds of change
  std::vector<double> alteration_share{0.42, 0.42, 0.12, 0.04};  ///< [level]: how many vehicles, before looking
};

/// Months by which the line's changes came later than the pack has them: ..., -1, 0, 1, ...
inline int offset_months(const Rates& rates, std::size_t offset) { return static_cast<int>(offset) - static_cast<int>(rates.offset_share.size() / 2); }

/// A rate of change at a level of alteration: its odds times the level's factor.
inline double at_level(double rate, double factor) { return factor * rate / (1 - rate + factor * rate); }

}  // namespace exworks
