#include "engine/compile/axes.hpp"

namespace exworks {

Axes axes_of(const Pack& pack) {
  Axes out;
  for (const Generation& g : pack.generations) out.generations.push_back({g.id, g.name});
  for (const Body& b : pack.bodies) out.bodies.push_back({b.id, b.name});
  for (const Variant& v : pack.variants) out.variants.push_back({v.id, v.name, v.generation, v.body, v.from.first, v.to.last});
  for (const Market& m : pack.markets) out.markets.push_back({m.id, m.name, m.country, m.steering});
  for (const Plant& p : pack.plants) out.plants.push_back({p.id, p.name, p.kit});
  return out;
}

}  // namespace exworks
