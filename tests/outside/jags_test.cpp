#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>

#include "base/file.hpp"
#include "oracle_carrier.hpp"
#include "oracle_compare.hpp"

/// The same model in the words of JAGS, a general-purpose sampler: it builds vehicles by the pack's tables, lets things happen
/// to them, and weighs each by how well it fits what was noted (likelihood weighting). The draws are independent, so the
/// standard errors below are plain ones. The tables come from the oracle; every sum over what may have happened is JAGS's own.
using namespace exworks;
using namespace exworks::test;
using namespace exworks::test::oracle;

namespace {

constexpr int draws = 100000;
constexpr double standard_errors = 5;

const char* const model_text = R"(model {
  cell ~ dcat(prior[])
  for (a in 1:assemblies) {
    way[a] ~ dcat(ways[cell, a, ])                    # 1 as it was, 2 from another vehicle of the family, 3 ... outside changes
    donor[a] ~ dcat(donors[variant[cell], a, ])
    source[a] <- ifelse(way[a] == 2, donor[a], cell)
  }
  for (f in 1:features) {
    works[f] ~ dcat(fitted[cell, f, ])
    brought[f] ~ dcat(fitted[donor[assembly[f]], f, ])
    came[f] <- ifelse(way[assembly[f]] == 2, brought[f], works[f])
    altered[f] ~ dbern(rate[f])
    change[f] ~ dcat(changed[source[assembly[f]], f, ])
    kept[f] <- ifelse(altered[f] == 1, change[f], came[f])
    set[f] <- sets[f, way[assembly[f]]]
    there[f] <- ifelse(set[f] > 0, set[f], kept[f])
    right[f] <- equals(there[f], works[f])
    fits[f] <- slips[f, there[f]]
  }
  weight <- prod(fits[])
}
)";

/// Builds that the looked-at features can't tell apart, as one; the sampler has enough to do.
struct Cells {
  std::vector<std::size_t> build;  ///< [cell]: one of its builds
  std::vector<std::size_t> of;     ///< [build]
  Reals prior;
};

Cells cells_of(const Model& model, const Visit& visit) {
  Cells out;
  std::map<std::vector<Real>, std::size_t> known;
  for (std::size_t b = 0; b < model.builds().size(); ++b) {
    const Build& build = model.builds()[b];
    std::vector<Real> key{static_cast<Real>(build.variant), static_cast<Real>(build.market), static_cast<Real>(build.plant)};
    for (const Look& look : visit.looks) {
      for (const Real x : model.works(look.feature, b).share) key.push_back(x);
      for (const Real x : model.changed(look.feature, b)) key.push_back(x);
    }
    const auto [at, fresh] = known.emplace(key, out.build.size());
    if (fresh) out.build.push_back(b), out.prior.push_back(0);
    out.of.push_back(at->second);
    out.prior[at->second] += model.prior()[b];
  }
  return out;
}

/// An array in the notation of R, whose first index runs fastest.
class Array {
 public:
  explicit Array(std::vector<std::size_t> sizes) : sizes_(std::move(sizes)) {
    std::size_t all = 1;
    for (const std::size_t n : sizes_) all *= n;
    numbers_.assign(all, 0);
  }
  Real& at(const std::vector<std::size_t>& index) {
    std::size_t place = 0;
    for (std::size_t i = sizes_.size(); i-- > 0;) place = place * sizes_[i] + index[i];
    return numbers_[place];
  }
  std::string text(const std::string& name) const {
    std::ostringstream out;
    out.precision(17);
    out << "\"" << name << "\" <- structure(c(";
    for (std::size_t i = 0; i < numbers_.size(); ++i) out << (i ? "," : "") << static_cast<double>(numbers_[i]);
    out << "), .Dim = c(";
    for (std::size_t i = 0; i < sizes_.size(); ++i) out << (i ? "," : "") << sizes_[i];
    out << "))\n";
    return out.str();
  }

 private:
  std::vector<std::size_t> sizes_;
  Reals numbers_;
};

/// The ways of each assembly; one more assembly, which is never replaced, stands for the features that are in none.
std::string assemblies_text(const SmallPack& pack, const Model& model, const Cells& cells) {
  const std::size_t all = pack.assemblies.size(), ways = 2 + pack.outsides.size();
  Array way({cells.build.size(), all + 1, ways}), donors({pack.variants.size(), all + 1, cells.build.size()}),
      variant({cells.build.size()});
  for (std::size_t c = 0; c < cells.build.size(); ++c) {
    const std::size_t v = model.builds()[cells.build[c]].variant;
    variant.at({c}) = static_cast<Real>(v + 1);
    for (std::size_t a = 0; a <= all; ++a) {
      for (std::size_t d = 0; d < cells.build.size(); ++d) donors.at({v, a, d}) = a == all ? cells.prior[d] : 0;
      for (const Way& w : model.ways(a == all ? std::nullopt : std::optional(a), cells.build[c])) {
        way.at({c, a, w.outside ? 2 + *w.outside : w.donor ? 1U : 0U}) += w.p;
        if (w.donor) donors.at({v, a, cells.of[*w.donor]}) += w.p;
      }
    }
  }
  return way.text("ways") + donors.text("donors") + variant.text("variant") + "\"assemblies\" <- " + std::to_string(all + 1) +
         "\n";
}

