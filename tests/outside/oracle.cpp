#include "oracle.hpp"

#include <algorithm>
#include <tuple>

#include "oracle_noted.hpp"

/// The latent states of a vehicle, one by one.
namespace exworks::test::oracle {

Model::Model(const SmallPack& pack, const Visit& visit)
    : visit_(visit), tables_(std::make_shared<PackTables>(pack, visit.month)), looks_(visit.looks) {
  look_at_numbers();
  bind();
  worlds_ = std::make_shared<std::vector<World>>(list_worlds());
}

void Model::bind() {
  noted_.clear();
  for (const Look& look : looks_) noted_.push_back(noted_as(pack().features[look.feature], pack().rates, look));
  list_units();
}

Model Model::with(const Look& look) const {
  Model out = *this;
  out.looks_.push_back(look);
  out.bind();
  return out;
}

Model Model::without(std::size_t look) const {
  Model out = *this;
  out.looks_.erase(out.looks_.begin() + static_cast<std::ptrdiff_t>(look));
  out.bind();
  return out;
}

Model Model::noting(const std::vector<std::size_t>& values) const {
  Model out = *this;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const Look& was = looks_[i];
    out.looks_[i] = {was.feature, {values[i]}, was.how, was.sure};
  }
  out.bind();
  return out;
}

bool Model::possible() const {
  return std::any_of(worlds_->begin(), worlds_->end(), [](const World& world) { return sum(world.weight) > 0; });
}

void Model::list_units() {
  units_.clear();
  for (std::size_t i = 0; i < looks_.size(); ++i) {
    const auto assembly = pack().features[looks_[i].feature].assembly;
    const auto same =
        std::find_if(units_.begin(), units_.end(), [&](const Unit& unit) { return assembly && unit.assembly == assembly; });
    if (same == units_.end()) {
      units_.push_back({assembly, {i}});
    } else {
      same->looks.push_back(i);
    }
  }
}

/// The conversions that set a feature of the unit that was looked at.
Had Model::setting(const Unit& unit) const {
  Had out = 0;
  for (std::size_t j = 0; j < pack().conversions.size(); ++j) {
    for (const Sets& sets : pack().conversions[j].sets) {
      const auto looked_at = [&](std::size_t look) { return looks_[look].feature == sets.feature; };
      if (std::any_of(unit.looks.begin(), unit.looks.end(), looked_at)) out |= 1U << j;
    }
  }
  return out;
}

/// Visits what became of a feature and what is there now. Only what nobody touched is of the type as built for certain; any other
/// value is if it is the one with which this build left the works.
Split Model::split(std::size_t look, const Life& life, const Way& way) const {
  const std::size_t f = looks_[look].feature;
  const Works& own = life.world->works[f][life.build];
  Split out;
  for (const Fate& fate : fates(*tables_, f, own, life.world->changed[f][life.build], way, life.had, pack().rates.levels[life.level])) {
    const bool as_it_was = fate.reason.kind == Reason::Kind::as_it_was;
    Real later = 0;
    for (std::size_t v = 0; v < own.share.size(); ++v) {
      const Real p = fate.there.at(v), seen = p * noted_[look][v], type = as_it_was ? 1 : own.share[v];
      out.type += seen * type;
      out.type_before += p * type;
      out.later_before += p * (1 - type);
      later += seen * (1 - type);
      out.there.at(v) += seen;
      out.untouched += as_it_was ? seen : 0;
    }
    out.later += later;
    out.later_by.emplace_back(fate.reason, later);
  }
  return out;
}

States Model::states(const Unit& unit, const Life& life) const {
  States out;
  for (const Way& way : ways(*tables_, unit.assembly, life.world->like[life.build], pack().rates.levels[life.level])) {
    out.push_back({way, {}});
    for (const std::size_t look : unit.looks) out.back().splits.push_back(split(look, life, way));
  }
  return out;
}

/// World, build, level and conversions, with the states of each unit. Those are made once for all conversions that don't touch
/// the unit, and for all that look alike.
void Model::each_life(const Visitor& visit) const {
  const std::size_t conversions = pack().conversions.size();
  using Looks = std::tuple<std::size_t, std::size_t, std::size_t>;  // reading, build that it looks like, level
  std::map<Looks, std::map<std::pair<std::size_t, Had>, States>> made;
  for (const World& world : *worlds_) {
    for (std::size_t b = 0; b < builds().size(); ++b) {
      for (std::size_t k = 0; k < pack().rates.levels.size() && world.weight[b] > 0; ++k) {
        std::map<std::pair<std::size_t, Had>, States>& known = made[{world.reading, world.like[b], k}];
        for (Had had = 0; had >> conversions == 0; ++had) {
          Life life{&world, b, k, had, world.weight[b] * Real{pack().rates.level_shares[k]}};
          for (std::size_t j = 0; j < conversions; ++j) {
            const Real p = converted(*tables_, j, b, pack().rates.levels[k]);
            life.p *= (had >> j & 1U) != 0 ? p : 1 - p;
          }
          if (life.p <= 0) continue;
          std::vector<const States*> of_units;
          for (std::size_t u = 0; u < units_.size(); ++u) {
            const auto [at, fresh] = known.try_emplace({u, had & setting(units_[u])});
            if (fresh) at->second = states(units_[u], life);
            of_units.push_back(&at->second);
          }
          visit(life, of_units);
        }
      }
    }
  }
}

}  // namespace exworks::test::oracle
