#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/infer/evidence.hpp"
#include "engine/infer/score.hpp"
#include "assess/code_verdict.hpp"

/// The answer, as plain data: everything a report says, and nothing that it must work out.
namespace exworks {

/// Settings of the verdicts; shown in every report.
struct Settings {
  double original_from = 0.90;    ///< P(type as built) from which a verdict is "original"
  double later_to = 0.10;         ///< and up to which it is "later change"
  double level = 0.90;            ///< of the date set and the score's interval
  bool memory_decides = false;    ///< a verdict on memory alone may be more than uncertain
  int fit_draws = 200;            ///< simulated vehicles of the fit check; 0 leaves it out
  std::uint64_t seed = 1;
  bool readings = true;           ///< both readings of a number that contradicts the rest, and one of each claim
  bool hinges = true;             ///< what each firm answer hangs on
};

enum class VerdictKind { original, later_change, uncertain };
std::string word(VerdictKind kind);

struct Odds {
  std::size_t index = 0;
  double p = 0;
};

/// The builds of one route that remain: variant, market and plant with the months that hold most of their odds.
struct RouteOdds {
  std::size_t route = 0;
  Month from, to;
  double p = 0;
};

struct DateSet {
  Month from, to, most_likely;
  double level = 0.9;  ///< at least this share of the odds lies within
};

struct DonorDates {
  Month from, to;
  double p = 0;  ///< that the assembly was replaced from a vehicle of the family
};

struct FeatureVerdict {
  FeatureFinding finding;
  std::string id, name, observed;        ///< observed: the value in words
  std::string observed_id;
  std::string how_noted;                 ///< the inspector's note, the measure, or which number said it
  VerdictKind verdict = VerdictKind::uncertain;
  std::string strength;                  ///< of this observation, in words, with what it is for
  std::string part;                      ///< the very part: what is shown of it
  double p_part = 0;                     ///< P(it is the part fitted when new)
  std::string reason;
  std::vector<std::size_t> facts;        ///< of the feature, used in the reason
  std::vector<std::size_t> sources;
  std::optional<std::size_t> later_change;  ///< index into Tables::changes
  std::optional<DonorDates> donor;
  bool memory_alone = false;
  Reversible reversible = Reversible::unknown;  ///< for a later change
  double hours = 0;                      ///< to put back, when known
  std::vector<std::string> hinges_on;    ///< features without which the verdict is no longer firm
};

struct NumberPartWords {
  std::string name, text, means;
};

struct NumberVerdict {
  std::size_t number = 0;
  std::string id, name, text, form, where, agrees;  ///< agrees: yes, no, cannot-tell
  std::vector<NumberPartWords> parts;
  std::vector<std::string> slips;
  std::optional<DateSet> window;   ///< what the number by itself says of the build
  double p_own = 0;                ///< of an identity number: P(it is the vehicle's own | everything)
  std::string note;
};

struct DocumentVerdict {
  std::string words;
  double reliability = 0;
  double p_right = 0;   ///< P(it speaks of this vehicle and is right | everything)
};

struct ClaimVerdict {
  std::string what, by;  ///< "built 1950-05, home market"
  double p = 0;          ///< P(all of it | everything)
};

/// The same evidence, taken in a given way.
struct ReadingLine {
  std::string id, name, observed;
  VerdictKind verdict = VerdictKind::uncertain;
  double p_type = 0;
};

struct Reading {
  std::string given;             ///< in words
  double p = 0;                  ///< P(the condition | everything)
  bool possible = true;          ///< false: no build of the pack allows it
  std::optional<RouteOdds> leading;
  DateSet date;
  std::vector<ReadingLine> features;
};

struct Looked {
  std::string feature, note;
};

struct Assessment {
  std::string vehicle, reference;
  std::optional<Month> inspected;
  std::vector<RouteOdds> routes;                       ///< most likely first, those above 1 % (always one)
  std::vector<Odds> generations, variants, bodies, markets, plants;  ///< most likely first
  DateSet date;
  std::vector<double> month_odds;                      ///< [month - first_month]
  Month first_month;
  std::vector<FeatureVerdict> features;                ///< in the pack's order
  std::vector<NumberVerdict> numbers;
  std::vector<ClaimVerdict> claims;
  std::vector<DocumentVerdict> documents;
  std::vector<CodeVerdict> codes;
  std::vector<Looked> missing, cannot_tell;
  std::vector<Reading> readings;
  std::vector<std::string> hinges_on;                  ///< features without which the leading variant no longer leads
  Score score;
  double fit_p = 1;
  std::string fit_note;
  std::vector<std::size_t> cautions;
  std::vector<std::string> remarks;                    ///< documents recorded, conflicts, "no observation" ...
  Settings settings;
  double log_evidence = 0;
};

/// Binds, infers and judges. Mistakes of the inspection become diagnostics; nothing is returned when there is an error.
std::optional<Assessment> assess(const Tables& tables, const Inspection& inspection, const Settings& settings, const Given& given, Diagnostics& diagnostics);

}  // namespace exworks
