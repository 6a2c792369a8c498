#include "report/answers/scheme_report.hpp"

#include <algorithm>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "report/render/page.hpp"

namespace exworks {

namespace {

std::string figure(double x) {
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, "%g", x);
  return buffer;
}

double most_points(const Scheme& s) {
  double out = 0;
  for (const SchemePoints& p : s.points) out += p.points;
  return out;
}

std::string answers_of(const SchemeQuestion& q, const SchemeLine& line) {
  if (line.possible.size() == q.answers.size()) return "open";
  std::vector<std::string> names;
  for (const std::size_t i : line.possible) names.push_back(q.answers[i].name);
  return join_or(names);
}

/// "5 points for A or B (clause)", for each rule of points on this question.
std::vector<std::string> points_for(const Scheme& s, std::size_t question) {
  std::vector<std::string> out;
  for (const SchemePoints& p : s.points) {
    if (p.question != question) continue;
    std::vector<std::string> names;
    for (const std::size_t i : p.answers) names.push_back(s.questions[question].answers[i].name);
    out.push_back(figure(p.points) + (p.points == 1 ? " point for '" : " points for '") + join_or(names) + "'" + (p.clause.empty() ? "" : " (" + p.clause + ")"));
  }
  return out;
}

/// What a line rests on, in words.
std::string basis_of(const Tables& t, const SchemeLine& line) {
  if (line.from == AnswerFrom::answer) return "as answered";
  std::vector<std::string> names;
  for (const std::size_t f : line.features) {
    if (names.size() == 4) break;
    names.push_back(t.features[f].name);
  }
  std::string out = names.empty() ? "" : "by " + join_and(names) + (line.features.size() > names.size() ? " and others" : "");
  if (!line.not_inspected.empty()) out += (out.empty() ? "not inspected: " : "; not inspected: ") + join_and(line.not_inspected);
  return out.empty() ? "a person must answer" : out;
}

/// The outcome and its clause; several as a list, with what they turn on.
void outcomes(Page& page, const Scheme& s, const SchemeVerdict& v) {
  const std::string figures = scheme_points(s, v), points = figures.empty() ? "" : figures + ". ";
  if (v.result.outcomes.size() == 1) {
    const SchemeOutcome& o = s.outcomes[v.result.outcomes.front()];
    page.paragraph(points + outcome_words(o), 2, Page::Tone::strong);
    if (!o.advice.empty()) page.paragraph(o.advice, 2);
    return;
  }
  page.paragraph(points + "Not settled; it may be:", 2, Page::Tone::strong);
  for (const std::size_t o : v.result.outcomes) page.paragraph("- " + outcome_words(s.outcomes[o]), 4);
  std::vector<std::string> open;
  for (const std::size_t q : v.result.open) open.push_back(s.questions[q].id);
  if (v.result.date_open) open.push_back("the date of build");
  page.paragraph(open.empty() ? "No one answer would narrow it; several would." : "It turns on: " + join_and(open) + ".", 2);
}

std::string dates_of(const Scheme& s) {
  if (s.from && s.to) return "in force " + to_iso(*s.from) + " to " + to_iso(*s.to);
  if (s.from) return "in force from " + to_iso(*s.from);
  return s.to ? "in force to " + to_iso(*s.to) : "";
}

}  // namespace

std::string scheme_points(const Scheme& s, const SchemeVerdict& v) {
  if (!v.result.points_low) return "";
  const std::string low = figure(*v.result.points_low), high = figure(*v.result.points_high);
  return (low == high ? low : low + " to " + high) + " of " + figure(most_points(s)) + " points";
}

std::string outcome_words(const SchemeOutcome& o) { return o.name + (o.clause.empty() ? "" : " (" + o.clause + ")"); }

std::string scheme_answer(const Scheme& s, const SchemeVerdict& v) {
  const std::string points = scheme_points(s, v), out = points.empty() ? "" : points + ": ";
  std::vector<std::string> names;
  for (const std::size_t o : v.result.outcomes) {
    if (std::find(names.begin(), names.end(), s.outcomes[o].name) == names.end()) names.push_back(s.outcomes[o].name);
  }
  return out + (names.size() > 1 ? "not settled: " : "") + join_or(names);
}

