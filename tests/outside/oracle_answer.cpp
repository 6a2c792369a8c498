#include "oracle.hpp"

/// The sums over the latent states.
namespace exworks::test::oracle {

Real likelihood(const States& states) {
  Real total = 0;
  for (const auto& [way, splits] : states) {
    Real p = way.p;
    for (const Split& s : splits) p *= s.type + s.later;
    total += p;
  }
  return total;
}

/// Adds one state of one unit; `rest` is the life's odds and P(all looks of other units).
void Model::add_looks(const Unit& unit, const Life& life, const State& state, Real rest, Answer& answer) const {
  for (std::size_t i = 0; i < state.splits.size(); ++i) {
    Real others = rest * state.way.p;
    for (std::size_t j = 0; j < state.splits.size(); ++j) others *= j == i ? 1 : state.splits[j].type + state.splits[j].later;
    LookAnswer& look = answer.looks[unit.looks[i]];
    const Works& works = life.world->works[looks_[unit.looks[i]].feature][life.build];
    const Split& s = state.splits[i];
    look.p_type += others * s.type;
    look.p_later += others * s.later;
    look.type_before += others * s.type_before;
    look.later_before += others * s.later_before;
    look.p_untouched += others * s.untouched;
    (works.silent() ? look.p_silent : look.p_type_spoken) += others * (works.silent() ? s.type + s.later : s.type);
    for (std::size_t v = 0; v < look.there.size(); ++v) {
      look.there[v] += others * s.there.at(v);
      look.works[v] += others * (s.type + s.later) * works.share[v];
    }
    for (const auto& [reason, later] : s.later_by) look.explanations[reason] += others * later;
  }
  if (!unit.assembly || !state.way.replaced()) return;
  Real p = rest * state.way.p;
  for (const Split& s : state.splits) p *= s.type + s.later;
  AssemblyAnswer& assembly = answer.assemblies[*unit.assembly];
  assembly.p_replaced += p;
  if (state.way.donor) assembly.donor[*state.way.donor] += p;
  if (state.way.outside) assembly.outside[*state.way.outside] += p;
  if (state.way.unnamed) assembly.p_unnamed += p;
}

void Model::add_life(const Life& life, const std::vector<const States*>& states, Answer& out) const {
  Reals of_unit;
  Real whole = life.p;
  for (const States* of : states) of_unit.push_back(likelihood(*of)), whole *= of_unit.back();
  out.evidence += whole;
  out.build[life.build] += whole;
  out.with_offset[static_cast<std::size_t>(life.world - worlds_->data()) * builds().size() + life.build] += whole;
  out.level.at(life.level) += whole;
  out.p_own += life.world->own ? whole : 0;
  for (std::size_t j = 0; j < out.conversion.size(); ++j) out.conversion[j] += (life.had >> j & 1U) != 0 ? whole : 0;
  for (std::size_t u = 0; u < units_.size(); ++u) {
    Real rest = life.p;
    for (std::size_t w = 0; w < units_.size(); ++w) rest *= w == u ? 1 : of_unit[w];
    for (const State& state : *states[u]) add_looks(units_[u], life, state, rest, out);
  }
}

namespace {

void divide(Reals& numbers, Real by) {
  for (Real& p : numbers) p = by > 0 ? p / by : 0;
}

void finish(LookAnswer& look, Real evidence) {
  look.ratio = (look.p_type / look.type_before) / (look.p_later / look.later_before);
  const Real before = look.type_before + look.later_before;
  look.type_before /= before;
  look.later_before /= before;
  for (auto& [reason, p] : look.explanations) p /= look.p_later;
  std::erase_if(look.explanations, [](const auto& e) { return e.first.kind == Reason::Kind::as_it_was; });
  for (Real* p : {&look.p_type, &look.p_later, &look.p_untouched, &look.p_silent, &look.p_type_spoken}) *p /= evidence;
  divide(look.there, evidence);
  divide(look.works, evidence);
}

void finish(AssemblyAnswer& assembly, Real evidence) {
  divide(assembly.donor, assembly.p_replaced);
  divide(assembly.outside, assembly.p_replaced);
  assembly.p_unnamed = assembly.p_replaced > 0 ? assembly.p_unnamed / assembly.p_replaced : 0;
  assembly.p_replaced /= evidence;
}

}  // namespace

Answer Model::answer() const {
  Answer out;
  for (const Look& look : looks_) {
    LookAnswer answer;
    answer.there = answer.works = Reals(features()[look.feature].values + 1, 0);
    out.looks.push_back(answer);
  }
  out.assemblies.assign(pack().assemblies.size(), {0, Reals(builds().size(), 0), Reals(pack().outsides.size(), 0), 0});
  out.build.assign(builds().size(), 0);
  out.with_offset.assign(worlds_->size() * builds().size(), 0);
  out.conversion.assign(pack().conversions.size(), 0);
  each_life([&](const Life& life, const std::vector<const States*>& states) { add_life(life, states, out); });
  out.p_own /= out.evidence;
  divide(out.build, out.evidence);
  divide(out.with_offset, out.evidence);
  divide(out.conversion, out.evidence);
  for (Real& p : out.level) p /= out.evidence;
  for (LookAnswer& look : out.looks) finish(look, out.evidence);
  for (AssemblyAnswer& assembly : out.assemblies) finish(assembly, out.evidence);
  return out;
}

/// One entry for each world, build and level, in this order.
std::vector<Model::Likelihood> Model::likelihoods() const {
  const std::size_t levels = pack().rates.levels.size();
  std::vector<Likelihood> out(worlds_->size() * builds().size() * levels);
  each_life([&](const Life& life, const std::vector<const States*>& states) {
    const auto world = static_cast<std::size_t>(life.world - worlds_->data());
    Likelihood& of = out[(world * builds().size() + life.build) * levels + life.level];
    Real p = life.p;
    for (const States* unit : states) p *= likelihood(*unit);
    of.before += life.p;
    of.looks += p;
  });
  for (Likelihood& of : out) of.looks = of.before > 0 ? of.looks / of.before : 0;
  return out;
}

}  // namespace exworks::test::oracle
