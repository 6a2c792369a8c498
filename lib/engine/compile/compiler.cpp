#include "engine/compile/compiler.hpp"

#include <algorithm>
#include <string_view>

#include "engine/compile/axes.hpp"
#include "engine/compile/columns.hpp"
#include "engine/compile/priors.hpp"
#include "pack/model/limits.hpp"

namespace exworks {

namespace {

class Compiler {
 public:
  Compiler(const Pack& pack, Diagnostics& diagnostics) : pack_(pack), diagnostics_(diagnostics), routes_(routes(pack)) {}

  std::optional<Tables> run() {
    labels();
    builds();
    features();
    numbers();
    changes();
    if (!cells()) return std::nullopt;
    assemblies();
    return std::move(t_);
  }

 private:
  RouteSet route_set(const Scope& scope) const {
    RouteSet set(routes_.size());
    for (std::size_t r = 0; r < set.size(); ++r) set[r] = scope.covers(routes_[r].variant, routes_[r].market, routes_[r].plant);
    return set;
  }

  void labels() {
    t_.family = pack_.id;
    t_.name = pack_.name;
    t_.version = pack_.version;
    t_.digest = pack_.digest;
    t_.invented = pack_.invented;
    for (const BasePack& base : pack_.extends) t_.extends.push_back({base.id, base.version, base.digest});
    t_.rates = pack_.rates;
    t_.axes = axes_of(pack_);
    catalogue(t_.catalogue);
  }

  void catalogue(Catalogue& out) const {
    out.sources.assign(pack_.sources.begin(), pack_.sources.end());
    for (const StandingPlace& p : pack_.places) out.places.push_back({p.id, p.name});
    for (const Caution& c : pack_.cautions) out.cautions.push_back({c.id, c.name, c.text, c.always, c.sources});
    for (const Term& w : pack_.terms) out.terms.push_back({w.word, w.en_us, w.en_au});
    for (const Question& q : pack_.questions) {
      QuestionInfo info{q.id, q.ask, {}, std::vector<bool>(q.answers.size(), false)};
      for (const auto& [id, name] : q.answers) info.answers.push_back({id, name});
      out.questions.push_back(std::move(info));
    }
    for (const Hallmark& h : pack_.hallmarks) out.questions[h.question].right[h.answer] = true;
  }

  void builds() {
    const auto weights = build_weights(pack_, routes_);
    double total = 0;
    for (std::size_t r = 0; r < routes_.size(); ++r) {
      t_.routes.push_back({routes_[r].variant, routes_[r].market, routes_[r].plant, routes_[r].first, routes_[r].last, t_.prior.size()});
      first_ = r == 0 ? routes_[r].first : std::min(first_, routes_[r].first);
      last_ = r == 0 ? routes_[r].last : std::max(last_, routes_[r].last);
      for (double w : weights[r]) {
        t_.prior.push_back(w);
        total += w;
      }
    }
    for (double& p : t_.prior) p /= total;
  }

  FactInfo fact_info(const Fact& fact) const {
    FactInfo info;
    info.name = fact.name;
    info.value = fact.value;
    info.fitted = fact.fitted;
    info.share = fact.share.value_or(1);
    info.scope = fact.scope;
    info.from = fact.from;
    info.to = fact.to;
    info.from_number = fact.from_number;
    info.to_number = fact.to_number;
    info.sources = fact.sources;
    info.disputed = fact.disputed;
    info.law = fact.law;
    info.note = fact.note;
    info.memory_only = std::all_of(fact.sources.begin(), fact.sources.end(), [&](std::size_t s) { return pack_.sources[s].kind == SourceKind::memory; });
    return info;
  }

  void features() {
    for (const Feature& f : pack_.features) {
      FeatureInfo info;
      info.id = f.id;
      info.name = f.name;
      info.ask = f.ask;
      info.method = f.method;
      info.tool = f.tool;
      info.unit = f.unit;
      info.place = f.standing_place;
      info.assembly = f.assembly;
      info.components = f.components;
      if (f.assembly) info.components.insert(info.components.end(), pack_.assemblies[*f.assembly].components.begin(), pack_.assemblies[*f.assembly].components.end());
      info.weight = f.weight;
      info.minutes = f.minutes;
      info.altered = f.altered.value_or(pack_.rates.altered);
      if (f.slip) info.slip = *f.slip / pack_.rates.sure;
      info.cautions = f.cautions;
      for (const Value& v : f.values) info.values.push_back({v.id, v.name, v.recognise, v.looks_like, v.measure, v.tolerance});
      for (const Fact& fact : f.facts) {
        info.facts.push_back(fact_info(fact));
        if (fact.from_number) info.number_edges.push_back(*fact.from_number);
        if (fact.to_number) info.number_edges.push_back(*fact.to_number);
      }
      std::sort(info.number_edges.begin(), info.number_edges.end());
      info.number_edges.erase(std::unique(info.number_edges.begin(), info.number_edges.end()), info.number_edges.end());
      t_.feature_index.emplace(f.id, t_.features.size());
      t_.features.push_back(std::move(info));
    }
  }

