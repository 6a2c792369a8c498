#include <algorithm>
#include <cmath>

#include "oracle_engine.hpp"
#include "oracle_more.hpp"

namespace exworks::test::oracle {

namespace {

std::size_t look_at(const Model& model, std::size_t feature) {
  const auto at =
      std::find_if(model.looks().begin(), model.looks().end(), [&](const Look& look) { return look.feature == feature; });
  REQUIRE(at != model.looks().end());
  return static_cast<std::size_t>(at - model.looks().begin());
}

void compare_left_out(const Model& model, const EngineRun& engine, Differences& out) {
  const std::vector<EngineLook>& findings = engine.answer().looks;
  const std::vector<Without> due = leave_each_out(model);
  const std::vector<EngineWithout> all = engine.leave_each_out();
  out.check("one for each look", all.size() == due.size());
  for (const EngineWithout& without : all) {
    const std::string id = "without f" + std::to_string(without.left_out);
    const Without& rest = due[look_at(model, without.left_out)];
    out.compare(id + ": P(variant)", without.variants, rest.variants);
    for (std::size_t i = 0; i < findings.size(); ++i) {
      const std::size_t look = look_at(model, findings[i].feature);
      const std::string of = id + ": f" + std::to_string(findings[i].feature);
      out.compare(of + " P(type, spoken)", without.type.at(i), rest.type[look]);
      out.compare(of + " P(later, spoken)", without.later.at(i), rest.later[look]);
    }
  }
}

void compare_ahead(const Model& model, const EngineRun& engine, Differences& out) {
  // Which verdicts are open is another matter (lib/assess): here the odds that are neither below a tenth nor above nine.
  const Answer now = model.answer();
  std::vector<std::size_t> looks, features;
  for (std::size_t i = 0; i < now.looks.size(); ++i) {
    if (now.looks[i].p_type > 0.1L && now.looks[i].p_type < 0.9L)
      looks.push_back(i), features.push_back(model.looks()[i].feature);
  }
  const std::vector<MoreToSee> due = look_ahead(model, looks);
  const std::vector<EngineOutlook> all = engine.outlooks(features);
  out.check("as many features to look at", all.size() == due.size());
  for (std::size_t i = 0; i < std::min(all.size(), due.size()); ++i) {
    const std::string id = "a look at f" + std::to_string(due[i].feature);
    out.check(id + ": in the pack's order", all[i].feature == due[i].feature);
    out.compare(id + ": P(noted)", all[i].noted, due[i].noted);
    out.compare(id + ": bits of the build", all[i].build_bits, due[i].build_bits);
    out.compare(id + ": bits of verdicts", all[i].verdict_bits, due[i].verdict_bits);
    out.compare(id + ": P(applies)", all[i].applies, due[i].applies);
  }
}

}  // namespace

Differences compare_more(const Case& c) {
  const Model model(c.pack, c.visit);
  const EngineRun engine(c);
  Differences out;
  compare_left_out(model, engine, out);
  compare_ahead(model, engine, out);
  return out;
}

Differences compare_fit(const Case& c, int draws) {
  const Real due = fit(Model(c.pack, c.visit));
  const double drawn = EngineRun(c).fit(1, draws);
  const double p = static_cast<double>(due), error = std::sqrt(p * (1 - p) / draws);
  Differences out;
  // Five standard errors, and one draw for what is nearly certain.
  out.check("fit: drawn " + std::to_string(drawn) + ", visited " + std::to_string(p),
            std::fabs(drawn - p) <= 5 * error + 1.0 / draws);
  return out;
}

}  // namespace exworks::test::oracle
