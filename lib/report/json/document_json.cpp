#include "report/json/document_json.hpp"

#include <nlohmann/json.hpp>

#include "report/json/assessment_json.hpp"
#include "report/answers/scheme_report.hpp"
#include "words/claims.hpp"
#include "words/summary.hpp"

namespace exworks {

using Json = nlohmann::ordered_json;

namespace {

template <class Value>
Json or_null(const std::optional<Value>& value) {
  return value ? Json(*value) : Json(nullptr);
}

Json answers_of(const Report& report) {
  Json out = Json::array();
  for (const Block& block : report.blocks) {
    const auto* answers = std::get_if<Answers>(&block);
    if (answers == nullptr) continue;
    for (const auto& [question, answer] : answers->items) out.push_back({{"question", question}, {"answer", answer.words}});
  }
  return out;
}

Json counts(const Assessment& a) {
  const VerdictCounts n = verdict_counts(a);
  return {{"observed", n.all()}, {"original", n.original}, {"later", n.later}, {"uncertain", n.uncertain}, {"missing", a.missing.size()}, {"cannot_tell", a.cannot_tell.size()}};
}

/// Features that changed together are one change: the reports count and list these.
Json changes_of(const ReportInput& in) {
  Json out = Json::array();
  for (const auto& group : change_groups(in.tables, in.assessment)) {
    const FeatureVerdict& f = in.assessment.features[group.front()];
    Json features = Json::array();
    for (std::size_t i : group) features.push_back(in.tables.features[in.assessment.features[i].finding.feature].id);
    Json one = {{"name", group_name(in.tables, in.assessment, group)}, {"features", std::move(features)}, {"reversible", word(f.reversible)}, {"hours", f.hours > 0 ? Json(f.hours) : Json(nullptr)}, {"possible_from", json_possible_from(in.tables, f)}, {"donor", json_donor(f)}};
    out.push_back(std::move(one));
  }
  return out;
}

/// Each point of each claim, with what the observations show instead.
Json claim_points(const ReportInput& in) {
  Json out = Json::array();
  for (const ClaimVerdict& c : in.assessment.claims) {
    const Claim& claim = in.inspection.claims[c.claim];
    Json points = Json::array();
    for (const ClaimPoint& p : c.points) points.push_back({{"claim", point_words(in.tables, claim, p.of)}, {"p", p.p}, {"p_before", p.p_before}, {"found", found_words(in.tables, in.assessment, p.of)}});
    out.push_back({{"by", claim.by}, {"points", std::move(points)}});
  }
  return out;
}

/// What the inspector brought: the pages repeat it beside the verdicts.
Json inspection_of(const Inspection& in) {
  Json out = {{"by", in.by}, {"note", in.note}, {"documents", Json::array()}, {"observed", Json::array()}};
  for (const Document& d : in.documents) {
    const auto& date = d.date ? d.date : d.built;
    Json one = {{"kind", word(d.kind)}, {"from", nullptr}, {"to", nullptr}, {"note", d.note}};
    if (date && !date->open) one.update({{"from", to_iso(date->first)}, {"to", to_iso(date->last)}});
    out["documents"].push_back(std::move(one));
  }
  for (const Observation& o : in.observations) {
    Json one = {{"feature", o.feature}, {"value", o.value}, {"state", word(o.state)}, {"measure", or_null(o.measure)}, {"unit", o.unit}, {"how", word(o.how)}, {"sure", word(o.sure)}, {"wear", word(o.wear)}, {"mark", word(o.mark)}, {"note", o.note}};
    if (o.measure && o.unit == "mm") one["inches"] = *o.measure / 25.4;
    if (o.measure && o.unit == "in") one["millimetres"] = *o.measure * 25.4;
    out["observed"].push_back(std::move(one));
  }
  return out;
}

Json next_of(const ReportInput& in) {
  Json out = Json::array();
  for (const Check& c : in.next.checks) {
    const FeatureInfo& f = in.tables.features[c.feature];
    out.push_back({{"feature", f.id}, {"name", f.name}, {"ask", f.ask}, {"minutes", c.minutes}, {"bits", c.build_bits + c.verdict_bits}});
  }
  return out;
}

Json photos_of(const ReportInput& in) {
  Json out = Json::array();
  for (const auto& [name, p] : in.photos) out.push_back({{"name", name}, {"shown", !p.data_uri.empty()}, {"feature", p.feature}, {"note", p.note}, {"taken", p.taken}});
  return out;
}

Json record_of(const JobRecord& r) {
  Json out = {{"changes", Json::array()}, {"answers", Json::array()}};
  for (const RecordChange& c : r.changes) out["changes"].push_back({{"at", c.at}, {"about", c.feature}, {"before", c.before}, {"now", c.now}});
  for (const EarlierAnswer& a : r.answers) out["answers"].push_back({{"at", a.at}, {"variant", a.variant}, {"from", a.from}, {"to", a.to}});
  return out;
}

}  // namespace

Json json_valuation(const Valuation& v) {
  Json out = {{"is", "a note on value, not a valuation"}, {"currency", v.currency}, {"at", to_iso(v.subject.valued)}, {"low", v.low}, {"middle", or_null(v.middle)}, {"high", v.high},
              {"sales_counted", v.sales.size()}, {"counts_for", v.effective}, {"trend", v.subject.trend}, {"rate", v.rate}};
  out["compared_by"] = {{"year", or_null(v.subject.year)}, {"variant", v.subject.variant}, {"condition", or_null(v.subject.condition)}, {"originality", or_null(v.subject.originality)}};
  out["bandwidths"] = {{"sale_years", v.bandwidths.sale_years}, {"model_years", v.bandwidths.model_years}, {"condition_steps", v.bandwidths.condition_steps},
                       {"originality_points", v.bandwidths.originality_points}, {"other_variant", v.bandwidths.other_variant}};
  out["sales"] = Json::array();
  for (const WeightedSale& s : v.sales) {
    const Comparable& c = s.sale;
    out["sales"].push_back({{"sold", c.sold_text}, {"price", c.price}, {"carried", s.adjusted}, {"weight", s.weight}, {"year", or_null(c.year)}, {"variant", c.variant},
                            {"condition", or_null(c.condition)}, {"originality", or_null(c.originality)}, {"note", c.note}});
  }
  out["putting_back"] = Json::array();
  for (const Restoration& r : v.changes) {
    out["putting_back"].push_back({{"change", r.change}, {"hours", r.hours > 0 ? Json(r.hours) : Json(nullptr)}, {"labour", r.hours > 0 ? Json(r.labour) : Json(nullptr)}, {"parts", r.parts_known ? Json(r.parts) : Json(nullptr)}});
  }
  return out;
}

Json report_contents(const ReportInput& in, const Report& report) {
  Json out = {{"title", report.title}, {"answers", answers_of(report)}, {"counts", counts(in.assessment)}, {"changes", changes_of(in)}, {"claim_points", claim_points(in)}, {"inspection", inspection_of(in.inspection)}, {"next", next_of(in)}};
  out["valuation"] = in.valuation == nullptr ? Json(nullptr) : json_valuation(*in.valuation);
  out["schemes"] = in.schemes == nullptr ? Json::array() : json_schemes(in.tables, *in.schemes, in.scheme_verdicts);
  out["photos"] = photos_of(in);
  out["record"] = record_of(in.record);
  out["assessment"] = json_report(in);
  return out;
}

Json sheet_contents(const Tables& t, const Report& sheet, const NextChecks& next) {
  Json items = Json::array();
  double minutes = 0;
  for (const Block& block : sheet.blocks) {
    const auto* item = std::get_if<SheetItem>(&block);
    if (item == nullptr) continue;
    const std::size_t index = t.feature_index.at(item->feature);
    const FeatureInfo& f = t.features[index];
    Json one = {{"feature", f.id}, {"name", f.name}, {"place", t.catalogue.places.empty() ? "" : t.catalogue.places[f.place].id}, {"minutes", f.minutes}, {"bits", nullptr}, {"values", Json::array()}};
    for (const ValueInfo& v : f.values) one["values"].push_back(v.id);
    for (const Check& c : next.checks) {
      if (c.feature == index) one["bits"] = c.build_bits + c.verdict_bits;
    }
    minutes += f.minutes;
    items.push_back(std::move(one));
  }
  return {{"features", items.size()}, {"minutes", minutes}, {"items", std::move(items)}};
}

}  // namespace exworks
