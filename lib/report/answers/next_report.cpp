#include "report/answers/next_report.hpp"

#include <algorithm>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "report/render/page.hpp"
#include "words/next.hpp"
#include "words/english/scales.hpp"

namespace exworks {

namespace {

std::string figure(double x, const char* unit) {
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, x < 10 ? "%.1f %s" : "%.0f %s", x, unit);
  return buffer;
}

/// Outcomes that settle the same thing share a line.
std::vector<std::string> outcome_lines(const Tables& t, const Check& c) {
  std::vector<std::pair<std::string, std::vector<std::string>>> by_result;
  for (const Outcome& o : c.outcomes) {
    const std::string result = t.axes.variants[o.variant].name + " " + percent(o.variant_p) + ", built " + span_words(o.date.from, o.date.to);
    auto at = std::find_if(by_result.begin(), by_result.end(), [&](const auto& r) { return r.first == result; });
    if (at == by_result.end()) at = by_result.insert(by_result.end(), {result, {}});
    at->second.push_back(t.value_name(c.feature, o.value) + " (" + percent(o.p) + ")");
  }
  std::vector<std::string> lines;
  for (const auto& [result, values] : by_result) {
    lines.push_back((by_result.size() == 1 && values.size() > 1 ? "Whichever it is: " : "If " + join_and(values) + ": ") + result + ".");
  }
  return lines;
}

}  // namespace

std::string text_next(const Tables& t, const NextChecks& next, bool colour) {
  Page page(colour);
  page.heading("What to look at next");
  page.paragraph("As things stand it was built " + span_words(next.date.from, next.date.to) + " (90 % of the odds).");
  if (const std::string note = next_note(next); !note.empty()) page.paragraph(note);
  std::size_t place = t.catalogue.places.size();
  std::vector<std::size_t> cautions;
  int rank = 0;
  for (const Check& c : next.checks) {
    const FeatureInfo& f = t.features[c.feature];
    if (f.place != place) {
      place = f.place;
      page.heading(t.catalogue.places[place].name);
    }
    page.leader(std::to_string(++rank) + ". " + f.name + " (" + f.id + ")", figure(c.minutes, "min") + ", " + figure(c.build_bits + c.verdict_bits, "bits"), 2, Page::Tone::strong);
    page.paragraph(f.ask + (f.method == "look" ? "" : " (" + f.method + (f.tool.empty() ? ")" : ": " + f.tool + ")")), 5);
    for (const ValueInfo& v : f.values) {
      if (!v.recognise.empty()) page.paragraph("- " + v.name + ": " + v.recognise, 5);
    }
    for (const std::string& line : outcome_lines(t, c)) page.paragraph(line, 5, Page::Tone::faint);
    for (std::size_t w : f.cautions) {
      if (std::find(cautions.begin(), cautions.end(), w) == cautions.end()) cautions.push_back(w);
    }
  }
  if (!next.checks.empty()) {
    page.blank();
    page.paragraph(figure(next.minutes, "minutes") + " in all. One bit halves the doubt; bits about the build and about what is as built are added.");
  }
  if (!cautions.empty()) {
    page.heading("Take care");
    for (std::size_t w : cautions) page.paragraph(t.catalogue.cautions[w].name + ": " + t.catalogue.cautions[w].text);
  }
  return page.text();
}

nlohmann::ordered_json json_next(const Tables& t, const NextChecks& next) {
  nlohmann::ordered_json out;
  out["family"] = t.family;
  out["build_date"] = {{"from", to_iso(next.date.from)}, {"to", to_iso(next.date.to)}};
  out["minutes"] = next.minutes;
  out["note"] = next_note(next);
  out["checks"] = nlohmann::ordered_json::array();
  for (const Check& c : next.checks) {
    const FeatureInfo& f = t.features[c.feature];
    nlohmann::ordered_json one = {{"feature", f.id}, {"name", f.name}, {"ask", f.ask}, {"place", t.catalogue.places[f.place].id}, {"method", f.method}, {"tool", f.tool}, {"minutes", c.minutes},
                                  {"build_bits", c.build_bits}, {"verdict_bits", c.verdict_bits}, {"bits_per_minute", c.bits_per_minute}};
    one["outcomes"] = nlohmann::ordered_json::array();
    for (const Outcome& o : c.outcomes) {
      one["outcomes"].push_back({{"value", t.value_id(c.feature, o.value)}, {"p", o.p}, {"variant", t.axes.variants[o.variant].id}, {"variant_p", o.variant_p}, {"from", to_iso(o.date.from)}, {"to", to_iso(o.date.to)}});
    }
    out["checks"].push_back(std::move(one));
  }
  return out;
}

}  // namespace exworks