  void numbers() {
    for (const Number& n : pack_.numbers) {
      NumberInfo info;
      info.id = n.id;
      info.name = n.name;
      info.where = n.where;
      info.identity = n.identity;
      info.assembly = n.assembly;
      info.sources = n.sources;
      for (const NumberForm& f : n.forms) {
        FormInfo form{f.grammar, route_set(f.scope), f.from, f.to, {}, f.sources, f.example, f.note};
        for (const auto& part : f.meanings) {
          auto& codes = form.codes.emplace_back();
          for (const CodeMeaning& m : part) {
            CodeInfo& code = codes.emplace_back();
            if (m.scope) code.scope = route_set(*m.scope);
            code.sets = m.sets;
          }
        }
        info.forms.push_back(std::move(form));
      }
      for (const NumberRange& r : n.ranges) {
        info.ranges.push_back({r.first, r.last, r.from, r.to, route_set(r.scope), r.forms, r.spread, r.name, r.sources});
      }
      if (!n.identity && n.assembly && !n.ranges.empty()) serial_feature(n, info);
      t_.numbers.push_back(std::move(info));
    }
  }

  void serial_feature(const Number& n, NumberInfo& number) {
    FeatureInfo info;
    info.id = n.id;
    info.name = n.name;
    info.weight = 0;
    info.altered = pack_.rates.number_error;
    info.assembly = n.assembly;
    info.of_number = t_.numbers.size();
    for (const NumberRange& r : n.ranges) {
      const std::string words = std::to_string(r.first) + " to " + std::to_string(r.last);
      info.values.push_back({words, words, {}, {}, {}, {}});
    }
    number.serial_feature = t_.features.size();
    t_.features.push_back(std::move(info));
  }

  void changes() {
    for (const LaterChange& c : pack_.later_changes) {
      ChangeInfo info{c.id, c.name, c.spot, c.reversible, c.feature, c.assembly, c.sets, c.from, c.share, c.hours, route_set(c.scope), c.sources};
      if (c.feature) t_.features[*c.feature].changes.push_back(t_.changes.size());
      t_.changes.push_back(std::move(info));
    }
  }

  /// Builds with the same variant, the same later changes and the same column of every feature are one cell.
  bool cells() {
    std::vector<ColumnBuilder> builders;
    struct Plane {
      std::size_t feature;
      std::optional<std::size_t> edges_passed;
    };
    std::vector<Plane> planes;
    for (std::size_t f = 0; f < t_.features.size(); ++f) {
      FeatureInfo& info = t_.features[f];
      if (info.of_number) builders.emplace_back(pack_.numbers[*info.of_number], info, first_, last_);
      else builders.emplace_back(pack_.features[f], pack_.later_changes, info, first_, last_);
      planes.push_back({f, std::nullopt});
      if (info.number_edges.empty()) continue;
      for (std::size_t k = 0; k <= info.number_edges.size(); ++k) planes.push_back({f, k});
      info.column_by_number.resize(info.number_edges.size() + 1);
    }
    std::unordered_map<std::string, std::uint32_t> seen;
    t_.cell_of.resize(t_.prior.size());
    std::vector<const ColumnIndex*> series(planes.size());
    for (std::size_t r = 0; r < routes_.size(); ++r) {
      for (std::size_t p = 0; p < planes.size(); ++p) series[p] = builders[planes[p].feature].months_of(routes_[r], planes[p].edges_passed).data();
      const std::string head = cell_head(r);
      const auto offset = static_cast<std::size_t>(routes_[r].first - first_);
      std::uint32_t cell = 0;
      for (std::size_t i = 0; i < t_.routes[r].builds(); ++i) {
        const bool same = i > 0 && std::all_of(series.begin(), series.end(), [&](const ColumnIndex* s) { return s[offset + i] == s[offset + i - 1]; });
        if (!same) {
          std::string key = head;
          for (const ColumnIndex* s : series) key.append(reinterpret_cast<const char*>(s + offset + i), sizeof(ColumnIndex));
          const auto [at, fresh] = seen.emplace(std::move(key), static_cast<std::uint32_t>(t_.cell_prior.size()));
          cell = at->second;
          if (fresh) {
            t_.cell_prior.push_back(0);
            t_.cell_route.push_back(static_cast<std::uint32_t>(r));
            for (std::size_t p = 0; p < planes.size(); ++p) {
              FeatureInfo& info = t_.features[planes[p].feature];
              auto& columns = planes[p].edges_passed ? info.column_by_number[*planes[p].edges_passed] : info.column_of;
              columns.push_back(series[p][offset + i]);
            }
          }
        }
        const std::size_t build = t_.routes[r].first_build + i;
        t_.cell_of[build] = cell;
        t_.cell_prior[cell] += t_.prior[build];
      }
    }
    return std::none_of(builders.begin(), builders.end(), [&](const ColumnBuilder& b) { return b.too_many(diagnostics_); });
  }

