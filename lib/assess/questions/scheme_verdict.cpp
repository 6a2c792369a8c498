#include "assess/questions/scheme_verdict.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace exworks {

namespace {

/// What the verdicts say of one component.
struct ComponentState {
  bool seen = false, original = true, later = false;
  std::vector<std::size_t> features;
};

bool belongs(const FeatureInfo& f, const std::string& component) {
  if (component == "rest") return f.components.empty();
  return std::find(f.components.begin(), f.components.end(), component) != f.components.end();
}

ComponentState state_of(const Tables& t, const Assessment& a, const std::string& component) {
  ComponentState out;
  for (const FeatureVerdict& f : a.features) {
    if (!belongs(t.features[f.finding.feature], component)) continue;
    out.seen = true;
    out.features.push_back(f.finding.feature);
    out.original = out.original && f.verdict == VerdictKind::original;
    out.later = out.later || f.verdict == VerdictKind::later_change;
  }
  out.original = out.original && out.seen;
  return out;
}

class Questioner {
 public:
  Questioner(const Scheme& scheme, const Tables& t, const Assessment& a, const Inspection& i, const CalendarDay& today, Diagnostics& d)
      : s_(scheme), t_(t), a_(a), i_(i), today_(today), d_(d) {}

  SchemeVerdict run(std::size_t index) {
    SchemeVerdict out;
    out.scheme = index;
    out.in_force = s_.in_force(today_);
    SchemeCase known;
    known.built_from = first_day(a_.date.from);
    known.built_to = last_day(a_.date.to);
    known.today = today_;
    for (std::size_t q = 0; q < s_.questions.size(); ++q) {
      out.lines.push_back(ask(q));
      known.possible.emplace_back(out.lines.back().possible.begin(), out.lines.back().possible.end());
    }
    out.result = classify(s_, known);
    return out;
  }

 private:
  SchemeLine ask(std::size_t q) {
    SchemeLine line;
    line.question = q;
    const SchemeQuestion& question = s_.questions[q];
    for (const ClassificationAnswer& a : i_.answers) {
      if (a.question == question.id && (a.scheme.empty() || a.scheme == s_.id)) answered(a, question, line);
    }
    if (!line.possible.empty()) return line;
    bool original = !question.components.empty(), later = false;
    for (const std::string& component : question.components) {
      const ComponentState state = state_of(t_, a_, component);
      for (const std::size_t f : state.features) {  // one feature can speak of two components
        if (std::find(line.features.begin(), line.features.end(), f) == line.features.end()) line.features.push_back(f);
      }
      if (!state.seen) line.not_inspected.push_back(component);
      original = original && state.original;
      later = later || state.later;
    }
    line.from = original || later ? AnswerFrom::verdicts : AnswerFrom::open;
    for (std::size_t i = 0; i < question.answers.size(); ++i) {
      if (later ? question.answers[i].of_later : !original || question.answers[i].of_original) line.possible.push_back(i);
    }
    return line;
  }

  void answered(const ClassificationAnswer& a, const SchemeQuestion& question, SchemeLine& line) {
    std::vector<std::string> ids;
    for (const SchemeAnswer& x : question.answers) ids.push_back(x.id);
    for (const std::string& word : a.is) {
      const auto at = std::find(ids.begin(), ids.end(), word);
      // Schemes may share a question and differ in its answers; a word for the other one is no mistake here.
      if (at != ids.end()) line.possible.push_back(static_cast<std::size_t>(at - ids.begin()));
      else if (!a.scheme.empty()) d_.warning(a.place, "question '" + question.id + "' of scheme '" + s_.id + "' has no answer '" + word + "'", did_you_mean(word, ids, "it has " + join_and(ids)));
    }
    if (line.possible.empty()) return;
    line.from = AnswerFrom::answer;
    const bool lapsed = question.lapses && a.date && !a.date->open && years_between(last_day(a.date->last), today_) >= *question.lapses;
    if (lapsed) line.possible = {question.lapses_to};
  }

  const Scheme& s_;
  const Tables& t_;
  const Assessment& a_;
  const Inspection& i_;
  CalendarDay today_;
  Diagnostics& d_;
};

void warn_of_unknown(const std::vector<Scheme>& schemes, const Inspection& inspection, Diagnostics& d) {
  for (const ClassificationAnswer& a : inspection.answers) {
    std::vector<std::string> known;
    for (const Scheme& s : schemes) {
      if (!a.scheme.empty() && a.scheme != s.id) continue;
      for (const SchemeQuestion& q : s.questions) known.push_back(q.id);
    }
    std::sort(known.begin(), known.end());
    known.erase(std::unique(known.begin(), known.end()), known.end());
    if (std::find(known.begin(), known.end(), a.question) != known.end()) continue;
    const std::string whose = a.scheme.empty() ? "no scheme" : "scheme '" + a.scheme + "'";
    d.warning(a.place, whose + " has the question '" + a.question + "'", did_you_mean(a.question, known, known.empty() ? "'exworks scheme --list' lists the schemes" : "known are " + join_and(known)));
  }
}

}  // namespace

std::vector<SchemeVerdict> scheme_verdicts(const std::vector<Scheme>& schemes, const Tables& tables, const Assessment& assessment, const Inspection& inspection,
                                           const CalendarDay& today, Diagnostics& diagnostics) {
  warn_of_unknown(schemes, inspection, diagnostics);
  std::vector<SchemeVerdict> out;
  for (std::size_t i = 0; i < schemes.size(); ++i) out.push_back(Questioner(schemes[i], tables, assessment, inspection, today, diagnostics).run(i));
  return out;
}

}  // namespace exworks