std::string features_text(const SmallPack& pack, const Visit& visit, const Model& model, const Cells& cells) {
  const std::size_t all = visit.looks.size(), ways = 2 + pack.outsides.size();
  std::size_t values = 0;
  for (const Look& look : visit.looks) values = std::max(values, pack.features[look.feature].values + 1);
  Array fitted({cells.build.size(), all, values}), changed({cells.build.size(), all, values}), slips({all, values}),
      sets({all, ways});
  Array rate({all}), assembly({all});
  for (std::size_t i = 0; i < all; ++i) {
    const std::size_t f = visit.looks[i].feature;
    for (std::size_t v = 0; v <= pack.features[f].values; ++v) {
      slips.at({i, v}) = model.slips(i)[v];
      for (std::size_t c = 0; c < cells.build.size(); ++c) {
        fitted.at({c, i, v}) = model.works(f, cells.build[c]).share[v];
        changed.at({c, i, v}) = model.changed(f, cells.build[c])[v];
      }
    }
    rate.at({i}) = model.altered(f);
    assembly.at({i}) = static_cast<Real>(pack.features[f].assembly.value_or(pack.assemblies.size()) + 1);
    for (std::size_t k = 0; k < pack.outsides.size(); ++k) {
      for (const auto& [set, value] : pack.outsides[k].sets) {
        if (set == f) sets.at({i, 2 + k}) = static_cast<Real>(value + 1);
      }
    }
  }
  return fitted.text("fitted") + changed.text("changed") + slips.text("slips") + sets.text("sets") + rate.text("rate") +
         assembly.text("assembly") + "\"features\" <- " + std::to_string(all) + "\n";
}

/// What JAGS drew: [draw].
struct Draws {
  std::vector<std::size_t> cell;
  std::vector<std::vector<bool>> type;  ///< [look][draw]
  std::vector<double> weight;
};

/// JAGS writes one long column and, in the index, the lines that each name takes.
std::map<std::string, std::vector<double>> read_columns(const fs::path& folder) {
  std::vector<double> numbers;
  std::ifstream chain(folder / "drawn" / "chain1.txt");
  for (double draw = 0, number = 0; chain >> draw >> number;) numbers.push_back(number);
  std::map<std::string, std::vector<double>> out;
  std::ifstream index(folder / "drawn" / "index.txt");
  std::string name;
  for (std::size_t first = 0, last = 0; index >> name >> first >> last;) {
    REQUIRE(last <= numbers.size());
    out[name].assign(numbers.begin() + static_cast<std::ptrdiff_t>(first - 1),
                     numbers.begin() + static_cast<std::ptrdiff_t>(last));
  }
  return out;
}

Draws sample(const SmallPack& pack, const Visit& visit, const Model& model, const Cells& cells) {
  const TemporaryFolder folder;
  Array prior({cells.prior.size()});
  for (std::size_t c = 0; c < cells.prior.size(); ++c) prior.at({c}) = cells.prior[c];
  folder.write("model.txt", model_text);
  folder.write("data.txt", prior.text("prior") + assemblies_text(pack, model, cells) + features_text(pack, visit, model, cells));
  folder.write("start.txt", "\".RNG.name\" <- \"base::Mersenne-Twister\"\n\".RNG.seed\" <- 7\n");
  folder.write("drawn/about.txt", "What JAGS drew.\n");
  folder.write("run.txt",
               "model in model.txt\ndata in data.txt\ncompile\nparameters in start.txt\ninitialize\nmonitor cell\nmonitor right\n"
               "monitor weight\nupdate " +
                   std::to_string(draws) + "\ncoda *, stem(\"drawn/\")\n");
  const std::string command = "cd '" + folder.path().string() + "' && jags run.txt >said.txt 2>&1";
  const int status = std::system(command.c_str());
  INFO(read_file(folder.path() / "said.txt"));
  REQUIRE(status == 0);
  const auto columns = read_columns(folder.path());
  Draws out;
  for (const double c : columns.at("cell")) out.cell.push_back(static_cast<std::size_t>(c) - 1);
  out.weight = columns.at("weight");
  for (std::size_t i = 0; i < visit.looks.size(); ++i) {
    const auto& column = columns.at(visit.looks.size() == 1 ? "right" : "right[" + std::to_string(i + 1) + "]");
    out.type.emplace_back(column.begin(), column.end());
  }
  REQUIRE(out.cell.size() == static_cast<std::size_t>(draws));
  return out;
}

