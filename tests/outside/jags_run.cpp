#include "jags_run.hpp"

#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>

#include "../support.hpp"
#include "base/file.hpp"

namespace exworks::test::oracle {

namespace {

const char* const model_text = R"(model {
  cell ~ dcat(prior[])
  level ~ dcat(levels[])
  for (j in 1:conversions) {
    had[j] ~ dbern(converted[cell, level, j])
  }
  for (a in 1:assemblies) {
    way[a] ~ dcat(ways[cell, level, a, ])             # 1 as it was, 2 of the family, 3 of nobody's, 4 ... outside changes
    donor[a] ~ dcat(donors[cell, a, ])
    source[a] <- ifelse(way[a] == 2, donor[a], cell)
  }
  for (f in 1:features) {
    works[f] ~ dcat(fitted[cell, f, ])
    brought[f] ~ dcat(fitted[donor[assembly[f]], f, ])
    nobodys[f] ~ dcat(unnamed[f, ])
    came[f] <- ifelse(way[assembly[f]] == 2, brought[f], works[f])
    altered[f] ~ dbern(rate[level, f])
    change[f] ~ dcat(changed[source[assembly[f]], f, ])
    kept[f] <- ifelse(altered[f] == 1, change[f], came[f])
    set[f] <- sets[f, way[assembly[f]]]
    layer[f, 1] <- ifelse(way[assembly[f]] == 3, nobodys[f], ifelse(set[f] > 0, set[f], kept[f]))
    for (j in 1:conversions) {
      turned[f, j] ~ dbern(surely[f, j])
      layer[f, j + 1] <- ifelse(had[j] * turned[f, j] == 1, turns[f, j], layer[f, j])
    }
    there[f] <- layer[f, conversions + 1]
    right[f] <- equals(there[f], works[f])
    fits[f] <- noted[f, there[f]]
  }
  weight <- prod(fits[])
}
)";

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

/// One more than there are, which is never had or replaced, so that none is empty and a lone feature has an assembly.
std::size_t and_one(std::size_t n) {
  return n + 1;
}

std::string axes_text(const Model& model, const Cells& cells) {
  const SmallPack& pack = model.tables().pack();
  const std::size_t levels = pack.rates.levels.size(), conversions = and_one(pack.conversions.size());
  Array prior({cells.prior.size()}), shares({levels}), converted({cells.build.size(), levels, conversions});
  for (std::size_t k = 0; k < levels; ++k) shares.at({k}) = pack.rates.level_shares[k];
  for (std::size_t c = 0; c < cells.build.size(); ++c) {
    prior.at({c}) = cells.prior[c];
    for (std::size_t k = 0; k < levels; ++k) {
      for (std::size_t j = 0; j < pack.conversions.size(); ++j)
        converted.at({c, k, j}) = oracle::converted(model.tables(), j, cells.build[c], pack.rates.levels[k]);
    }
  }
  return prior.text("prior") + shares.text("levels") + converted.text("converted") + "\"conversions\" <- " +
         std::to_string(conversions) + "\n";
}

std::string assemblies_text(const Model& model, const Cells& cells) {
  const SmallPack& pack = model.tables().pack();
  const std::size_t all = pack.assemblies.size(), levels = pack.rates.levels.size(), n = cells.build.size();
  Array way({n, levels, all + 1, 3 + pack.outsides.size()}), donors({n, all + 1, n});
  for (std::size_t c = 0; c < n; ++c) {
    for (std::size_t a = 0; a <= all; ++a) {
      if (a == all) donors.at({c, a, c}) = 1;
      for (std::size_t k = 0; k < levels; ++k) {
        for (const Way& w :
             oracle::ways(model.tables(), a == all ? std::nullopt : std::optional(a), cells.build[c], pack.rates.levels[k])) {
          way.at({c, k, a, w.outside ? 3 + *w.outside : w.unnamed ? 2U : w.donor ? 1U : 0U}) += w.p;
          if (w.donor) donors.at({c, a, cells.of[*w.donor]}) += w.p;
        }
      }
    }
  }
  return way.text("ways") + donors.text("donors") + "\"assemblies\" <- " + std::to_string(all + 1) + "\n";
}

/// What a look's feature may be, whoever made it so.
std::string values_text(const Model& model, const Cells& cells, std::size_t values) {
  const std::size_t all = model.looks().size(), levels = model.tables().pack().rates.levels.size();
  Array fitted({cells.build.size(), all, values}), changed({cells.build.size(), all, values}), noted({all, values}),
      unnamed({all, values});
  Array rate({levels, all});
  for (std::size_t i = 0; i < all; ++i) {
    const std::size_t f = model.looks()[i].feature;
    const Feature& feature = model.features()[f];
    const Real other = model.tables().pack().rates.outside_other;
    for (std::size_t v = 0; v <= feature.values; ++v) {
      noted.at({i, v}) = model.noted(i)[v];
      unnamed.at({i, v}) = v == feature.values ? other : (1 - other) / static_cast<Real>(feature.values);
      for (std::size_t c = 0; c < cells.build.size(); ++c) {
        fitted.at({c, i, v}) = model.tables().works(f, cells.build[c]).share[v];
        changed.at({c, i, v}) = all_of(feature, model.tables().changed(f, cells.build[c]))[v];
      }
    }
    for (std::size_t k = 0; k < levels; ++k)
      rate.at({k, i}) = at_level(model.tables().pack().rates.levels[k], altered(model.tables().pack(), feature));
  }
  return fitted.text("fitted") + changed.text("changed") + noted.text("noted") + unnamed.text("unnamed") + rate.text("rate");
}