  std::string cell_head(std::size_t route) const {
    std::string head = std::to_string(routes_[route].variant) + ':';
    for (const ChangeInfo& c : t_.changes) {
      if (c.assembly) head += c.scope[route] ? '1' : '0';
    }
    return head;
  }

  void assemblies() {
    for (std::size_t a = 0; a < pack_.assemblies.size(); ++a) {
      const Assembly& assembly = pack_.assemblies[a];
      AssemblyInfo info;
      info.id = assembly.id;
      info.name = assembly.name;
      info.reversible = assembly.reversible;
      info.replaced = assembly.replaced.value_or(pack_.rates.replaced);
      info.hours = assembly.hours;
      for (std::size_t f = 0; f < t_.features.size(); ++f) {
        if (t_.features[f].assembly == a) info.features.push_back(f);
      }
      for (std::size_t c = 0; c < t_.changes.size(); ++c) {
        if (t_.changes[c].assembly == a) info.changes.push_back(c);
      }
      assembly_columns(info);
      donors(assembly, info);
      t_.assemblies.push_back(std::move(info));
    }
  }

  void assembly_columns(AssemblyInfo& info) const {
    std::unordered_map<std::string, std::uint32_t> seen;
    std::string key;
    for (std::size_t cell = 0; cell < t_.cells(); ++cell) {
      key.clear();
      for (std::size_t f : info.features) key.append(reinterpret_cast<const char*>(&t_.features[f].column_of[cell]), sizeof(ColumnIndex));
      for (std::size_t c : info.changes) key += t_.changes[c].scope[t_.cell_route[cell]] ? '1' : '0';
      const auto [at, fresh] = seen.emplace(key, static_cast<std::uint32_t>(info.columns.size()));
      if (fresh) {
        AssemblyColumn& column = info.columns.emplace_back();
        for (std::size_t f : info.features) column.columns.push_back(t_.features[f].column_of[cell]);
        for (std::size_t c : info.changes) {
          if (t_.changes[c].scope[t_.cell_route[cell]]) column.changes.push_back(c);
        }
      }
      info.column_of.push_back(at->second);
    }
  }

  void donors(const Assembly& assembly, AssemblyInfo& info) const {
    AxisSet everything;
    for (std::size_t v = 0; v < pack_.variants.size(); ++v) everything.set(v);
    std::vector<AxisSet> groups;
    for (std::size_t v = 0; v < pack_.variants.size(); ++v) {
      AxisSet donors = everything;
      for (const Interchange& i : assembly.interchange) {
        if (i.variants[v]) donors = i.donors;
      }
      auto at = std::find(groups.begin(), groups.end(), donors);
      if (at == groups.end()) at = groups.insert(groups.end(), donors);
      info.donor_group.push_back(static_cast<std::size_t>(at - groups.begin()));
    }
    for (const AxisSet& group : groups) {
      std::vector<double> weight(info.columns.size(), 0);
      double sum = 0;
      for (std::size_t cell = 0; cell < t_.cells(); ++cell) {
        if (!group[t_.routes[t_.cell_route[cell]].variant]) continue;
        weight[info.column_of[cell]] += t_.cell_prior[cell];
        sum += t_.cell_prior[cell];
      }
      for (double& w : weight) w /= sum;
      info.donors.push_back(std::move(weight));
      std::vector<bool> members(pack_.variants.size());
      for (std::size_t v = 0; v < members.size(); ++v) members[v] = group[v];
      info.donor_variants.push_back(std::move(members));
    }
  }

  const Pack& pack_;
  Diagnostics& diagnostics_;
  std::vector<Route> routes_;
  Tables t_;
  Month first_, last_;
};

}  // namespace

std::optional<Tables> compile(const Pack& pack, Diagnostics& diagnostics) {
  if (!within_limits(pack, diagnostics)) return std::nullopt;
  return Compiler(pack, diagnostics).run();
}

}  // namespace exworks
