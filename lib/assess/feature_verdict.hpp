#pragma once
#include <optional>
#include <string>
#include <vector>

#include "assess/code_verdict.hpp"
#include "assess/settings.hpp"
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

enum class ExplanationKind {
  known_change,   ///< a later change of this feature alone that the pack lists
  outside_donor,  ///< the assembly came from another family's vehicle: a later change that the pack lists
  donor           ///< the assembly came from another vehicle of the family
};

/// One way in which a later change came about.
struct Explanation {
  ExplanationKind kind = ExplanationKind::known_change;
  std::optional<std::size_t> change;  ///< index into Tables::changes
  std::optional<DonorDates> donor;    ///< of a donor of the family
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
  slip_possible       ///< the same, where a slip is only not ruled out
};

struct Reason {
  ReasonKind kind = ReasonKind::silent;
  std::optional<std::size_t> fact;        ///< of the feature, which the sentence names
  std::vector<std::size_t> instead;       ///< values that the works fitted; FeatureInfo::other(): none of the listed
  std::vector<Explanation> explanations;  ///< of a later change
  std::vector<std::size_t> facts;         ///< of the feature, on which the verdict rests
  std::vector<std::size_t> sources;
  bool memory_alone = false;              ///< all of them from memory
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
  std::size_t value = 0;           ///< noted; FeatureInfo::other() for "none of these"
  std::optional<std::size_t> observation;  ///< index into Inspection::observations; nothing when a number said it
  std::optional<std::size_t> number;       ///< index into Tables::numbers: that which said it
  std::optional<MeasureNoted> measure;
  VerdictKind verdict = VerdictKind::uncertain;
  Reason reason;
  PartEvidence part;
  Reversible reversible = Reversible::unknown;  ///< for a later change
  double hours = 0;                ///< to put back, when known
  std::vector<std::size_t> hinges_on;  ///< features without which the verdict is no longer firm

  /// The later change of the pack that explains it, if one does: index into Tables::changes.
  std::optional<std::size_t> known_change() const;
  /// The donor of the family that explains it, if one does.
  const DonorDates* donor() const;
};

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
