#include "engine/compile/compiler.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <span>
#include <string_view>

#include "engine/compile/axes.hpp"
#include "engine/compile/columns.hpp"
#include "engine/compile/edges.hpp"
#include "engine/compile/priors.hpp"
#include "engine/compile/relatives.hpp"
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
    if (!fact.law) {
      info.from_within = edge_months(pack_, fact, fact.from_number.has_value());
      info.to_within = edge_months(pack_, fact, fact.to_number.has_value());
    }
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
      const double of_class = f.change_class ? pack_.rates.of_class[static_cast<std::size_t>(*f.change_class)] : pack_.rates.altered;
      info.altered = f.altered.value_or(of_class);
      if (!f.altered) info.change_class = f.change_class;
      info.foreign = f.foreign.value_or(pack_.rates.foreign);
      for (const Alike& a : f.alike) info.alike.push_back({a.a, a.b, a.rate});
      for (const NamedValues& g : f.groups) info.groups.push_back({g.id, g.name, g.values});
      info.cautions = f.cautions;
      for (const Value& v : f.values) info.values.push_back({v.id, v.name, v.recognise, v.looks_like, v.measure, v.tolerance});
      for (const Fact& fact : f.facts) {
        info.facts.push_back(fact_info(fact));
        if (fact.from_number) info.number_edges.push_back(*fact.from_number);
        if (fact.to_number) info.number_edges.push_back(*fact.to_number);
      }
      std::sort(info.number_edges.begin(), info.number_edges.end());
      info.number_edges.erase(std::unique(info.number_edges.begin(), info.number_edges.end()), info.number_edges.end());
      t_.feature_index.emplace(f.id, FeatureIndex{t_.features.size()});
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
    info.altered = pack_.rates.number_error.front();
    info.assembly = n.assembly;
    info.of_number = t_.numbers.size();
    for (const NumberRange& r : n.ranges) {
      const std::string words = std::to_string(r.first) + " to " + std::to_string(r.last);
      info.values.push_back({words, words, {}, {}, {}, {}});
    }
    number.serial_feature = FeatureIndex{t_.features.size()};
    t_.features.push_back(std::move(info));
  }

  void changes() {
    for (const LaterChange& c : pack_.later_changes) {
      ChangeInfo info{{c.id, c.name, c.spot, c.reversible, c.from, c.share, c.hours, route_set(c.scope), c.sources}, c.feature, c.assembly, c.sets};
      if (c.feature) t_.features[*c.feature].changes.push_back(t_.changes.size());
      t_.changes.push_back(std::move(info));
    }
    for (const Conversion& c : pack_.conversions) {
      ConversionInfo info{{c.id, c.name, c.spot, c.reversible, c.from, c.share, c.hours, route_set(c.scope), c.sources}, {}};
      for (const auto& s : c.sets) info.sets.push_back({s.feature, s.value, s.surely});
      t_.conversions.push_back(std::move(info));
    }
  }

  /// The columns of a feature, or of a number's serial: by dates first, then after each number of passed edges.
  struct Plane {
    std::size_t feature;
    std::optional<std::size_t> edges_passed;
    std::vector<std::vector<ColumnIndex>> columns;  ///< [route][month - its first]
  };

  /// Nothing where a feature has more columns than there are indexes.
  std::optional<std::vector<Plane>> planes() {
    std::vector<Plane> out;
    for (std::size_t f = 0; f < t_.features.size(); ++f) {
      FeatureInfo& info = t_.features[f];
      ColumnBuilder builder = info.of_number ? ColumnBuilder(pack_.numbers[*info.of_number], info, pack_.rates, first_, last_)
                                             : ColumnBuilder(pack_.features[f], pack_.later_changes, info, pack_.rates, first_, last_);
      const std::size_t first = out.size();
      out.push_back({f, std::nullopt, columns_of(builder, std::nullopt)});
      for (std::size_t k = 0; !info.number_edges.empty() && k <= info.number_edges.size(); ++k) out.push_back({f, k, columns_of(builder, k)});
      if (!info.number_edges.empty()) info.column_by_number.resize(info.number_edges.size() + 1);
      if (!info.of_number) relate(builder, info, std::span(out).subspan(first));
      if (builder.too_many(diagnostics_)) return std::nullopt;
      family_shares(info, out[first].columns);
    }
    return out;
  }

  std::vector<std::vector<ColumnIndex>> columns_of(ColumnBuilder& builder, std::optional<std::size_t> edges_passed) const {
    std::vector<std::vector<ColumnIndex>> out;
    for (const Route& route : routes_) {
      const std::vector<ColumnIndex>& months = builder.months_of(route, edges_passed);
      out.emplace_back(months.begin() + (route.first - first_), months.begin() + (route.last - first_) + 1);
    }
    return out;
  }

  /// Gives each silent build what its relatives had, by dates.
  void relate(ColumnBuilder& builder, FeatureInfo& info, std::span<Plane> planes) const {
    const bool any = std::any_of(info.columns.begin(), info.columns.end(), [](const Column& c) { return c.silent; });
    if (!any) return;
    const std::vector<std::vector<ColumnIndex>> by_dates = planes.front().columns;
    Relatives relatives(t_, info, by_dates);
    for (Plane& plane : planes) {
      for (std::size_t r = 0; r < routes_.size(); ++r) {
        for (std::size_t i = 0; i < plane.columns[r].size(); ++i) {
          if (!info.columns[plane.columns[r][i]].silent) continue;
          const Column silent = info.columns[plane.columns[r][i]];
          plane.columns[r][i] = builder.intern(relatives.related(r, routes_[r].first + static_cast<int>(i), silent));
        }
      }
    }
  }

  /// What the family left the works with, as far as the pack speaks: how much of each value, and when.
  void family_shares(FeatureInfo& info, const std::vector<std::vector<ColumnIndex>>& columns) const {
    info.volume.assign(info.values.size(), 0.0);
    info.mean_month.assign(info.values.size(), 0.0);
    for (std::size_t r = 0; r < routes_.size(); ++r) {
      for (std::size_t i = 0; i < columns[r].size(); ++i) {
        const Column& c = info.columns[columns[r][i]];
        if (c.silent || !c.applies) continue;
        const double p = t_.prior[t_.routes[r].first_build + i];
        for (std::size_t v = 0; v < info.volume.size(); ++v) {
          info.volume[v] += p * c.share[v];
          info.mean_month[v] += p * c.share[v] * (routes_[r].first.index + static_cast<int>(i));
        }
      }
    }
    for (std::size_t v = 0; v < info.volume.size(); ++v) {
      if (info.volume[v] > 0) info.mean_month[v] /= info.volume[v];
    }
  }

  /// Builds with the same variant, the same later changes and the same column of every feature are one cell.
  bool cells() {
    const std::optional<std::vector<Plane>> found = planes();
    if (!found) return false;
    const std::vector<Plane>& all = *found;
    std::vector<ColumnIndex> rows(t_.prior.size() * all.size());  // [build][plane]
    for (std::size_t p = 0; p < all.size(); ++p) {
      for (std::size_t r = 0; r < routes_.size(); ++r) {
        for (std::size_t i = 0; i < t_.routes[r].builds(); ++i) rows[(t_.routes[r].first_build + i) * all.size() + p] = all[p].columns[r][i];
      }
    }
    std::map<std::string, std::unordered_map<std::string_view, std::uint32_t>> seen;  // by what else a cell's builds share
    t_.cell_of.resize(t_.prior.size());
    for (std::size_t r = 0; r < routes_.size(); ++r) {
      auto& known = seen[cell_head(r)];
      for (std::size_t i = 0; i < t_.routes[r].builds(); ++i) {
        const std::size_t build = t_.routes[r].first_build + i;
        const std::string_view row(reinterpret_cast<const char*>(&rows[build * all.size()]), all.size() * sizeof(ColumnIndex));
        const auto [at, fresh] = known.emplace(row, static_cast<std::uint32_t>(t_.cell_prior.size()));
        if (fresh) add_cell(all, r, i);
        t_.cell_of[build] = at->second;
        t_.cell_prior[at->second] += t_.prior[build];
      }
    }
    return true;
  }

  void add_cell(const std::vector<Plane>& all, std::size_t route, std::size_t month) {
    t_.cell_prior.push_back(0);
    t_.cell_route.push_back(static_cast<std::uint32_t>(route));
    for (const Plane& p : all) {
      FeatureInfo& info = t_.features[p.feature];
      auto& columns = p.edges_passed ? info.column_by_number[*p.edges_passed] : info.column_of;
      columns.push_back(p.columns[route][month]);
    }
  }

  std::string cell_head(std::size_t route) const {
    std::string head = std::to_string(routes_[route].variant) + ':';
    for (const ChangeInfo& c : t_.changes) {
      if (c.assembly) head += c.scope[route] ? '1' : '0';
    }
    for (const ConversionInfo& c : t_.conversions) head += c.scope[route] ? '1' : '0';
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
      mean_months(info);
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

  /// Builds that left the works alike in every feature of the assembly have one mean month, whatever else tells their columns apart.
  void mean_months(AssemblyInfo& info) const {
    std::map<std::vector<long long>, std::size_t> alike;
    std::vector<std::size_t> group;
    for (const AssemblyColumn& column : info.columns) {
      std::vector<long long> shares;
      for (std::size_t i = 0; i < info.features.size(); ++i) {
        for (double s : t_.features[info.features[i]].columns[column.columns[i]].share) shares.push_back(std::llround(s * 1e9));
      }
      group.push_back(alike.emplace(std::move(shares), alike.size()).first->second);
    }
    std::vector<double> mass(alike.size(), 0.0), months(alike.size(), 0.0);
    for (const RouteInfo& route : t_.routes) {
      for (std::size_t i = 0; i < route.builds(); ++i) {
        const std::size_t build = route.first_build + i, g = group[info.column_of[t_.cell_of[build]]];
        mass[g] += t_.prior[build];
        months[g] += t_.prior[build] * (route.first.index + static_cast<int>(i));
      }
    }
    for (std::size_t g : group) info.mean_month.push_back(mass[g] > 0 ? months[g] / mass[g] : 0.0);
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