/// What outside donors and conversions set.
std::string sets_text(const Model& model) {
  const SmallPack& pack = model.tables().pack();
  const std::size_t all = model.looks().size(), conversions = and_one(pack.conversions.size());
  Array sets({all, 3 + pack.outsides.size()}), assembly({all}), surely({all, conversions}), turns({all, conversions});
  for (std::size_t i = 0; i < all; ++i) {
    const std::size_t f = model.looks()[i].feature;
    assembly.at({i}) = static_cast<Real>(pack.features[f].assembly.value_or(pack.assemblies.size()) + 1);
    for (std::size_t k = 0; k < pack.outsides.size(); ++k) {
      for (const auto& [set, value] : pack.outsides[k].sets) {
        if (set == f) sets.at({i, 3 + k}) = static_cast<Real>(value + 1);
      }
    }
    for (std::size_t j = 0; j < conversions; ++j) turns.at({i, j}) = 1;  // some value, where it never turns any
    for (std::size_t j = 0; j < pack.conversions.size(); ++j) {
      for (const Sets& s : pack.conversions[j].sets) {
        if (s.feature == f) surely.at({i, j}) = s.surely, turns.at({i, j}) = static_cast<Real>(s.value + 1);
      }
    }
  }
  return sets.text("sets") + assembly.text("assembly") + surely.text("surely") + turns.text("turns") + "\"features\" <- " +
         std::to_string(all) + "\n";
}

using Columns = std::map<std::string, std::vector<double>>;

/// JAGS writes one long column and, in the index, the lines that each name takes.
Columns read_columns(const fs::path& folder) {
  std::vector<double> numbers;
  std::ifstream chain(folder / "drawn" / "chain1.txt");
  for (double draw = 0, number = 0; chain >> draw >> number;) numbers.push_back(number);
  Columns out;
  std::ifstream index(folder / "drawn" / "index.txt");
  std::string name;
  for (std::size_t first = 0, last = 0; index >> name >> first >> last;) {
    REQUIRE(last <= numbers.size());
    out[name].assign(numbers.begin() + static_cast<std::ptrdiff_t>(first - 1),
                     numbers.begin() + static_cast<std::ptrdiff_t>(last));
  }
  return out;
}

std::vector<std::vector<bool>> yes_or_no(const Columns& columns, const std::string& name, std::size_t count, std::size_t all) {
  std::vector<std::vector<bool>> out;
  for (std::size_t i = 0; i < count; ++i) {
    const auto& column = columns.at(all == 1 ? name : name + "[" + std::to_string(i + 1) + "]");
    out.emplace_back(column.begin(), column.end());
  }
  return out;
}

}  // namespace

Cells cells_of(const Model& model) {
  Cells out;
  std::map<std::vector<Real>, std::size_t> known;
  const PackTables& tables = model.tables();
  for (std::size_t b = 0; b < model.builds().size(); ++b) {
    const Build& build = model.builds()[b];
    std::vector<Real> key{static_cast<Real>(build.variant), static_cast<Real>(build.market), static_cast<Real>(build.plant)};
    for (std::size_t a = 0; a < tables.pack().assemblies.size(); ++a) key.push_back(tables.mean_month(a, b));
    for (const Look& look : model.looks()) {
      for (const Real x : tables.works(look.feature, b).share) key.push_back(x);
      for (const Real x : all_of(tables.feature(look.feature), tables.changed(look.feature, b))) key.push_back(x);
    }
    const auto [at, fresh] = known.emplace(key, out.build.size());
    if (fresh) out.build.push_back(b), out.prior.push_back(0);
    out.of.push_back(at->second);
    out.prior[at->second] += tables.builds().p[b];
  }
  return out;
}

bool have_jags() {
  if (std::system("command -v jags >/dev/null 2>&1") == 0) return true;
  WARN("SKIPPED: the command `jags` is not installed; nothing was compared with an independent sampler");
  return false;
}

Draws sample(const Model& model, const Cells& cells, int draws) {
  std::size_t values = 0;
  for (const Look& look : model.looks()) values = std::max(values, model.features()[look.feature].values + 1);
  const TemporaryFolder folder;
  folder.write("model.txt", model_text);
  folder.write("data.txt",
               axes_text(model, cells) + assemblies_text(model, cells) + values_text(model, cells, values) + sets_text(model));
  folder.write("start.txt", "\".RNG.name\" <- \"base::Mersenne-Twister\"\n\".RNG.seed\" <- 7\n");
  folder.write("drawn/about.txt", "What JAGS drew.\n");
  folder.write("run.txt",
               "model in model.txt\ndata in data.txt\ncompile\nparameters in start.txt\ninitialize\nmonitor cell\nmonitor level\n"
               "monitor right\nmonitor had\nmonitor weight\nupdate " +
                   std::to_string(draws) + "\ncoda *, stem(\"drawn/\")\n");
  const std::string command = "cd '" + folder.path().string() + "' && jags run.txt >said.txt 2>&1";
  const int status = std::system(command.c_str());
  INFO(read_file(folder.path() / "said.txt"));
  REQUIRE(status == 0);
  const Columns columns = read_columns(folder.path());
  const std::size_t conversions = model.tables().pack().conversions.size();
  Draws out;
  for (const double c : columns.at("cell")) out.cell.push_back(static_cast<std::size_t>(c) - 1);
  for (const double k : columns.at("level")) out.level.push_back(static_cast<std::size_t>(k) - 1);
  out.weight = columns.at("weight");
  out.type = yes_or_no(columns, "right", model.looks().size(), model.looks().size());
  out.had = yes_or_no(columns, "had", conversions, and_one(conversions));
  REQUIRE(out.cell.size() == static_cast<std::size_t>(draws));
  return out;
}

}  // namespace exworks::test::oracle
