#include "oracle_tables.hpp"

#include <cmath>

namespace exworks::test::oracle {

namespace {

/// The pack with one more feature for each number of an assembly that has ranges.
SmallPack with_serials(SmallPack pack) {
  for (std::size_t n = 0; n < pack.numbers.size(); ++n) {
    const Number& number = pack.numbers[n];
    if (!number.assembly || number.ranges.empty()) continue;
    Feature serial;
    serial.values = number.ranges.size();
    serial.assembly = number.assembly;
    serial.weight = 0;
    serial.of_number = n;
    pack.features.push_back(serial);
  }
  return pack;
}

}  // namespace

PackTables::PackTables(const SmallPack& pack, std::optional<int> month)
    : pack_(with_serials(pack)), month_(month), builds_(list_builds(pack_)) {
  for (const Feature& feature : pack_.features) {
    by_date_.emplace_back();
    works_.emplace_back();
    if (feature.of_number) {
      for (const Build& build : builds_.list) works_.back().push_back(range_shares(pack_.numbers[*feature.of_number], build));
    } else {
      works_.back() = by_date_.back().emplace(pack_, builds_, feature).works();
    }
    changed_.push_back(changed_to(pack_, builds_, feature, works_.back(), works_.back(), month));
    changed_all_.emplace_back();
    for (const Changed& changed : changed_.back()) changed_all_.back().push_back(all_of(feature, changed));
  }
  for (std::size_t a = 0; a < pack_.assemblies.size(); ++a) mean_month_.push_back(mean_months(a));
}

std::vector<Works> PackTables::works_by_number(std::size_t f, std::optional<Serial> serial) const {
  if (feature(f).of_number) return works_[f];
  std::vector<Works> out;
  for (std::size_t b = 0; b < builds_.list.size(); ++b) {
    const auto own = said(pack_, feature(f), builds_.list[b], serial);
    out.push_back(own ? *own : by_date_[f]->silent(b));
  }
  return out;
}

std::vector<Changed> PackTables::changed_by(std::size_t f, const std::vector<Works>& own) const {
  return feature(f).of_number ? changed_[f] : changed_to(pack_, builds_, feature(f), works_[f], own, month_);
}

std::optional<std::size_t> PackTables::serial_feature(std::size_t number) const {
  for (std::size_t f = 0; f < pack_.features.size(); ++f) {
    if (pack_.features[f].of_number == number) return f;
  }
  return std::nullopt;
}

/// The feature that stands for a serial: its values are the ranges.
Works PackTables::range_shares(const Number& number, const Build& build) const {
  Works out{Reals(number.ranges.size() + 1, 0), Voice::spoken};
  Real all = 0;
  for (std::size_t r = 0; r < number.ranges.size(); ++r) {
    const Range& range = number.ranges[r];
    const bool holds = build.month >= range.from.first - range.spread && build.month <= range.to.last + range.spread;
    if (!holds || !covers(pack_, range.scope, build)) continue;
    const int months = range.to.last - range.from.first + 1 + 2 * range.spread;
    out.share[r] = static_cast<Real>(range.last - range.first + 1) / static_cast<Real>(months);
    all += out.share[r];
  }
  if (all <= 0) out.voice = Voice::mute;
  for (std::size_t r = 0; r < number.ranges.size(); ++r)
    out.share[r] = all <= 0 ? 1 / static_cast<Real>(number.ranges.size()) : out.share[r] / all;
  return out;
}

bool PackTables::same_assembly(std::size_t assembly, std::size_t a, std::size_t b) const {
  for (std::size_t f = 0; f < works_.size(); ++f) {
    if (feature(f).assembly != assembly) continue;
    for (std::size_t v = 0; v <= feature(f).values; ++v) {
      if (std::fabs(works_[f][a].share[v] - works_[f][b].share[v]) > 1e-9L) return false;
    }
  }
  return true;
}

Reals PackTables::mean_months(std::size_t assembly) const {
  Reals out;
  for (std::size_t b = 0; b < builds_.list.size(); ++b) {
    Real all = 0, months = 0;
    for (std::size_t d = 0; d < builds_.list.size(); ++d) {
      if (!same_assembly(assembly, b, d)) continue;
      all += builds_.p[d];
      months += builds_.p[d] * static_cast<Real>(builds_.list[d].month);
    }
    out.push_back(months / all);
  }
  return out;
}

}  // namespace exworks::test::oracle