std::string text_schemes(const Tables& t, const std::vector<Scheme>& schemes, const std::vector<SchemeVerdict>& verdicts, bool colour) {
  Page page(colour);
  for (const SchemeVerdict& v : verdicts) {
    const Scheme& s = schemes[v.scheme];
    page.heading(s.name + (v.in_force ? "" : " (not in force on that day)"));
    outcomes(page, s, v);
    for (const SchemeLine& line : v.lines) {
      const SchemeQuestion& q = s.questions[line.question];
      page.paragraph(q.id + ": " + q.ask, 4);
      page.paragraph(answers_of(q, line) + " (" + basis_of(t, line) + ")", 8, Page::Tone::faint);
      for (const std::string& points : points_for(s, line.question)) page.paragraph(points, 8, Page::Tone::faint);
    }
    if (!s.assume.empty()) page.paragraph("Taken: " + s.assume, 4);
    if (!s.note.empty()) page.paragraph(s.note, 4);
    const std::string dates = dates_of(s);
    page.paragraph((s.edition.empty() ? "" : s.edition + (dates.empty() ? ". " : "; ")) + (dates.empty() ? "" : dates + ". ") + "Only " + s.decides + " can decide.", 4, Page::Tone::faint);
    for (const SchemeSource& source : s.sources) page.paragraph(source.id + ": " + source.words + (source.url.empty() ? "" : ", " + source.url), 4, Page::Tone::faint);
  }
  return page.text();
}

nlohmann::ordered_json json_schemes(const Tables& t, const std::vector<Scheme>& schemes, const std::vector<SchemeVerdict>& verdicts) {
  nlohmann::ordered_json out = nlohmann::ordered_json::array();
  for (const SchemeVerdict& v : verdicts) {
    const Scheme& s = schemes[v.scheme];
    nlohmann::ordered_json one = {{"id", s.id}, {"group", s.group}, {"name", s.name}, {"edition", s.edition}, {"country", s.country}, {"from", s.from ? to_iso(*s.from) : ""},
                                  {"to", s.to ? to_iso(*s.to) : ""}, {"in_force", v.in_force}, {"decides", s.decides}, {"answer", scheme_answer(s, v)}, {"points", nullptr}};
    if (v.result.points_low) one["points"] = {{"low", *v.result.points_low}, {"high", *v.result.points_high}, {"of", most_points(s)}};
    one["outcomes"] = nlohmann::ordered_json::array();
    for (const std::size_t o : v.result.outcomes) {
      std::vector<std::string> sources;
      for (const std::size_t i : s.outcomes[o].sources) sources.push_back(s.sources[i].id);
      one["outcomes"].push_back({{"id", s.outcomes[o].id}, {"name", s.outcomes[o].name}, {"clause", s.outcomes[o].clause}, {"advice", s.outcomes[o].advice}, {"sources", sources}});
    }
    one["questions"] = nlohmann::ordered_json::array();
    for (const SchemeLine& line : v.lines) {
      const SchemeQuestion& q = s.questions[line.question];
      std::vector<std::string> possible, features;
      for (const std::size_t i : line.possible) possible.push_back(q.answers[i].id);
      for (const std::size_t f : line.features) features.push_back(t.features[f].id);
      auto points = nlohmann::ordered_json::array();
      for (const SchemePoints& p : s.points) {
        if (p.question != line.question) continue;
        std::vector<std::string> answers;
        for (const std::size_t i : p.answers) answers.push_back(q.answers[i].id);
        points.push_back({{"points", p.points}, {"for", answers}, {"clause", p.clause}});
      }
      one["questions"].push_back({{"id", q.id}, {"ask", q.ask}, {"possible", possible}, {"from", word(line.from)}, {"features", features}, {"not_inspected", line.not_inspected}, {"points", points}});
    }
    std::vector<std::string> open;
    for (const std::size_t q : v.result.open) open.push_back(s.questions[q].id);
    one["turns_on"] = open;
    one["date_open"] = v.result.date_open;
    one["assume"] = s.assume;
    one["note"] = s.note;
    one["sources"] = nlohmann::ordered_json::array();
    for (const SchemeSource& source : s.sources) one["sources"].push_back({{"id", source.id}, {"kind", source.kind}, {"title", source.words}, {"url", source.url}});
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace exworks
