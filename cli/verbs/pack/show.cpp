#include <iostream>
#include <nlohmann/json.hpp>

#include "command.hpp"
#include "engine/compile/compiler.hpp"
#include "report/render/page.hpp"
#include "verbs/pack/pack.hpp"

namespace exworks::cli {

namespace {

using Json = nlohmann::ordered_json;

}  // namespace

int run(const PackShowArguments& options) {
  const Tables t = compile_pack(read_named_pack(options.folder, options.rules));
  Json out = {{"family", t.family}, {"name", t.name}, {"version", t.version}, {"builds", t.builds()}, {"features", Json::array()}, {"numbers", Json::array()}};
  Page page(colour_wanted());
  page.heading(t.name + ", pack " + t.edition());
  page.paragraph(std::to_string(t.axes.variants.size()) + " variants, " + std::to_string(t.axes.markets.size()) + " markets, " + std::to_string(t.axes.plants.size()) + " plants, " +
                 std::to_string(t.builds()) + " builds in " + std::to_string(t.cells()) + " cells, " + std::to_string(t.feature_index.size()) + " features");
  for (std::size_t p = 0; p < t.catalogue.places.size(); ++p) {
    bool first = true;
    for (const FeatureInfo& f : t.features) {
      if (f.of_number || f.place != p) continue;
      if (first) page.heading(t.catalogue.places[p].name);
      first = false;
      page.pair(f.id, f.ask, 2, 30, Page::Tone::plain);
      Json values = Json::array();
      for (const ValueInfo& v : f.values) {
        page.pair(v.id, v.name + (v.recognise.empty() ? "" : ": " + v.recognise), 6, 30);
        values.push_back({{"id", v.id}, {"name", v.name}, {"recognise", v.recognise}});
      }
      out["features"].push_back({{"id", f.id}, {"name", f.name}, {"ask", f.ask}, {"place", t.catalogue.places[p].id}, {"weight", f.weight}, {"minutes", f.minutes}, {"values", values}});
    }
  }
  page.heading("Numbers");
  for (const NumberInfo& n : t.numbers) {
    page.pair(n.id, n.name + ": " + n.where, 2, 30);
    out["numbers"].push_back({{"id", n.id}, {"name", n.name}, {"where", n.where}});
  }
  std::cout << (options.json ? out.dump(2) + "\n" : page.text());
  return done;
}

}  // namespace exworks::cli
