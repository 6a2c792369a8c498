#pragma once
#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <tuple>
#include <unordered_map>
#include <vector>

#include "base/log_weight.hpp"
#include "base/spelling.hpp"
#include "engine/infer/feature_likelihood.hpp"

/// One unit of evidence: the observed features of an assembly, which come off and go on together, or one feature by itself.
/// lib/handbook/the-arithmetic.md, "Assemblies" and "Conversions".
namespace exworks {

/// Which level of alteration, and which of the conversions that touch the unit were had (bit i: Unit::conversions()[i]).
struct Scenario {
  std::size_t level = 0;
  std::uint32_t had = 0;
};

/// How a value came to be there.
enum class Cause { as_built, known_change, family_by_itself, outside_by_itself, donor, outside_donor, unnamed_donor, conversion };

template <>
struct Spelling<Cause> {
  static constexpr std::string_view words[] = {"as built", "known change", "kind of the family", "kind from outside", "donor of the family", "known outside donor", "other outside donor", "conversion"};
};

/// One way in which a unit came to be as it is.
struct Way {
  enum class Kind { own, outside, unnamed, donor };
  Kind kind = Kind::own;
  std::size_t index = 0;  ///< outside: into Tables::changes; donor: which of the donors that are alike in every observed feature (Unit::donors_of)
};

class Unit {
 public:
  /// `conversions`: those of Tables::conversions that set one of the features, in the pack's order; 16 at most.
  Unit(const Tables& tables, std::optional<std::size_t> assembly, std::vector<FeatureLikelihood> features, std::optional<Month> inspected);

  /// What of a build decides about the unit.
  struct Target {
    std::vector<ColumnIndex> columns;  ///< [position]
    std::uint32_t replacement = 0;     ///< which donors and outside donors there are; see replacement_of
    std::uint32_t first_later = 0;     ///< of the donors in order of date: the first that is later than this build
    auto operator<=>(const Target&) const = default;
  };

  std::optional<std::size_t> assembly() const { return assembly_; }
  const std::vector<FeatureLikelihood>& features() const { return features_; }
  const std::vector<std::size_t>& conversions() const { return conversions_; }
  std::size_t scenarios() const { return levels_ << conversions_.size(); }
  std::size_t index(Scenario s) const { return (s.level << conversions_.size()) + s.had; }
  Scenario scenario(std::size_t index) const { return {index >> conversions_.size(), static_cast<std::uint32_t>(index & ((1u << conversions_.size()) - 1))}; }

  /// The target of a cell whose features have these columns.
  Target target_of(std::size_t cell, std::vector<ColumnIndex> columns) const;

  /// What donors of one way have of a position.
  ColumnIndex donor_column(std::size_t way, std::size_t position) const { return alike_[way].columns[position]; }
  std::size_t donor_group(const Target& target) const { return replacements_[target.replacement].donor_group; }
  /// log P(o_u | target, scenario)
  double log(const Target& target, Scenario s) const;

  /// Visits each way with log(its weight x P(what was noted of every position but those in `without` | way)): act(way, log_weight).
  template <class Act>
  void each_way(const Target& target, Scenario s, std::span<const std::size_t> without, Act&& act) const;

  /// The same of the ways that need no donor of the family.
  template <class Act>
  void each_way_but_donors(const Target& target, Scenario s, std::span<const std::size_t> without, Act&& act) const;

  /// Visits what may be there of one position, and how it came, over all ways at once: act(value, P(and it is of the type as built), P(and it is not),
  /// cause, index), as each_state has them, each times P(what was noted of the others | it), relative to exp(log_p). The donors of the family are one
  /// visit a value. `without`: a further position whose note is left out.
  template <class Act>
  void each_outcome(const Target& target, Scenario s, std::size_t position, std::optional<std::size_t> without, double log_p, Act&& act) const;

  /// [value of `first`][value of `second`]: P(both are there, and they came with a donor of the family, and what was noted of the other positions), relative to
  /// exp(log_p). Empty where no donor is possible.
  std::vector<double> donor_pairs(const Target& target, Scenario s, std::size_t first, std::size_t second, double log_p) const;

  /// Which donors, and how likely: the odds of the builds of a target come in one by one, the donors' come out together.
  class DonorOdds {
   public:
    DonorOdds(const Unit& unit, Scenario s, std::size_t group);
    /// `mass`: odds of the target in this scenario; returns P(a donor of the family) of them.
    double add(const Target& target, double mass, double log_p);
    /// Adds to [assembly column] the odds of its donors.
    void take(std::vector<double>& by_column) const;

   private:
    const Unit& unit_;
    Scenario s_;
    std::size_t group_;
    std::vector<double> from_;  ///< [donor in order of date]: coefficient that holds from this one on
  };

  /// Visits the values that may be there after `way`, and how they came: act(value, P(and it is of the type as built), P(and it is not), cause, index).
  /// `index`: of the change, conversion or assembly column. The probabilities sum to 1.
  template <class Act>
  void each_state(const Target& target, Scenario s, std::size_t position, Way way, Act&& act) const;

