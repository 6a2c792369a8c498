#pragma once
#include <optional>
#include <string>
#include <vector>

#include "assess/feature_verdict.hpp"
#include "assess/marginals.hpp"
#include "engine/infer/evidence.hpp"
#include "engine/infer/score.hpp"

/// The answer, as plain data: enums, indices and odds. lib/words makes the sentences.
namespace exworks {

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
  std::size_t feature = 0, value = 0;  ///< value: noted
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

struct Assessment : Marginals {
  std::string vehicle, reference;
  std::optional<Month> inspected;
  std::vector<FeatureVerdict> features;                ///< in the pack's order
  std::vector<NumberVerdict> numbers;
  std::vector<ClaimVerdict> claims;
  std::vector<DocumentVerdict> documents;
  std::vector<CodeVerdict> codes;
  std::vector<Looked> missing, cannot_tell;
  std::vector<Reading> readings;
  std::vector<std::size_t> hinges_on;                  ///< features without which the leading variant no longer leads
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
