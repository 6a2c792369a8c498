#pragma once
#include <optional>
#include <string>
#include <vector>

#include "assess/claim_verdict.hpp"
#include "assess/code_verdict.hpp"
#include "assess/feature_verdict.hpp"
#include "assess/marginals.hpp"
#include "assess/number_verdict.hpp"
#include "engine/evidence/documents.hpp"
#include "engine/infer/score.hpp"

/// The answer, as plain data: enums, indices and odds. lib/words makes the sentences, with the tables and the inspection that the indices
/// are into.
namespace exworks {

struct DocumentVerdict {
  WeighedPaper paper;
  double p_right = 0;  ///< P(it speaks of this vehicle and is right | everything)
};

/// What a reading takes for true.
enum class Condition { own_number, other_number, claim };

struct ReadingLine {
  FeatureIndex feature;
  std::vector<ValueIndex> noted;  ///< values
  VerdictKind verdict = VerdictKind::uncertain;
  double p_type = 0;
};

/// The same evidence, taken in a given way.
struct Reading {
  Condition condition = Condition::own_number;
  std::size_t claim = 0;         ///< of a claim: index into Assessment::claims
  double p = 0;                  ///< P(the condition | everything)
  bool possible = true;          ///< false: no build of the pack allows it
  std::optional<RouteOdds> leading;
  DateSet date;
  std::vector<ReadingLine> features;
};

/// How well the vehicle fits the pack.
enum class FitKind {
  not_computed,
  nothing_observed,
  impossible,     ///< nothing in the pack allows what was given
  contradictory,  ///< hardly any simulated vehicle looks as unlikely
  unusual,
  usual
};

struct Fit {
  FitKind kind = FitKind::not_computed;
  double p = 1;  ///< share of simulated vehicles that look at least as unlikely

  bool bad() const { return kind == FitKind::impossible || kind == FitKind::contradictory || kind == FitKind::unusual; }
};

enum class RemarkKind { nothing_observed, invented_family, document_without_build, document_without_date };

struct Remark {
  RemarkKind kind = RemarkKind::nothing_observed;
  std::optional<std::size_t> document;  ///< index into Inspection::documents
};

struct Assessment : Marginals {
  std::optional<Month> inspected;
  std::vector<FeatureVerdict> features;           ///< in the pack's order
  std::vector<NumberVerdict> numbers;
  std::vector<ClaimVerdict> claims;
  std::vector<DocumentVerdict> documents;
  std::vector<CodeVerdict> codes;
  std::vector<std::size_t> missing, cannot_tell;  ///< indices into Inspection::observations
  std::vector<Reading> readings;
  std::vector<std::size_t> hinges_on;             ///< features without which the leading variant no longer leads
  std::vector<ConversionFinding> conversions;     ///< [conversion of Tables::conversions]
  std::vector<double> alteration;                 ///< [level of Rates::alteration]: how much it was altered; sums to 1
  Score score;
  Fit fit;
  std::vector<std::size_t> cautions;
  std::vector<Remark> remarks;
  Settings settings;
  double log_evidence = 0;
};

/// Binds, infers and judges. Mistakes of the inspection become diagnostics; nothing is returned when there is an error.
std::optional<Assessment> assess(const Tables& tables, const Inspection& inspection, const Settings& settings, const Given& given, Diagnostics& diagnostics);

}  // namespace exworks