 private:
  /// What may replace the assembly on builds of a donor group with the same known outside donors.
  struct Replacement {
    std::size_t donor_group = 0;
    std::vector<std::size_t> changes;
    std::vector<std::pair<std::size_t, double>> outside;  ///< change, its share of the replaced
    double unnamed = 0, family = 0;                        ///< the rest of the replaced
  };
  struct Overlay {
    double keep = 1;  ///< that no conversion set it
    struct Set {
      std::size_t conversion, value;
      double share;
    };
    std::vector<Set> sets;
  };
  /// Sums over the donors in order of date, scaled by exp(-scale).
  struct DonorSums {
    double scale = 0;
    std::vector<double> from;  ///< [n]: sum over the donors from the nth on of volume x P(noted | donor); one more than donors
  };

  /// What the donors leave at one position, without what was noted of it: sums over the donors in order of date, scaled by exp(-scale).
  struct DonorStates {
    double scale = 0;
    std::vector<double> from;  ///< [n][value]: sum over the donors from the nth on of volume x P(noted of the others | donor) x P(value there | donor)
  };

  void find_conversions();
  void find_replacements(std::optional<Month> inspected);
  static void overlay_pairs(const Overlay& first, const Overlay& second, std::size_t n, std::size_t m, std::vector<double>& joint);
  double mixed(const Overlay& overlay, std::size_t position, double factor) const;
  double plain_product(const std::vector<ColumnIndex>& columns, Scenario s, std::span<const std::size_t> without) const;
  double outside_product(const Target& target, Scenario s, std::size_t change, std::span<const std::size_t> without) const;
  double unnamed_product(Scenario s, std::span<const std::size_t> without) const;
  std::optional<ValueIndex> set_by(std::size_t change, std::size_t position) const;
  double unnamed_share(std::size_t position, ValueIndex value) const;
  double donor_norm(const Target& target) const;
  /// [donors that are alike]: log of their share of the donors of this target's vehicles.
  const std::vector<double>& log_shares(const Target& target) const;
  double donor_weight(const Target& target, std::size_t donor) const;

