#pragma once
#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/diagnostic.hpp"

/// Published classifications as data (rules/scheme/*.xml; format: rules/FORMAT.md, "Schemes"): questions with a few possible
/// answers, points, and outcomes of which the first whose conditions hold is the answer.
namespace exworks {

inline constexpr int scheme_format = 1;

struct SchemeSource {
  std::string id, kind, words, url;
};

struct SchemeAnswer {
  std::string id, name;
  bool of_original = false;  ///< possible where the parts seen are of the type as built
  bool of_later = false;     ///< possible where one of them is a later change
};

/// A question of the scheme. Where the vehicle's parts can speak to it, `components` says which; else a person answers.
struct SchemeQuestion {
  std::string id, ask;
  std::vector<std::string> components;
  std::vector<SchemeAnswer> answers;
  std::optional<int> lapses;      ///< after so many years ...
  std::size_t lapses_to = 0;      ///< ... a dated answer counts as this one
  Place place;
};

struct SchemePoints {
  std::size_t question = 0;
  std::set<std::size_t> answers;
  double points = 0;
  std::string clause;
};

/// What must hold. All conditions of an outcome must.
struct SchemeCondition {
  enum class Kind { answer, count, points, age, built };
  Kind kind = Kind::answer;
  std::vector<std::size_t> questions;
  std::vector<std::set<std::size_t>> answers;  ///< [position in questions]
  double at_least = 0, at_most = 1e9;          ///< count, points; age in whole years
  bool year_end = false;                       ///< age: counted from 31 December of the year of build
  std::optional<CalendarDay> from, to;                 ///< built: both included
};

struct SchemeOutcome {
  std::string id, name, clause, advice;
  std::vector<SchemeCondition> conditions;
  std::vector<std::size_t> sources;
};

struct Scheme {
  std::string id, name, group, edition, decides, assume, note;  ///< decides: the body that alone does
  std::string country;                                         ///< "GB", "DE", "EU", or "" for everywhere
  std::optional<CalendarDay> from, to;                                 ///< in force, both included
  std::vector<SchemeSource> sources;
  std::vector<SchemeQuestion> questions;
  std::vector<SchemePoints> points;
  std::vector<SchemeOutcome> outcomes;
  Place place;

  bool in_force(const CalendarDay& day) const { return (!from || day >= *from) && (!to || day <= *to); }
  std::optional<std::size_t> question(const std::string& question_id) const;
};

/// Reads one file given as text. All mistakes are reported; nothing is returned when there is an error.
std::optional<Scheme> read_scheme(std::string text, const std::string& file, Diagnostics& diagnostics);

/// Reads every *.xml of a folder, by name; none when there is no such folder. Throws FileError when a file can't be read.
std::vector<Scheme> read_schemes(const std::filesystem::path& folder, Diagnostics& diagnostics);

/// What is known of one vehicle: for each question the answers that remain possible, and the days on which it may have been built.
struct SchemeCase {
  std::vector<std::set<std::size_t>> possible;  ///< [question], none empty
  CalendarDay built_from, built_to;
  CalendarDay today;
};

struct Classification {
  std::vector<std::size_t> outcomes;             ///< those that remain possible, in the scheme's order
  std::optional<double> points_low, points_high; ///< where the scheme has points
  std::vector<std::size_t> open;                 ///< questions whose answer would leave fewer outcomes
  bool date_open = false;                        ///< the build date decides, too
};

/// Exact: every combination of the answers that remain is tried, on every day on which a condition can change.
Classification classify(const Scheme& scheme, const SchemeCase& vehicle);

}  // namespace exworks
