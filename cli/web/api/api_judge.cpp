#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "report/json/assessment_json.hpp"
#include "assess/questions/next_checks.hpp"
#include "words/claims.hpp"
#include "words/next.hpp"
#include "words/readings.hpp"
#include "words/reasons.hpp"
#include "words/remarks.hpp"
#include "words/english/scales.hpp"
#include "words/summary.hpp"
#include "web/api/api.hpp"
#include "web/api/words.hpp"

/// What next, and the review.
namespace exworks::cli::web {

namespace {

std::string then_words(const Tables& t, const Outcome& o) { return t.axes.variants[o.variant].name + " (" + percent(o.variant_p) + "), built " + span_words(o.date); }

/// Why this look: what its two likeliest different results would mean, or what it would settle.
std::string reason_of(const Tables& t, const Check& c) {
  const Outcome* first = c.outcomes.empty() ? nullptr : &c.outcomes.front();
  const Outcome* other = nullptr;
  for (const Outcome& o : c.outcomes) {
    const bool differs = o.variant != first->variant || o.date.from != first->date.from || o.date.to != first->date.to;
    if (other == nullptr && differs) other = &o;
  }
  if (other != nullptr) {
    const bool variants = other->variant != first->variant;
    const auto means = [&](const Outcome& o) { return t.value_name(c.feature, o.value) + (variants ? " speaks for " + t.axes.variants[o.variant].name + ", built " : " for a build of ") + span_words(o.date); };
    return (variants ? "Tells builds apart: " : "Narrows the dates: ") + means(*first) + "; " + means(*other) + ".";
  }
  return c.verdict_bits > c.build_bits ? "Helps to settle what is as built." : "Supports the leading build or speaks against it.";
}

Json check_json(const Tables& t, const Check& c) {
  const FeatureInfo& f = t.features[c.feature];
  Json outcomes = Json::array();
  for (const Outcome& o : c.outcomes) outcomes.push_back({{"value", t.value_id(c.feature, o.value)}, {"name", t.value_name(c.feature, o.value)}, {"p", o.p}, {"then", then_words(t, o)}});
  return {{"feature", f.id}, {"name", f.name}, {"place", t.catalogue.places[f.place].id}, {"place_name", t.catalogue.places[f.place].name}, {"minutes", c.minutes}, {"reason", reason_of(t, c)}, {"outcomes", std::move(outcomes)}};
}

const Tables& tables_of(const State& s) {
  if (s.tables == nullptr) throw Refusal{400, "the job can't be judged: " + s.trouble};
  return *s.tables;
}

}  // namespace

Json Api::checks(const State& s, const std::string& aim, std::size_t most, std::optional<double> minutes) {
  const Tables& t = tables_of(s);
  Diagnostics ignored;
  const Aim wanted = aim == "build" ? Aim::build : aim == "verdicts" ? Aim::verdicts : Aim::both;
  const NextChecks next = next_checks(t, s.inspection, wanted, minutes, most, ignored);
  if (ignored.has_errors()) throw Refusal{400, "the job can't be judged: " + s.trouble};
  Json list = Json::array();
  for (const Check& c : next.checks) list.push_back(check_json(t, c));
  return {{"checks", std::move(list)}, {"note", next_note(next)}, {"minutes", next.minutes}};
}

Json Api::next(const Call& call) {
  const Job job = context_.job(call.job());
  const std::int64_t minutes = call.number("minutes"), most = call.number("most");
  const auto state = context_.state(job.id);
  return checks(*state, call.parameter("for"), most > 0 ? static_cast<std::size_t>(std::min<std::int64_t>(most, 20)) : 5, minutes > 0 ? std::optional(static_cast<double>(std::min<std::int64_t>(minutes, 600))) : std::nullopt);
}

namespace {

Json places_of(const Case& of) {
  const Tables& t = of.tables;
  const Assessment& a = of.assessment;
  Json out = Json::array();
  const auto counts = counts_by_place(t, a);
  for (std::size_t p = 0; p < t.catalogue.places.size(); ++p) {
    Json features = Json::array();
    for (const FeatureVerdict& f : a.features) {
      if (t.features[f.finding.feature].place != p) continue;
      features.push_back(json_feature(of, f));
    }
    out.push_back({{"id", t.catalogue.places[p].id}, {"name", t.catalogue.places[p].name}, {"original", counts[p].original}, {"later", counts[p].later}, {"uncertain", counts[p].uncertain}, {"features", std::move(features)}});
  }
  return out;
}

std::string reading_line(const Tables& t, const Reading& r) {
  return r.possible ? upper_first(build_words(t, r)) + ". " + later_words(t, r) : "No build of this pack allows it.";
}

Json looked(const Tables& t, const Inspection& in, const std::vector<std::size_t>& observations) {
  Json out = Json::array();
  for (std::size_t i : observations) {
    const Observation& o = in.observations[i];
    out.push_back({{"feature", o.feature}, {"name", t.feature_name(o.feature)}, {"note", o.note}});
  }
  return out;
}

std::string summary_of(const Tables& t, const Assessment& a) {
  const VerdictCounts counts = verdict_counts(a);
  const auto count = [](std::size_t n) { return std::to_string(n); };
  return "Most likely " + t.axes.variants[a.variants.front().index].name + " (" + percent(a.variants.front().p) + "), built " + span_words(a.date) + ". Of " + count(a.features.size()) +
         (a.features.size() == 1 ? " feature" : " features") + " looked at: " + count(counts.original) + " as built, " + count(counts.later) + " later, " + count(counts.uncertain) + " uncertain.";
}

}  // namespace

Json Api::review(const Call& call) {
  const Job job = context_.job(call.job());
  const auto state = context_.state(job.id);
  const Tables& t = tables_of(*state);
  const auto whole = context_.lives().whole(job.id, *state);
  Json open = checks(*state, "both", 5, std::nullopt)["checks"];
  if (!whole) {
    return {{"summary", state->trouble.empty() ? "Nothing was looked at yet." : "The job can't be judged: " + state->trouble}, {"odds", nullptr}, {"places", Json::array()}, {"numbers", Json::array()}, {"readings", Json::array()}, {"claims", Json::array()}, {"documents", Json::array()},
            {"missing", Json::array()}, {"cannot_tell", Json::array()}, {"cautions", Json::array()}, {"remarks", Json::array()}, {"open", std::move(open)}, {"score", nullptr}, {"fit", nullptr}};
  }
  const Assessment& a = *whole;
  const Inspection& in = state->inspection;
  const Case of{t, in, a};
  Json remarks = Json::array();
  for (const Remark& r : a.remarks) remarks.push_back(remark_words(in, r));
  Json numbers = Json::array(), readings = Json::array(), claims = Json::array(), documents = Json::array();
  for (const NumberVerdict& n : a.numbers) numbers.push_back(number_json(t, n));
  for (const Reading& r : a.readings) {
    readings.push_back(json_reading(of, r));
    readings.back()["words"] = taken_words(of, r) + ": " + reading_line(t, r);
  }
  for (const ClaimVerdict& c : a.claims) claims.push_back(json_claim(of, c));
  for (const DocumentVerdict& d : a.documents) documents.push_back(json_document(of, d));
  return {{"summary", summary_of(t, a)}, {"odds", odds_json(t, a)}, {"places", places_of(of)}, {"numbers", std::move(numbers)}, {"readings", std::move(readings)}, {"claims", std::move(claims)},
          {"documents", std::move(documents)}, {"missing", looked(t, in, a.missing)}, {"cannot_tell", looked(t, in, a.cannot_tell)}, {"cautions", cautions_json(t, a.cautions)}, {"remarks", std::move(remarks)},
          {"open", std::move(open)}, {"score", json_score(a.score)}, {"fit", json_fit(a)}};
}

}  // namespace exworks::cli::web
