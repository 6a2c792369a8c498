#include "assess/questions/families.hpp"

#include <algorithm>
#include <cmath>

#include "base/log_weight.hpp"
#include "engine/infer/posterior.hpp"

namespace exworks {

namespace {

// Judgement, common practice, no source: how often an inspector uses a word, or a maker a number, that the right pack lacks.
constexpr double unknown_word = 0.02;

/// The part of an inspection that a pack knows.
Inspection known_part(const Tables& t, const Inspection& whole, FamilyOdds& counts) {
  Inspection part = whole;
  part.claims.clear();
  part.observations.clear();
  part.numbers.clear();
  for (const Observation& o : whole.observations) {
    const auto at = t.feature_index.find(o.feature);
    bool known = at != t.feature_index.end();
    if (known && !o.value.empty() && o.value != "other") {
      const auto& values = t.features[at->second].values;
      known = std::any_of(values.begin(), values.end(), [&](const ValueInfo& v) { return v.id == o.value; });
    }
    ++(known ? counts.known : counts.unknown);
    if (known) part.observations.push_back(o);
  }
  for (const NumberSeen& n : whole.numbers) {
    const auto at = std::find_if(t.numbers.begin(), t.numbers.end(), [&](const NumberInfo& i) { return i.id == n.id; });
    const bool reads = at != t.numbers.end() && !read_number(n.text, at->grammars()).empty();
    ++(reads ? counts.known : counts.unknown);
  }
  return part;
}

/// The log odds of "none" for what this pack knows: every value as likely as another.
double log_none(const Tables& t, const Evidence& e) {
  double sum = 0;
  for (const Seen& s : e.seen) sum -= std::log(static_cast<double>(t.features[s.feature].value_count()));
  return sum;
}

}  // namespace

std::vector<FamilyOdds> family_odds(const std::vector<const Tables*>& packs, const Inspection& inspection) {
  std::vector<FamilyOdds> out;
  // Each pack's gain over "none" on the words that both can speak of; words unknown to the pack are gains lost.
  std::vector<double> gain;
  for (std::size_t i = 0; i < packs.size(); ++i) {
    FamilyOdds odds;
    odds.pack = i;
    Diagnostics ignored;
    const Evidence e = bind(*packs[i], known_part(*packs[i], inspection, odds), ignored);
    const Posterior p = infer(*packs[i], e);
    gain.push_back((p.impossible ? -700 : p.log_evidence - log_none(*packs[i], e)) + static_cast<double>(odds.unknown) * std::log(unknown_word));
    out.push_back(odds);
  }
  FamilyOdds none;
  none.pack = packs.size();
  gain.push_back(0);
  out.push_back(none);
  const double total = log_sum(gain);
  for (std::size_t i = 0; i < out.size(); ++i) out[i].p = std::exp(gain[i] - total);
  std::stable_sort(out.begin(), out.end(), [](const FamilyOdds& a, const FamilyOdds& b) { return a.p > b.p; });
  return out;
}

}  // namespace exworks
