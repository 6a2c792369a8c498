#include "workshop/make_report.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "report/json/document_json.hpp"
#include "report/kinds/report_kinds.hpp"
#include "report/render/render.hpp"
#include "words/redaction.hpp"
#include "words/summary.hpp"
#include "words/english/terms.hpp"

namespace exworks {

namespace {

/// Parts as `change=amount` or `feature=amount`, of any feature that belongs to the change.
std::optional<double> parts_for(const ValueWanted& wanted, const Tables& t, const Assessment& a, const ChangeGroup& group) {
  const NamedChange* known = named_change(t, a.features[group.front()]);
  for (const std::string& p : wanted.parts) {
    const std::size_t cut = p.find('=');
    const std::string id = p.substr(0, cut);
    const bool of_feature = std::any_of(group.begin(), group.end(), [&](std::size_t i) { return t.features[a.features[i].finding.feature].id == id; });
    if (of_feature || (known != nullptr && id == known->id)) return std::stod(p.substr(cut + 1));
  }
  return std::nullopt;
}

std::vector<Restoration> putting_back(const ValueWanted& wanted, const Tables& t, const Assessment& a) {
  std::vector<Restoration> out;
  for (const ChangeGroup& group : change_groups(t, a)) {
    const double hours = a.features[group.front()].hours;
    const auto parts = parts_for(wanted, t, a, group);
    out.push_back({group_name(t, a, group), hours, hours * wanted.rate, parts.value_or(0), parts.has_value()});
  }
  return out;
}

Valuation valuation(const ValueWanted& wanted, const Tables& t, const Assessment& a, Month valued) {
  const VariantInfo& variant = t.axes.variants[a.variants.front().index];
  ValuationSubject subject{valued, a.date.most_likely.year(), variant.name, std::nullopt, std::nullopt, wanted.trend / 100};
  for (const Comparable& c : wanted.sales) {
    if (c.variant == variant.id) subject.variant = c.variant;  // the file may use names or ids
  }
  if (wanted.condition > 0) subject.condition = wanted.condition;
  if (a.score.weight > 0) subject.originality = 100 * a.score.value;
  Valuation v = value_note(wanted.sales, subject);
  v.rate = wanted.rate;
  v.changes = putting_back(wanted, t, a);
  return v;
}

}  // namespace

std::string today() {
  const std::chrono::year_month_day day{std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now())};
  char buffer[40];
  std::snprintf(buffer, sizeof buffer, "%04d-%02u-%02u", static_cast<int>(day.year()), static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
  return buffer;
}

ReportOptions report_options(const std::string& kind, const std::string& terms, const std::string& paper, const std::string& date) {
  ReportOptions out;
  out.kind = kind == "intake" ? ReportKind::intake : kind == "owner" ? ReportKind::owner : ReportKind::pre_purchase;
  out.region = terms == "en-US" ? Region::en_US : terms == "en-AU" ? Region::en_AU : Region::en_GB;
  out.paper = paper.empty() ? (out.region == Region::en_US ? "letter" : "A4") : (paper == "letter" ? "letter" : "A4");
  out.date = date.empty() ? today() : date;
  out.program = "exworks " EXWORKS_VERSION;
  return out;
}

std::optional<MadeReport> make_report(const Tables& pack, ReportSubject subject, const ReportWanted& wanted, Diagnostics& diagnostics) {
  const Tables tables = in_terms(pack, wanted.options.region);
  auto assessment = assess(tables, subject.inspection, Settings{}, wanted.given, diagnostics);
  if (!assessment) return std::nullopt;
  const auto dated = parse_day(wanted.options.date);
  std::vector<SchemeVerdict> classified;
  if (dated) classified = scheme_verdicts(wanted.schemes, tables, *assessment, subject.inspection, *dated, diagnostics);
  Diagnostics again;  // the same remarks as above
  const NextChecks next = next_checks(tables, subject.inspection, Aim::both, std::nullopt, 8, again);
  if (wanted.redacted) {
    redact(*assessment, subject.inspection);
    subject.photos.clear();
    subject.record = {};
  }
  std::optional<Valuation> value;
  if (wanted.value && dated) value = valuation(*wanted.value, tables, *assessment, dated->month);
  const ReportInput input{{tables, subject.inspection, *assessment}, next, std::move(subject.photos), value ? &*value : nullptr, std::move(subject.record), &wanted.schemes, std::move(classified)};
  const Report report = build_report(input, wanted.options);
  return MadeReport{render_html(tables, report), render_text(tables, report), std::make_shared<const nlohmann::ordered_json>(report_contents(input, report))};
}

}  // namespace exworks
