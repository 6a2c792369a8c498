#include <iostream>
#include <nlohmann/json.hpp>

#include "command.hpp"
#include "engine/compile/compiler.hpp"
#include "report/render/page.hpp"
#include "verbs/pack/verbs.hpp"

namespace exworks::cli {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t column = 30;

std::string months(const VariantInfo& v) { return to_words(v.first) + " to " + to_words(v.last); }

/// What a build is one of each of: these ids stand in claims, in --given and in expectations.
void show_axes(const Axes& axes, Page& page, Json& out) {
  const auto list = [&](const char* heading, const char* key, const auto& items, const auto& words, const auto& more) {
    page.heading(heading);
    out[key] = Json::array();
    for (const auto& item : items) {
      page.pair(item.id, words(item), 2, column);
      Json one = {{"id", item.id}, {"name", item.name}};
      one.update(more(item));
      out[key].push_back(std::move(one));
    }
  };
  const auto name = [](const auto& item) { return item.name; };
  const auto nothing = [](const auto&) { return Json::object(); };
  list("Generations", "generations", axes.generations, name, nothing);
  list("Variants", "variants", axes.variants, [](const VariantInfo& v) { return v.name + ", " + months(v); },
       [&](const VariantInfo& v) { return Json{{"generation", axes.generations[v.generation].id}, {"body", axes.bodies[v.body].id}, {"from", to_iso(v.first)}, {"to", to_iso(v.last)}}; });
  list("Bodies", "bodies", axes.bodies, name, nothing);
  list("Markets", "markets", axes.markets, name, nothing);
  list("Plants", "plants", axes.plants, [](const PlantInfo& p) { return p.name + (p.kit ? " (assembles kits)" : ""); }, [](const PlantInfo& p) { return Json{{"kit", p.kit}}; });
}

Json show_feature(const Tables& t, const FeatureInfo& f, Page& page) {
  page.pair(f.id, f.ask, 2, column, Page::Tone::plain);
  Json values = Json::array();
  for (const ValueInfo& v : f.values) {
    page.pair(v.id, v.name + (v.recognise.empty() ? "" : ": " + v.recognise), 6, column);
    values.push_back({{"id", v.id}, {"name", v.name}, {"recognise", v.recognise}});
  }
  return {{"id", f.id}, {"name", f.name}, {"ask", f.ask}, {"place", t.catalogue.places[f.place].id}, {"weight", f.weight}, {"minutes", f.minutes}, {"values", values}};
}

void show_features(const Tables& t, Page& page, Json& out) {
  for (std::size_t p = 0; p < t.catalogue.places.size(); ++p) {
    bool first = true;
    for (const FeatureInfo& f : t.features) {
      if (f.of_number || f.place != p) continue;
      if (first) page.heading(t.catalogue.places[p].name);
      first = false;
      out["features"].push_back(show_feature(t, f, page));
    }
  }
}

void show_numbers(const Tables& t, Page& page, Json& out) {
  page.heading("Numbers");
  for (const NumberInfo& n : t.numbers) {
    page.pair(n.id, n.name + ": " + n.where, 2, column);
    out["numbers"].push_back({{"id", n.id}, {"name", n.name}, {"where", n.where}});
  }
}

}  // namespace

int run(const PackShowArguments& options) {
  const Rules rules = rules_folders(options.rules);
  const Tables t = tables_of(load_pack(pack_or_folder(options.folder, rules), rules));
  Json out = {{"family", t.family}, {"name", t.name}, {"version", t.version}, {"builds", t.builds()}, {"features", Json::array()}, {"numbers", Json::array()}};
  Page page(colour_wanted());
  page.heading(t.name + ", pack " + t.edition());
  page.paragraph(std::to_string(t.axes.variants.size()) + " variants, " + std::to_string(t.axes.markets.size()) + " markets, " + std::to_string(t.axes.plants.size()) + " plants, " +
                 std::to_string(t.builds()) + " builds in " + std::to_string(t.cells()) + " cells, " + std::to_string(t.feature_index.size()) + " features");
  show_axes(t.axes, page, out);
  show_features(t, page, out);
  show_numbers(t, page, out);
  if (options.json) print_json(out);
  else std::cout << page.text();
  return done;
}

}  // namespace exworks::cli
