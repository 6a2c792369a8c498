#include <algorithm>

#include "base/text.hpp"
#include "report/kinds/parts.hpp"
#include "report/answers/scheme_report.hpp"

namespace exworks::parts {

namespace {

Text plain(std::string words) { return {std::move(words), {}, Mark::none, false, false}; }
Text quiet(std::string words) { return {std::move(words), {}, Mark::none, false, true}; }

/// The outcome with its clause; where several remain, their names alone: the clauses stand in `exworks scheme`.
void add_outcomes(const Scheme& s, const SchemeVerdict& v, Finding& finding) {
  if (v.result.outcomes.size() == 1) {
    const SchemeOutcome& o = s.outcomes[v.result.outcomes.front()];
    finding.lines.push_back(plain(upper_first(outcome_words(o)) + "." + (o.advice.empty() ? "" : " " + o.advice)));
    return;
  }
  std::vector<std::string> names;
  for (const std::size_t o : v.result.outcomes) {
    if (std::find(names.begin(), names.end(), s.outcomes[o].name) == names.end()) names.push_back(s.outcomes[o].name);
  }
  std::string all;
  for (const std::string& name : names) all += (all.empty() ? "" : &name == &names.back() ? "; or " : "; ") + name;
  finding.lines.push_back(plain("Not settled. " + upper_first(all) + "."));
}

/// What would settle it: questions that a person answers, and parts to look at.
void add_open(const Scheme& s, const SchemeVerdict& v, Finding& finding) {
  std::vector<std::string> asks, unseen;
  for (const std::size_t q : v.result.open) {
    asks.push_back(s.questions[q].ask);
    for (std::string part : v.lines[q].not_inspected) {
      std::replace(part.begin(), part.end(), '-', ' ');
      if (std::find(unseen.begin(), unseen.end(), part) == unseen.end()) unseen.push_back(part);
    }
  }
  if (v.result.date_open) asks.emplace_back("When exactly was it built?");
  std::string all;
  for (const std::string& ask : asks) all += (all.empty() ? "" : " ") + ask;
  if (!all.empty()) finding.lines.push_back(plain("It turns on: " + all));
  if (!unseen.empty()) finding.lines.push_back({"To look at: " + join_and(unseen) + ".", {}, Mark::none, true, false});
}

std::string sources_of(const Scheme& s) {
  std::string out;
  for (const SchemeSource& source : s.sources) out += (out.empty() ? "" : "; ") + source.words + (source.url.empty() ? "" : ", " + source.url);
  return out;
}

}  // namespace

void schemes_section(Report& d, const ReportInput& in, bool brief) {
  bool begun = false;
  std::vector<Text> texts;
  for (const SchemeVerdict& v : in.scheme_verdicts) {
    if (in.schemes == nullptr || !v.in_force) continue;
    const Scheme& s = (*in.schemes)[v.scheme];
    if (!begun) {
      d.heading(2, "How published schemes would take it");
      d.paragraph("Computed from what was seen and answered, by the published text. In each case only the body named decides.");
    }
    begun = true;
    Finding finding{s.name, scheme_points(s, v), v.result.outcomes.size() == 1 ? Mark::none : Mark::uncertain, {}};
    add_outcomes(s, v, finding);
    add_open(s, v, finding);
    std::string decides = "Only " + s.decides + " can decide.";
    if (!brief) {
      if (!s.assume.empty()) finding.lines.push_back(quiet("Taken: " + s.assume));
      if (!s.note.empty()) finding.lines.push_back(quiet(s.note));
      decides += s.edition.empty() ? "" : " " + upper_first(s.edition) + ".";
      texts.push_back(quiet(s.name + ": " + sources_of(s) + "."));
    }
    finding.lines.push_back(quiet(decides));
    d.blocks.push_back(std::move(finding));
  }
  if (texts.empty()) return;
  d.heading(3, "Where these rules are published");
  d.blocks.push_back(Bullets{std::move(texts)});
}

}  // namespace exworks::parts
