#pragma once
#include <string>
#include <vector>

#include "record/inspection.hpp"
#include "scheme/scheme.hpp"
#include "assess/assessment.hpp"

/// Published classifications of one vehicle, from its verdicts and from what a person answered.
namespace exworks {

/// Where what is known of a question comes from.
enum class AnswerFrom { verdicts, answer, open };

template <>
struct Spelling<AnswerFrom> {
  static constexpr std::string_view words[] = {"verdicts", "answer", "open"};
};

/// One question of a scheme and what is known of it.
struct SchemeLine {
  std::size_t question = 0;
  std::vector<std::size_t> possible;      ///< answers that remain
  AnswerFrom from = AnswerFrom::open;
  std::vector<std::size_t> features;      ///< of the pack, on which it rests
  std::vector<std::string> not_inspected; ///< components asked for of which nothing was seen
};

struct SchemeVerdict {
  std::size_t scheme = 0;                 ///< index into the schemes given
  bool in_force = true;                   ///< on the day asked of; else it is the rule of before (or after)
  Classification result;
  std::vector<SchemeLine> lines;          ///< [question]
};

/// A component speaks for the original answers when each feature of it that was looked at is of the type as built (and each component that the
/// question names was looked at), for the later ones when one is a later change; else every answer remains. An answer of the inspection
/// counts before that. Answers that no scheme has are warned of. The build date is the 90 % date set.
std::vector<SchemeVerdict> scheme_verdicts(const std::vector<Scheme>& schemes, const Tables& tables, const Assessment& assessment, const Inspection& inspection,
                                           const CalendarDay& today, Diagnostics& diagnostics);

}  // namespace exworks
