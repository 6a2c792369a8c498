#pragma once
#include <optional>
#include <string>
#include <vector>

#include "assess/code_verdict.hpp"
#include "assess/settings.hpp"
#include "base/spelling.hpp"
#include "engine/infer/findings.hpp"

/// What follows for one observed feature, as data: words/reasons.hpp makes the sentences.
namespace exworks {

enum class VerdictKind { original, later_change, uncertain };

template <>
struct Spelling<VerdictKind> {
  static constexpr std::string_view words[] = {"original", "later change", "uncertain"};
};

struct DonorDates {
  Month from, to;
  double p = 0;  ///< that the assembly was replaced from a vehicle of the family
};

/// One way in which a later change came about.
struct Explanation {
  Cause cause = Cause::family_by_itself;
  double p = 0;                          ///< P(it | everything, and the feature is not of the type as built)
  std::optional<std::size_t> change;     ///< index into Tables::changes: of a known change, and of an outside donor that the pack names
  std::optional<std::size_t> conversion; ///< index into Tables::conversions
  std::optional<DonorDates> donor;       ///< of a donor of the family
};

/// What a verdict's reason says; the comment has its gist.
enum class ReasonKind {
  silent,             ///< the pack is silent for most of the builds that remain
  as_built,           ///< the works fitted it (`fact`)
  in_range,           ///< the serial lies in a range of such vehicles
  left_without,       ///< such vehicles left the works without it
  changed,            ///< not of the build that leads, which had `instead`; `explanations`, or `fact`: where else the works fitted it
  of_no_build,        ///< the pack is silent for most, but no vehicle of the family left the works with it
  partly_silent,      ///< the pack is silent for part of the builds that remain
  comes_and_goes,     ///< optional when new (`fact`), and bolts on and off
  often_changed,      ///< says little: changed so easily and so often
  may_be_added,       ///< optional when new (`fact`), or added later
  right_for_some,     ///< of the builds that remain
  changed_looks_same, ///< the works fitted it, but a changed one would look the same
  slip_likelier,      ///< not what the works fitted (`instead`): a slip of the eye rather than a change
  not_beyond_doubt    ///< the same: rather a change, `explanations`
};

struct Reason {
  ReasonKind kind = ReasonKind::silent;
  std::optional<std::size_t> fact;        ///< of the feature, which the sentence names
  std::vector<std::size_t> instead;       ///< values that the works fitted; FeatureInfo::other(): none of the listed
  std::vector<Explanation> explanations;  ///< of a change, likeliest first
  std::vector<std::size_t> facts;         ///< of the feature, on which the verdict rests
  std::vector<std::size_t> sources;
  bool memory_alone = false;              ///< all of them from memory
};

/// Which way an uncertain verdict leans.
enum class Lean { rather_later, open, rather_original };

template <>
struct Spelling<Lean> {
  static constexpr std::string_view words[] = {"rather later", "open", "rather original"};
};

/// A sign of age or origin on the part itself.
enum class PartSign { worn_like_the_rest, fresher, more_worn, makers_mark, other_makers_mark, no_mark, code_supports, code_after, code_long_before };

/// The very part: is it the one fitted when new?
struct PartEvidence {
  std::vector<PartSign> signs;
  double ratio = 1;  ///< of the signs together, for its being the part fitted when new; judgement
  double p = 0;      ///< P(it is the part fitted when new)
};

struct FeatureVerdict {
  FeatureFinding finding;
  std::vector<ValueIndex> noted;  ///< values that the look left open, mostly one; FeatureInfo::other(): "none of these"
  std::optional<std::size_t> observation;  ///< index into Inspection::observations; nothing when a number said it
  std::optional<std::size_t> number;       ///< index into Tables::numbers: that which said it
  std::optional<MeasureNoted> measure;
  VerdictKind verdict = VerdictKind::uncertain;
  double p = 0.5;                  ///< P(type as built | everything, and the pack speaks of the build): what the verdict goes by
  std::optional<Lean> lean;        ///< of an uncertain verdict of which the pack speaks
  Reason reason;
  PartEvidence part;
  Reversible reversible = Reversible::unknown;  ///< for a later change
  double hours = 0;                ///< to put back, when known
  std::vector<std::size_t> hinges_on;  ///< features without which the verdict is no longer firm

  bool noted_none_of_these(const Tables& tables) const { return noted.size() == 1 && noted.front() == tables.features[finding.feature].other(); }
  /// Expected works share of what was noted, over the builds that remain.
  double works_share() const;
  /// The explanation that leads, or null.
  const Explanation* explained() const { return reason.explanations.empty() ? nullptr : &reason.explanations.front(); }
  /// The donor of the family that explains it best, if one does.
  const DonorDates* donor() const { return explained() != nullptr && explained()->donor ? &*explained()->donor : nullptr; }
};

/// The later change or conversion of the pack that explains a verdict best, or null.
const NamedChange* named_change(const Tables& tables, const FeatureVerdict& verdict);

/// What verdicts are judged from; all of it is complete before the first is.
struct VerdictInputs {
  const Tables& tables;
  const Inspection& inspection;
  const Evidence& evidence;
  const Posterior& posterior;
  const std::vector<FeatureFinding>& findings;
  const std::vector<AssemblyFinding>& assemblies;
  const std::vector<CodeVerdict>& codes;
  const Settings& settings;
};

/// By the odds alone, of the builds of which the pack speaks. Where it is silent for most, nothing follows but that a kind which no vehicle
/// of the family left the works with came later.
VerdictKind verdict_by_odds(const Tables& tables, const FeatureFinding& finding, const Seen& seen, const Settings& settings);

FeatureVerdict judge_feature(const VerdictInputs& inputs, const FeatureFinding& finding);

}  // namespace exworks
