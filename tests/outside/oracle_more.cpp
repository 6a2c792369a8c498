#include "oracle_more.hpp"

#include <cmath>

namespace exworks::test::oracle {

namespace {

Reals by_variant(const Model& model, const Answer& answer) {
  Reals out(model.tables().pack().variants.size(), 0);
  for (std::size_t b = 0; b < answer.build.size(); ++b) out[model.builds()[b].variant] += answer.build[b];
  return out;
}

Real later_spoken(const LookAnswer& look) {
  return 1 - look.p_silent - look.p_type_spoken;
}

/// What learning `after` tells of what was `before`, in bits.
Real told(const Reals& before, const Reals& after) {
  Real out = 0;
  for (std::size_t i = 0; i < before.size(); ++i) out += after[i] > 0 ? after[i] * std::log2(after[i] / before[i]) : 0;
  return out;
}

Reals yes_or_no(Real p) {
  return {p, 1 - p};
}

Real applies(const Model& model, const Feature& feature, const Answer& answer) {
  Real out = 0;
  for (std::size_t b = 0; b < answer.build.size(); ++b)
    out += covers(model.tables().pack(), feature.applies, model.builds()[b]) ? answer.build[b] : 0;
  return out;
}

MoreToSee ahead(const Model& model, const Answer& now, std::size_t feature, const std::vector<std::size_t>& open) {
  MoreToSee out;
  out.feature = feature;
  Real type = 0;
  Reals type_then;
  for (std::size_t value = 0; value <= model.features()[feature].values; ++value) {
    const Answer then = model.with({feature, {value}}).answer();
    const Real p = then.evidence / now.evidence;
    out.noted.push_back(p);
    type_then.push_back(p > 0 ? then.looks.back().p_type : 0);
    if (p <= 0) continue;
    out.build_bits += p * told(now.with_offset, then.with_offset);
    for (const std::size_t look : open)
      out.verdict_bits += p * told(yes_or_no(now.looks[look].p_type), yes_or_no(then.looks[look].p_type));
    type += p * type_then.back();
  }
  for (std::size_t value = 0; value < out.noted.size(); ++value)
    out.verdict_bits += out.noted[value] > 0 ? out.noted[value] * told(yes_or_no(type), yes_or_no(type_then[value])) : 0;
  return out;
}

/// The next row of notes in which each look notes one value; false after the last.
bool next(const Model& model, std::vector<std::size_t>& notes) {
  for (std::size_t i = 0; i < notes.size(); ++i) {
    if (++notes[i] <= model.features()[model.looks()[i].feature].values) return true;
    notes[i] = 0;
  }
  return false;
}

}  // namespace

std::vector<Without> leave_each_out(const Model& model) {
  const Answer now = model.answer();
  std::vector<Without> out;
  for (std::size_t left = 0; left < now.looks.size(); ++left) {
    const Answer then = model.without(left).answer();
    Without without{by_variant(model, then), {}, {}};
    for (std::size_t i = 0; i < now.looks.size(); ++i) {
      const LookAnswer& look = i == left ? now.looks[i] : then.looks[i < left ? i : i - 1];
      without.type.push_back(look.p_type_spoken);
      without.later.push_back(later_spoken(look));
    }
    out.push_back(without);
  }
  return out;
}

std::vector<MoreToSee> look_ahead(const Model& model, const std::vector<std::size_t>& open) {
  const Answer now = model.answer();
  std::vector<MoreToSee> out;
  for (std::size_t f = 0; f < model.features().size(); ++f) {
    const Feature& feature = model.features()[f];
    bool seen = feature.of_number.has_value();
    for (const Look& look : model.looks()) seen = seen || look.feature == f;
    const Real has = applies(model, feature, now);
    if (seen || has <= 0) continue;
    out.push_back(ahead(model, now, f, open));
    out.back().applies = has;
  }
  return out;
}

Real fit(const Model& model) {
  constexpr Real rounding = 1 + 1e-9L;
  const auto own = model.likelihoods();
  Real evidence = 0, out = 0;
  for (const auto& of : own) evidence += of.before * of.looks;
  std::vector<std::size_t> notes(model.looks().size(), 0);
  do {
    const auto other = model.noting(notes).likelihoods();
    for (std::size_t i = 0; i < own.size(); ++i) {
      if (other[i].looks <= own[i].looks * rounding) out += own[i].before * own[i].looks / evidence * other[i].looks;
    }
  } while (next(model, notes));
  return out;
}

}  // namespace exworks::test::oracle
