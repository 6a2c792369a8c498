#include "oracle_noted.hpp"

#include <algorithm>
#include <cmath>

namespace exworks::test::oracle {

namespace {

constexpr Real least_right = 0.1L;

/// Named values that may be taken for a named one; with the rate of the pair where it has one.
std::map<std::size_t, std::optional<Real>> look_alikes(const Feature& feature, std::size_t value) {
  std::map<std::size_t, std::optional<Real>> out;
  const auto add = [&](std::size_t a, std::size_t b, std::optional<Real> rate) {
    if (a == feature.values || b == feature.values) return;  // `other` is nobody's look-alike
    if (a == value) out[b] = rate;
    if (b == value) out[a] = rate;
  };
  for (const auto& [a, b] : feature.looks_like) add(a, b, std::nullopt);
  for (const Alike& pair : feature.alike) add(pair.a, pair.b, Real{pair.rate});
  return out;
}

Reals other_noted(const Feature& feature, Real taken) {
  Reals out(feature.values + 1, 0);
  for (const auto& [value, like] : feature.looks_like) out[value] = like == feature.values ? 1 : out[value];
  if (sum(out) <= 0) std::fill(out.begin(), out.end() - 1, Real{1});
  const Real all = sum(out);
  for (Real& p : out) p *= taken / all;
  out.back() = 1 - taken;
  return out;
}

}  // namespace

std::size_t doubt(const std::string& how, const std::string& sure) {
  const std::size_t said = sure == "sure" ? 0 : sure == "probable" ? 1 : 2;
  return how == "told" || how == "photo" ? std::min<std::size_t>(said + 1, 2) : said;
}

Reals noted(const Feature& feature, const PackRates& rates, std::size_t there, std::size_t doubt, std::size_t doubt_of_other) {
  const std::size_t n = feature.values;
  if (there == n) return other_noted(feature, rates.taken_for_ours[doubt]);
  Reals out(n + 1, 0);
  const auto alike = look_alikes(feature, there);
  for (const auto& [value, rate] : alike) {
    // A pair's own rate is meant for who is sure; the doubtful ones keep step.
    const Real confused = rate ? *rate * Real{rates.confusion[doubt]} / Real{rates.confusion[0]} : Real{rates.confusion[doubt]};
    out[value] += confused / static_cast<Real>(alike.size());
  }
  for (std::size_t v = 0; v < n; ++v) out[v] += v == there ? 0 : Real{rates.wrong_line[doubt]} / static_cast<Real>(n - 1);
  out[n] += rates.not_recognised[doubt_of_other];
  const Real wrong = sum(out), most = 1 - least_right;
  for (Real& p : out) p *= wrong > most ? most / wrong : 1;
  out[there] = 1 - std::min(wrong, most);
  return out;
}

std::vector<std::size_t> left_open(const Feature& feature, const Look& look) {
  std::vector<bool> in(feature.values + 1, false);
  if (look.measure) {
    for (std::size_t v = 0; v < feature.values; ++v) {
      const auto& [at, tolerance] = feature.measures[v];
      in[v] = at - tolerance <= look.measure->second && at + tolerance >= look.measure->first;
    }
    if (std::find(in.begin(), in.end(), true) == in.end()) in.back() = true;
  }
  for (const std::size_t v : look.values) in[v] = true;
  for (const std::size_t g : look.groups) {
    for (const std::size_t v : feature.groups[g]) in[v] = true;
  }
  std::vector<std::size_t> out;
  for (std::size_t v = 0; v < in.size(); ++v) {
    if (in[v] != look.but) out.push_back(v);
  }
  return out;
}

Reals noted_as(const Feature& feature, const PackRates& rates, const Look& look) {
  Reals out;
  for (std::size_t there = 0; there <= feature.values; ++there) {
    const Reals p = noted(feature, rates, there, doubt(look.how, look.sure), doubt(look.how == "told" ? "seen" : look.how, look.sure));
    Real any = 0;
    for (const std::size_t o : left_open(feature, look)) any += p[o];
    out.push_back(any);
  }
  return out;
}

}  // namespace exworks::test::oracle
