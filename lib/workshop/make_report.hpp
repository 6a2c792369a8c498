#pragma once
#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.hpp"
#include "engine/evidence/evidence.hpp"
#include "report/model/report.hpp"
#include "book/book.hpp"

/// From an inspection or a job to the finished report: one way for the verb and for the guided inspection. Nothing is printed.
namespace exworks {

/// What a report is about: an inspection with its photos, and what the job book remembers of it.
struct ReportSubject {
  Inspection inspection;
  std::map<std::string, ReportPhoto> photos;
  JobRecord record;
};

/// What the owner's note on value needs.
struct ValueWanted {
  std::vector<Comparable> sales;
  int condition = 0;               ///< 1 to 5; 0: not given
  double trend = 0, rate = 0;      ///< per cent a year; an hour of work
  std::vector<std::string> parts;  ///< CHANGE=AMOUNT or FEATURE=AMOUNT
};

struct ReportWanted {
  ReportOptions options;
  Given given;
  bool redacted = false;
  std::optional<ValueWanted> value;
  std::vector<Scheme> schemes;  ///< to be shown; those in force on the report's date are
};

struct MadeReport {
  std::string html, text;
  std::shared_ptr<const nlohmann::ordered_json> contents;  ///< all that it says, for programs; never null
};

/// Today, 2026-11-20.
std::string today();

/// From the words of the command line and of the guided inspection: kind (pre-purchase, intake, owner), terms (en-GB ...), paper
/// (a4, letter, or "" by the terms), date (2026-11-20, or "" for today).
ReportOptions report_options(const std::string& kind, const std::string& terms, const std::string& paper, const std::string& date);

/// The job as it stands in the book. Mistakes of its inspection become diagnostics.
std::optional<ReportSubject> subject_of_job(Book& book, std::int64_t job, Diagnostics& diagnostics);

/// `pack` as it was compiled; its words are swapped here. Nothing is returned when the inspection has errors.
std::optional<MadeReport> make_report(const Tables& pack, ReportSubject subject, const ReportWanted& wanted, Diagnostics& diagnostics);

}  // namespace exworks
