#include "oracle.hpp"

#include <algorithm>

/// The sums over the latent states.
namespace exworks::test::oracle {

namespace {

/// P(the looks of the unit | build)
Real likelihood(const std::vector<State>& states) {
  Real total = 0;
  for (const auto& [way, splits] : states) {
    Real p = way.p;
    for (const Split& s : splits) p *= s.type + s.later;
    total += p;
  }
  return total;
}

std::map<int, Real> added(const std::map<int, Real>& a, const std::map<int, Real>& b) {
  std::map<int, Real> out;
  for (const auto& [x, p] : a) {
    for (const auto& [y, q] : b) out[x + y] += p * q;
  }
  return out;
}

}  // namespace

Real Model::altered(std::size_t feature) const {
  return Real{pack_.features[feature].altered.value_or(pack_.rates.altered)};
}

bool Model::may_donate(const Assembly& assembly, std::size_t variant, std::size_t donor) const {
  bool named = false;
  for (const Interchange& row : assembly.rows) {
    if (!row.variants[variant]) continue;
    named = true;
    if (row.donors[donor]) return true;
  }
  return !named;
}

std::vector<Way> Model::ways(std::optional<std::size_t> index, std::size_t build) const {
  if (!index) return {Way{}};
  const Assembly& assembly = pack_.assemblies[*index];
  const Real replaced = assembly.replaced.value_or(pack_.rates.replaced);
  std::vector<Way> out{{1 - replaced, {}, {}}};
  Real from_family = replaced;
  for (std::size_t k = 0; k < pack_.outsides.size(); ++k) {
    const Outside& outside = pack_.outsides[k];
    if (outside.assembly != *index || !covers(outside.scope, builds_[build])) continue;
    Real possible = 1;
    if (outside.from && visit_.month) {
      const Real months = static_cast<Real>(outside.from->last - outside.from->first + 1);
      possible = std::clamp((static_cast<Real>(*visit_.month - outside.from->first) + 0.5L) / months, Real{0}, Real{1});
    }
    out.push_back({replaced * Real{outside.share} * possible, {}, k});
    from_family -= out.back().p;
  }
  Real volume = 0;
  const auto fits = [&](std::size_t d) { return may_donate(assembly, builds_[build].variant, builds_[d].variant); };
  for (std::size_t d = 0; d < builds_.size(); ++d) volume += fits(d) ? prior_[d] : 0;
  for (std::size_t d = 0; d < builds_.size(); ++d) {
    if (fits(d)) out.push_back({from_family * prior_[d] / volume, d, {}});
  }
  return out;
}

/// The value that an outside change puts there, when it names the feature.
std::optional<std::size_t> Model::set_by(const Way& way, std::size_t feature) const {
  if (!way.outside) return std::nullopt;
  for (const auto& [set, value] : pack_.outsides[*way.outside].sets) {
    if (set == feature) return value;
  }
  return std::nullopt;
}

/// Visits what the works fitted, whether it was altered by itself, and what is there now.
Split Model::split(std::size_t look, std::size_t build, const Way& way, const World& world) const {
  const std::size_t f = visit_.looks[look].feature;
  const Reals& fitted = world.works[f][build].share;
  Split out;
  const auto visit = [&](std::size_t works, std::size_t there, Real p, bool untouched) {
    if (p == 0) return;
    const Real seen = p * slips_[look][there];
    (works == there ? out.type : out.later) += seen;
    (works == there ? out.type_before : out.later_before) += p;
    out.there.at(there) += seen;
    if (untouched) out.untouched += seen;
  };
  const Real e = altered(f);
  const std::optional<std::size_t> set = set_by(way, f);
  for (std::size_t works = 0; works < fitted.size(); ++works) {
    if (fitted[works] == 0) continue;
    if (set) {
      visit(works, *set, fitted[works], false);
      continue;
    }
    if (!way.donor) visit(works, works, fitted[works] * (1 - e), true);  // an outside change that doesn't name it leaves it alone
    const std::size_t source = way.donor.value_or(build);
    for (std::size_t there = 0; there < fitted.size(); ++there) {
      if (way.donor) visit(works, there, fitted[works] * (1 - e) * works_[f][source].share[there], false);
      visit(works, there, fitted[works] * e * changed_[f][source][there], false);
    }
  }
  return out;
}

std::vector<State> Model::states(const Unit& unit, std::size_t build, const World& world) const {
  std::vector<State> out;
  for (const Way& way : ways(unit.assembly, build)) {
    out.push_back({way, {}});
    for (const std::size_t look : unit.looks) out.back().splits.push_back(split(look, build, way, world));
  }
  return out;
}

/// Adds the states of one unit; `rest` is the prior of the build and P(all other looks | build).
void Model::add_unit(const Unit& unit, std::size_t build, const World& world, const std::vector<State>& states, Real rest,
                     Answer& answer) const {
  for (const auto& [way, splits] : states) {
    for (std::size_t i = 0; i < splits.size(); ++i) {
      Real others = rest * way.p;
      for (std::size_t j = 0; j < splits.size(); ++j) others *= j == i ? 1 : splits[j].type + splits[j].later;
      LookAnswer& look = answer.looks[unit.looks[i]];
      const Works& works = world.works[visit_.looks[unit.looks[i]].feature][build];
      const Split& s = splits[i];
      look.p_type += others * s.type;
      look.p_later += others * s.later;
      look.type_before += others * s.type_before;
      look.later_before += others * s.later_before;
      look.p_untouched += others * s.untouched;
      if (works.silent) look.p_silent += others * (s.type + s.later);
      if (!works.silent) look.p_type_spoken += others * s.type;
      for (std::size_t v = 0; v < look.there.size(); ++v) {
        look.there[v] += others * s.there[v];
        look.works[v] += others * (s.type + s.later) * works.share[v];
      }
    }
    if (!unit.assembly || (!way.donor && !way.outside)) continue;
    Real p = rest * way.p;
    for (const Split& s : splits) p *= s.type + s.later;
    AssemblyAnswer& assembly = answer.assemblies[*unit.assembly];
    assembly.p_replaced += p;
    (way.donor ? assembly.donor[*way.donor] : assembly.outside[*way.outside]) += p;
  }
}

void Model::add_world(const World& world, Answer& out) const {
  for (std::size_t b = 0; b < builds_.size(); ++b) {
    std::vector<std::vector<State>> states_of;
    Reals of_unit;
    const Real before = prior_[b] * weight_[b] * world.weight[b];
    Real whole = before;
    for (const Unit& unit : units_) {
      states_of.push_back(states(unit, b, world));
      of_unit.push_back(likelihood(states_of.back()));
      whole *= of_unit.back();
    }
    out.build[b] += whole;
    out.evidence += whole;
    out.p_own += world.own ? whole : 0;
    for (std::size_t u = 0; u < units_.size(); ++u) {
      Real rest = before;
      for (std::size_t w = 0; w < units_.size(); ++w) rest *= w == u ? 1 : of_unit[w];
      add_unit(units_[u], b, world, states_of[u], rest, out);
    }
  }
}

Answer Model::answer() const {
  Answer out;
  for (const Look& look : visit_.looks) {
    const std::size_t values = pack_.features[look.feature].values + 1;
    LookAnswer answer;
    answer.there = answer.works = Reals(values, 0);
    out.looks.push_back(answer);
  }
  out.assemblies.assign(pack_.assemblies.size(), {0, Reals(builds_.size(), 0), Reals(pack_.outsides.size(), 0)});
  out.build.assign(builds_.size(), 0);
  for (const World& world : worlds_) add_world(world, out);
  out.p_own /= out.evidence;
  for (Real& p : out.build) p /= out.evidence;
  for (LookAnswer& look : out.looks) {
    look.ratio = (look.p_type / look.type_before) / (look.p_later / look.later_before);
    const Real before = look.type_before + look.later_before;
    for (Real* p : {&look.type_before, &look.later_before}) *p /= before;
    for (Real* p : {&look.p_type, &look.p_later, &look.p_untouched, &look.p_silent, &look.p_type_spoken}) *p /= out.evidence;
    for (Reals* shares : {&look.there, &look.works}) {
      for (Real& p : *shares) p /= out.evidence;
    }
  }
  for (AssemblyAnswer& assembly : out.assemblies) {
    for (Reals* shares : {&assembly.donor, &assembly.outside}) {
      for (Real& p : *shares) p = assembly.p_replaced > 0 ? p / assembly.p_replaced : 0;
    }
    assembly.p_replaced /= out.evidence;
  }
  return out;
}

/// Weight as built with its probability, joint with the looks of the unit.
std::map<int, Real> Model::weights_as_built(const Unit& unit, std::size_t build, const World& world,
                                            const std::vector<bool>& counted) const {
  std::map<int, Real> out;
  for (const auto& [way, splits] : states(unit, build, world)) {
    std::map<int, Real> weights{{0, way.p}};
    for (std::size_t i = 0; i < splits.size(); ++i) {
      const std::size_t look = unit.looks[i];
      std::map<int, Real> own;
      own[counted[look] ? pack_.features[visit_.looks[look].feature].weight : 0] += splits[i].type;
      own[0] += splits[i].later;
      weights = added(weights, own);
    }
    for (const auto& [weight, p] : weights) out[weight] += p;
  }
  return out;
}

std::map<Real, Real> Model::score(const Answer& answer) const {
  std::vector<bool> counted;
  int all = 0;
  for (std::size_t i = 0; i < visit_.looks.size(); ++i) {
    counted.push_back(answer.looks[i].p_silent <= 0.5L);
    all += counted[i] ? pack_.features[visit_.looks[i].feature].weight : 0;
  }
  std::map<Real, Real> out;
  if (all == 0) return out;
  for (const World& world : worlds_) {
    for (std::size_t b = 0; b < builds_.size(); ++b) {
      std::map<int, Real> weights{{0, prior_[b] * weight_[b] * world.weight[b] / answer.evidence}};
      for (const Unit& unit : units_) weights = added(weights, weights_as_built(unit, b, world, counted));
      for (const auto& [weight, p] : weights) out[static_cast<Real>(weight) / static_cast<Real>(all)] += p;
    }
  }
  return out;
}

}  // namespace exworks::test::oracle
