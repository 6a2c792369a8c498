#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "record/inspection.hpp"
#include "report/model/document.hpp"
#include "assess/case.hpp"
#include "assess/questions/next_checks.hpp"
#include "assess/questions/scheme_verdict.hpp"
#include "value/valuation.hpp"
#include "words/english/region.hpp"

/// What a buyer, a workshop and an owner read.
namespace exworks {

enum class ReportKind { pre_purchase, intake, owner };

/// A photo as it is shown: the picture itself and what was said of it when it was kept.
struct ReportPhoto {
  std::string data_uri;              ///< a data: address, or "" when it could not be taken in
  std::string feature, note, taken;  ///< of the job book: the feature's id, the inspector's words, 2026-11-20T10:15:00
};

/// An entry of the job book that was said anew or taken back.
struct RecordChange {
  std::string at;              ///< 2026-11-20T10:15:00Z
  std::string feature;         ///< its id, or that of a number
  std::string before, now;     ///< values' ids, numbers or states; "" where there was nothing
};

/// What an assessment that the job book kept said of the build.
struct EarlierAnswer {
  std::string at, variant, from, to;  ///< variant: its id; months, 1950-09
};

/// What the job book remembers beyond the inspection.
struct JobRecord {
  std::vector<RecordChange> changes;    ///< oldest first
  std::vector<EarlierAnswer> answers;   ///< oldest first
};

struct ReportInput : Case {
  const NextChecks& next;
  std::map<std::string, ReportPhoto> photos;  ///< by the name in the inspection or the book
  const Valuation* valuation = nullptr;
  JobRecord record;
  const std::vector<Scheme>* schemes = nullptr;
  std::vector<SchemeVerdict> scheme_verdicts;  ///< of these schemes
};

struct ReportOptions {
  ReportKind kind = ReportKind::pre_purchase;
  Region region = Region::en_GB;
  std::string paper = "A4";
  std::string date;     ///< of the report, 2026-11-20
  std::string program;  ///< its name and version
};

}  // namespace exworks