/// Holds P of an event as the engine has it against the weighted draws.
template <class Event>
void check_share(const std::string& what, double engine, const Draws& drawn, const Event& event) {
  double all = 0, hits = 0, squares = 0, spread = 0;
  for (std::size_t i = 0; i < drawn.weight.size(); ++i) all += drawn.weight[i], hits += event(i) ? drawn.weight[i] : 0;
  const double share = hits / all;
  for (std::size_t i = 0; i < drawn.weight.size(); ++i) {
    const double w = drawn.weight[i] / all, off = (event(i) ? 1.0 : 0.0) - share;
    squares += w * w;
    spread += w * w * off * off;
  }
  // The greater of the error that the draws show and the one due if the engine is right: the first is too small for rare events.
  const double error = std::sqrt(std::max(spread, squares * engine * (1 - engine)));
  INFO(what << ": engine " << engine << ", JAGS " << share << ", standard error " << error << ", as good as " << 1 / squares
            << " draws");
  CHECK(std::fabs(engine - share) <= standard_errors * error + 1e-9);
  CHECK(error < 0.02);  // else the comparison would say little
}

bool have_jags() {
  if (std::system("command -v jags >/dev/null 2>&1") == 0) return true;
  WARN("SKIPPED: the command `jags` is not installed; the engine was not compared with an independent sampler");
  return false;
}

/// Generations, variants and every P(type as built).
void compare_with_jags(const Case& c) {
  const Model model(c.pack, c.visit);
  const Cells cells = cells_of(model, c.visit);
  const Draws drawn = sample(c.pack, c.visit, model, cells);
  const Engine engine = run_engine(c.tables, c.xml);
  std::vector<double> generations(c.tables.axes.generations.size(), 0), variants(c.tables.axes.variants.size(), 0);
  for (const RouteInfo& route : c.tables.routes) {
    for (std::size_t b = route.first_build; b < route.first_build + route.builds(); ++b) {
      variants[route.variant] += engine.posterior.build[b];
      generations[c.tables.axes.variants[route.variant].generation] += engine.posterior.build[b];
    }
  }
  const auto variant = [&](std::size_t draw) { return model.builds()[cells.build[drawn.cell[draw]]].variant; };
  for (std::size_t g = 0; g < generations.size(); ++g) {
    const auto in_it = [&](std::size_t draw) { return c.pack.variants[variant(draw)].generation == g; };
    check_share("generation " + c.tables.axes.generations[g].id, generations[g], drawn, in_it);
  }
  for (std::size_t v = 0; v < variants.size(); ++v) {
    check_share("variant " + c.tables.axes.variants[v].id, variants[v], drawn, [&](std::size_t draw) { return variant(draw) == v; });
  }
  for (std::size_t look = 0; look < c.visit.looks.size(); ++look) {
    const std::string& id = c.names.features[c.visit.looks[look].feature];
    const auto finding = std::find_if(engine.features.begin(), engine.features.end(),
                                      [&](const FeatureFinding& f) { return c.tables.features[f.feature].id == id; });
    REQUIRE(finding != engine.features.end());
    check_share("P(type as built) of " + id, finding->p_type, drawn, [&](std::size_t draw) { return drawn.type[look][draw]; });
  }
}

}  // namespace

TEST_CASE("JAGS agrees on a pack made by chance", "[outside][jags][slow]") {
  if (!have_jags()) return;
  Dice dice(115);  // one with outside changes, options and a feature that not all vehicles have
  const SmallPack pack = random_pack(dice);
  const Visit visit = random_visit(pack, dice, 0.75);
  INFO(pack_xml(pack) << visit_xml(pack, visit));
  compare_with_jags({pack, pack_from_text(pack_xml(pack)), visit, visit_xml(pack, visit), letters(pack)});
}

TEST_CASE("JAGS agrees on six features of the Aldermoor Carrier", "[outside][jags][slow]") {
  if (!have_jags()) return;
  // A Series 1 with high headlamps and the gearbox of a Series 2, noted with doubt: sure notes would leave few draws that fit.
  const Visit visit = carrier_visit({{0, 1, "seen", "probable"},
                                     {1, 0, "seen", "guess"},
                                     {3, 0, "seen", "guess"},
                                     {4, 1, "seen", "probable"},
                                     {5, 1, "photo", "probable"}});
  const SmallPack structs = carrier();
  compare_with_jags({structs, exworks::test::pack("aldermoor-carrier"), visit, carrier_visit_xml(visit), carrier_names()});
}
