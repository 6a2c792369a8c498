#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.hpp"
#include "engine/tables/tables.hpp"
#include "record/inspection.hpp"

/// An inspection bound to one pack: what was seen, as indices and likelihoods.
namespace exworks {

/// A measure as it was noted, and what it comes to.
struct MeasureNoted {
  double noted = 0;
  std::optional<double> noted_to;  ///< where it lies between two figures
  std::string unit;
  double amount = 0;    ///< in FeatureInfo::unit
  std::optional<double> amount_to;
  bool matches = true;  ///< some value of the pack within its tolerance
};

/// One observed feature.
struct Seen {
  FeatureIndex feature;
  ValueIndex value;             ///< observed; FeatureInfo::other() for "none of these"; the first of several
  std::vector<ValueIndex> left_open;  ///< what the look left open: `value` alone, or several, ascending
  Trust trust;
  std::vector<double> given;         ///< [value]: P(observed | the value that is there)
  std::optional<std::size_t> observation;  ///< index into Inspection::observations; nothing when a number said it
  std::optional<std::size_t> number;       ///< index into Tables::numbers: that which said it
  std::optional<MeasureNoted> measure;
};

/// A number that was read, and how the pack's forms read it (none when they can't).
struct NumberRead {
  std::size_t number = 0;
  std::size_t seen = 0;  ///< index into Inspection::numbers
  std::string text;
  std::vector<FormReading> readings;
  std::optional<NumberFailure> unread;  ///< why no form reads it
  NumberState state = NumberState::as_found;
  double not_own = 0.03;  ///< P(it is miswritten or not the vehicle's own), before looking
};

/// What the answer is conditioned on: `--given` of the command.
struct Given {
  std::vector<bool> variants, markets, plants;  ///< empty: all
  std::optional<Edge> built;
  std::optional<bool> own_number;               ///< the identity number taken as the vehicle's own, or as not

  bool any() const { return !variants.empty() || !markets.empty() || !plants.empty() || built || own_number; }
  bool allows(const RouteInfo& route, Month month) const;
};

struct IdentityLikelihood;

struct Evidence {
  std::vector<Seen> seen;            ///< at most one of a feature
  std::vector<NumberRead> numbers;
  std::optional<std::size_t> identity;  ///< index into `numbers`; see take_identity()
  std::shared_ptr<const IdentityLikelihood> identity_says;  ///< with `identity`
  std::optional<Month> inspected;
  std::string country;               ///< where the vehicle stands, as the pack's markets name it; "" when not known
  std::vector<double> document_weight;  ///< [build]: P(documents | b), empty when there is none
  Given given;

  const Seen* find(FeatureIndex feature) const;
  /// What was read of a number of the pack, if it was.
  const NumberRead* find_number(std::size_t number) const;
};

/// Looks up every name in the pack. Unknown names are errors with the nearest known one; nothing is dropped silently.
Evidence bind(const Tables& tables, const Inspection& inspection, Diagnostics& diagnostics);

/// A look at one feature that leaves these values open.
Seen look(const Tables& tables, FeatureIndex feature, std::vector<ValueIndex> left_open, Trust trust);

}  // namespace exworks