  const Tables* t_;
  std::optional<std::size_t> assembly_;
  std::vector<FeatureLikelihood> features_;
  std::vector<std::size_t> positions_;    ///< of features_ within AssemblyInfo::features
  std::vector<std::size_t> conversions_;
  std::size_t levels_ = 1;
  std::vector<double> replaced_;          ///< [level]: c_a
  /// What one scenario makes probable; worked out when first asked for, since most sets of conversions are had on no vehicle.
  struct Table {
    std::vector<Overlay> overlay;                  ///< [position]
    std::vector<std::vector<double>> log_factor;   ///< [position][column]: log P(noted | that column, its own life)
    std::vector<double> log_unnamed;               ///< [position]: log P(noted | from an unnamed outside donor)
    std::vector<double> donor_log;                 ///< [donors that are alike]: log P(noted | donor)
    std::vector<DonorSums> donor_sums;             ///< [donor group]
    std::map<std::tuple<std::size_t, std::size_t, std::size_t>, DonorStates> donor_states;  ///< by donor group, position, and the one left out besides (else npos)
    std::map<std::tuple<std::size_t, std::size_t, std::size_t>, DonorStates> donor_pairs;   ///< by donor group and two positions; [n][value x value]
  };
  Table& table(Scenario s) const;
  const DonorStates& donor_states(Scenario s, std::size_t group, std::size_t position, std::optional<std::size_t> without) const;
  /// `states(column of each position, out)` adds what donors alike have, sum 1; `rest`: which positions' notes count.
  template <class Rest, class States>
  DonorStates sum_states(const Table& at, std::size_t group, std::size_t values, Rest&& rest, States&& states) const;
  double log_share_of_family(const Target& target, Scenario s) const;
  std::vector<Overlay> overlays(std::uint32_t had) const;
  void sum_donors(Table& table) const;
  mutable std::unordered_map<std::size_t, Table> tables_;           ///< by index(scenario)
  std::vector<Replacement> replacements_;
  /// Donors that have the same column of every observed feature.
  struct Alike {
    std::vector<ColumnIndex> columns;     ///< [position]
    std::vector<std::size_t> donors;      ///< indexes into donors_
  };
  std::vector<Alike> alike_;
  std::vector<std::size_t> alike_of_;     ///< [donor]
  mutable std::map<std::pair<std::uint32_t, std::uint32_t>, std::vector<double>> log_shares_;  ///< by replacement and first_later; filled when asked for
  std::vector<std::size_t> donors_;       ///< assembly columns in order of their mean month
  std::vector<double> donor_month_;       ///< [in that order]
  std::vector<std::vector<double>> volume_from_;                    ///< [donor group][n]: volume of the donors from the nth on
};

// ---- the visitors

template <class Act>
void Unit::each_way(const Target& target, Scenario s, std::span<const std::size_t> without, Act&& act) const {
  each_way_but_donors(target, s, without, act);
  if (!assembly_ || replaced_[s.level] <= 0) return;
  const double c = replaced_[s.level];
  const Replacement& r = replacements_[target.replacement];
  if (r.family <= 0) return;
  const std::vector<double>& log_share = log_shares(target);
  const Table& at = table(s);
  const double log_family = std::log(c * r.family);
  for (std::size_t k = 0; k < alike_.size(); ++k) {
    if (log_share[k] == log_zero) continue;
    double product = at.donor_log[k];
    for (std::size_t i : without) product -= at.log_factor[i][alike_[k].columns[i]];
    act(Way{Way::Kind::donor, k}, log_family + log_share[k] + product);
  }
}

template <class Act>
void Unit::each_way_but_donors(const Target& target, Scenario s, std::span<const std::size_t> without, Act&& act) const {
  const double c = assembly_ ? replaced_[s.level] : 0.0;
  act(Way{}, std::log1p(-c) + plain_product(target.columns, s, without));
  if (!assembly_ || c <= 0) return;
  const Replacement& r = replacements_[target.replacement];
  for (const auto& [change, share] : r.outside) act(Way{Way::Kind::outside, change}, std::log(c * share) + outside_product(target, s, change, without));
  if (r.unnamed > 0) act(Way{Way::Kind::unnamed, 0}, std::log(c * r.unnamed) + unnamed_product(s, without));
}

template <class Act>
void Unit::each_outcome(const Target& target, Scenario s, std::size_t position, std::optional<std::size_t> without, double log_p, Act&& act) const {
  const std::array<std::size_t, 2> left_out{position, without.value_or(position)};
  const std::span<const std::size_t> skipped(left_out.data(), without ? 2 : 1);
  each_way_but_donors(target, s, skipped, [&](Way way, double log_weight) {
    const double weight = std::exp(log_weight - log_p);
    if (weight <= 0) return;
    each_state(target, s, position, way, [&](std::size_t v, double type, double later, Cause cause, std::size_t index) { act(v, weight * type, weight * later, cause, index); });
  });
  const double log_share = log_share_of_family(target, s);
  if (log_share == log_zero) return;
  const DonorStates& states = donor_states(s, donor_group(target), position, without);
  const double weight = std::exp(log_share + states.scale - log_p);
  if (weight <= 0) return;
  const std::vector<double>& works = features_[position].works(target.columns[position]);
  const Overlay& overlay = table(s).overlay[position];
  const double* const all = states.from.data();
  const double* const later = all + target.first_later * works.size();
  double sum = 0;
  for (std::size_t v = 0; v < works.size(); ++v) {
    const double p = weight * (all[v] + (t_->rates.later_weight - 1) * later[v]);
    sum += p;
    if (p > 0 && overlay.keep > 0) act(v, overlay.keep * p * works[v], overlay.keep * p * (1 - works[v]), Cause::donor, std::size_t{0});
  }
  for (const auto& set : overlay.sets) act(set.value, sum * set.share * works[set.value], sum * set.share * (1 - works[set.value]), Cause::conversion, set.conversion);
}

template <class Act>
void Unit::each_state(const Target& target, Scenario s, std::size_t position, Way way, Act&& act) const {
  const FeatureLikelihood& f = features_[position];
  const std::vector<double>& works = f.works(target.columns[position]);
  const Overlay& overlay = table(s).overlay[position];
  for (const auto& set : overlay.sets) act(set.value, set.share * works[set.value], set.share * (1 - works[set.value]), Cause::conversion, set.conversion);
  const double keep = overlay.keep;
  if (keep <= 0) return;
  std::optional<std::size_t> fixed;
  if (way.kind == Way::Kind::outside) fixed = set_by(way.index, position);
  if (fixed) {
    act(*fixed, keep * works[*fixed], keep * (1 - works[*fixed]), Cause::outside_donor, way.index);
  } else if (way.kind == Way::Kind::own || way.kind == Way::Kind::outside) {
    const double e = f.altered(s.level);
    const Changed& changed = f.changed(target.columns[position]);
    for (std::size_t v = 0; v < works.size(); ++v) {
      if (works[v] > 0) act(v, keep * (1 - e) * works[v], 0.0, Cause::as_built, std::size_t{0});
      const double family = keep * e * changed.family[v];
      if (family > 0) act(v, family * works[v], family * (1 - works[v]), Cause::family_by_itself, std::size_t{0});
    }
    for (const auto& k : changed.known) {
      const std::size_t v = t_->changes[k.change].sets.front().value;
      const double p = keep * e * k.share;
      act(v, p * works[v], p * (1 - works[v]), Cause::known_change, k.change);
    }
    const double outside = keep * e * changed.outside;
    if (outside > 0) act(works.size() - 1, outside * works.back(), outside * (1 - works.back()), Cause::outside_by_itself, std::size_t{0});
  } else {
    const Cause cause = way.kind == Way::Kind::donor ? Cause::donor : Cause::unnamed_donor;
    const ColumnIndex column = way.kind == Way::Kind::donor ? alike_[way.index].columns[position] : ColumnIndex{0};
    for (ValueIndex v; v < works.size(); ++v) {
      const double p = keep * (way.kind == Way::Kind::donor ? f.there(s.level, column, v) : unnamed_share(position, v));
      if (p > 0) act(v, p * works[v], p * (1 - works[v]), cause, way.index);
    }
  }
}

}  // namespace exworks
