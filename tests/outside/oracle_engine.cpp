#include "oracle_engine.hpp"

#include <algorithm>

#include "engine/evidence/documents.hpp"
#include "engine/evidence/evidence.hpp"
#include "engine/infer/findings.hpp"
#include "engine/infer/fit.hpp"
#include "engine/evidence/given.hpp"
#include "engine/infer/leave_out.hpp"
#include "engine/infer/lookahead.hpp"
#include "engine/infer/score.hpp"
#include "oracle_tables.hpp"

namespace exworks::test::oracle {

struct EngineRun::Inside {
  Evidence evidence;
  Posterior posterior;
  std::vector<FeatureFinding> features;
  std::vector<std::size_t> build_at;                   ///< [the oracle's build]: the engine's
  std::vector<std::optional<std::size_t>> feature_of;  ///< [the engine's feature]: the oracle's
};

namespace {

/// Axes stand in the order of the pack.
std::vector<std::size_t> builds_of(const Tables& tables, const std::vector<Build>& builds) {
  std::vector<std::size_t> out;
  for (const Build& b : builds) {
    const Month month = Month::of(1950, 1) + b.month;
    for (const RouteInfo& route : tables.routes) {
      const bool same = route.variant == b.variant && route.market == b.market && route.plant == b.plant;
      if (same && month >= route.first && month <= route.last)
        out.push_back(route.first_build + static_cast<std::size_t>(month - route.first));
    }
  }
  REQUIRE(out.size() == builds.size());
  REQUIRE(out.size() == tables.prior.size());
  return out;
}

/// Serials by their number, the others by their ids; nothing where the structs leave a feature out.
std::vector<std::optional<std::size_t>> features_of(const Case& c, const PackTables& own) {
  std::vector<std::optional<std::size_t>> out;
  for (const FeatureInfo& feature : c.tables.features) {
    const auto at = std::find(c.names.features.begin(), c.names.features.end(), feature.id);
    if (feature.of_number) {
      out.push_back(own.serial_feature(*feature.of_number));
    } else {
      out.push_back(at == c.names.features.end() ? std::nullopt
                                                 : std::optional(static_cast<std::size_t>(at - c.names.features.begin())));
    }
  }
  return out;
}

std::vector<double> by_build(const std::vector<double>& engine, const std::vector<std::size_t>& at) {
  std::vector<double> out;
  for (const std::size_t b : at) out.push_back(engine[b]);
  return out;
}

Reason reason_of(const Case& c, const CauseOdds& e, std::size_t feature) {
  switch (e.cause) {
    case Cause::conversion: return {Reason::Kind::conversion, place_in(c.names.conversions, c.tables.conversions[e.index].id)};
    case Cause::known_change: return {Reason::Kind::known_change, place_in(c.names.changes[feature], c.tables.changes[e.index].id)};
    case Cause::family_by_itself: return {Reason::Kind::family_by_itself, 0};
    case Cause::outside_by_itself: return {Reason::Kind::outside_by_itself, 0};
    case Cause::donor: return {Reason::Kind::donor, 0};
    case Cause::outside_donor: return {Reason::Kind::outside_donor, place_in(c.names.outsides, c.tables.changes[e.index].id)};
    case Cause::unnamed_donor: return {Reason::Kind::unnamed_donor, 0};
    case Cause::as_built: break;
  }
  return {};
}

EngineLook look_of(const Case& c, const Evidence& evidence, const FeatureFinding& f, std::size_t feature) {
  const std::vector<ValueIndex>& left_open = evidence.seen[f.seen].left_open;
  EngineLook out{feature,          f.p_type, f.p_before, f.likelihood_ratio, f.p_untouched, f.p_silent, f.p_type_spoken,
                 f.p_later_spoken, f.there,  f.works,    {left_open.begin(), left_open.end()}};
  for (const CauseOdds& e : f.explanations) out.explanations[reason_of(c, e, feature)] += e.p;
  return out;
}

EngineAssembly assembly_of(const Case& c, const AssemblyFinding& f, std::size_t assembly, const std::vector<std::size_t>& at) {
  EngineAssembly out{assembly, f.p_replaced, f.p_unnamed, by_build(f.donor, at), std::vector<double>(c.pack.outsides.size(), 0)};
  for (const auto& [change, p] : f.outside) out.outside[place_in(c.names.outsides, c.tables.changes[change].id)] = p;
  return out;
}

}  // namespace

EngineRun::EngineRun(const Case& c) : case_(c), inside_(std::make_unique<Inside>()) {
  Inside& in = *inside_;
  Diagnostics d;
  const Inspection inspection = inspection_from_text(c.xml);
  in.evidence = bind(c.tables, inspection, d);
  in.evidence.document_weight = document_weights(document_likelihoods(c.tables, inspection), c.tables.prior.size());
  in.evidence.given = parse_given(c.tables, given_words(c.visit), {}, d);
  INFO(messages(d));
  REQUIRE_FALSE(d.has_errors());
  in.posterior = infer(c.tables, in.evidence);
  in.features = feature_findings(in.evidence, in.posterior);
  const PackTables own(c.pack, c.visit.month);
  in.build_at = builds_of(c.tables, own.builds().list);
  in.feature_of = features_of(c, own);
  answer_.build = by_build(in.posterior.build, in.build_at);
  answer_.log_evidence = in.posterior.log_evidence;
  answer_.p_own = in.posterior.own_number;
  answer_.level = in.posterior.level;
  answer_.conversion.assign(c.names.conversions.size(), 0.0);
  const auto had = conversion_findings(c.tables, in.evidence, in.posterior);
  for (std::size_t i = 0; i < had.size(); ++i) {
    // The pack may have more conversions than the structs; nothing of them was looked at.
    const auto& names = c.names.conversions;
    const auto at = std::find(names.begin(), names.end(), c.tables.conversions[i].id);
    if (at != names.end()) answer_.conversion[static_cast<std::size_t>(at - names.begin())] = had[i].p;
  }
  for (const FeatureFinding& f : in.features) answer_.looks.push_back(look_of(c, in.evidence, f, in.feature_of[f.feature].value()));
  for (const AssemblyFinding& f : assembly_findings(c.tables, in.posterior)) {
    // The pack may have more assemblies than the structs; nothing of them was looked at.
    const auto& names = c.names.assemblies;
    const auto at = std::find(names.begin(), names.end(), c.tables.assemblies[f.assembly].id);
    if (at != names.end())
      answer_.assemblies.push_back(assembly_of(c, f, static_cast<std::size_t>(at - names.begin()), in.build_at));
  }
  const Score score = originality_score(c.tables, in.posterior, in.features);
  answer_.score = {score.value, score.low, score.high, score.weight};
}

EngineRun::~EngineRun() = default;

std::vector<EngineWithout> EngineRun::leave_each_out() const {
  std::vector<EngineWithout> out;
  for (const LeftOut& left : exworks::leave_each_out(case_.tables, inside_->posterior, inside_->features))
    out.push_back({answer_.looks[out.size()].feature, left.variants, left.type, left.later});
  return out;
}

std::vector<EngineOutlook> EngineRun::outlooks(const std::vector<std::size_t>& open) const {
  std::vector<FeatureIndex> open_there;
  for (std::size_t f = 0; f < inside_->feature_of.size(); ++f) {
    const auto own = inside_->feature_of[f];
    if (own && std::find(open.begin(), open.end(), *own) != open.end()) open_there.emplace_back(f);
  }
  std::vector<EngineOutlook> out;
  for (const Outlook& o : exworks::outlooks(case_.tables, inside_->evidence, inside_->posterior, open_there)) {
    const auto own = inside_->feature_of[o.feature];
    if (own) out.push_back({*own, o.build_bits, o.verdict_bits, o.applies, o.noted});
  }
  return out;
}

double EngineRun::fit(std::uint64_t seed, int draws) const {
  return fit_check(case_.tables, inside_->posterior, inside_->evidence, seed, draws);
}

}  // namespace exworks::test::oracle
