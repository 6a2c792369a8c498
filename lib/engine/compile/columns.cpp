#include "engine/compile/columns.hpp"

#include <algorithm>
#include <limits>

#include "engine/compile/edges.hpp"

namespace exworks {

namespace {

/// Options may not crowd out the standard fitting entirely: somebody always took the plain vehicle.
constexpr double most_optional = 0.98;

/// Share of new vehicles that had what law asked of them: exemptions and personal imports had not. Judgement.
constexpr double obeyed = 0.95;

/// The bytes of an object, or of a row of them with its length, at the end of a key.
template <class T>
void add_bytes(std::string& key, const T& value) {
  key.append(reinterpret_cast<const char*>(&value), sizeof value);
}
template <class T>
void add_bytes(std::string& key, const std::vector<T>& row) {
  add_bytes(key, row.size());
  key.append(reinterpret_cast<const char*>(row.data()), row.size() * sizeof(T));
}

std::string bytes_of(const Column& column) {
  std::string key;
  key += column.silent ? '1' : '0';
  key += column.applies ? '1' : '0';
  add_bytes(key, column.mean_of.size());
  for (const auto& [other, share] : column.mean_of) {
    add_bytes(key, std::size_t{other});
    add_bytes(key, share);
  }
  add_bytes(key, column.changes);
  add_bytes(key, column.facts);
  for (const double share : column.share) add_bytes(key, share + 0.0);  // no zero has a sign
  return key;
}

/// The values that some fact or legal line of the feature names.
std::vector<bool> values_named(const Feature& feature) {
  std::vector<bool> named(feature.values.size(), false);
  for (const Fact& fact : feature.facts) {
    if (fact.value < named.size()) named[fact.value] = true;
  }
  return named;
}

/// Even over the values that are marked, over all where none is.
void even_shares(Column& column, const std::vector<bool>& works, double mass) {
  const auto count = std::count(works.begin(), works.end(), true);
  for (std::size_t v = 0; v < works.size(); ++v) {
    if (works[v] || count == 0) column.share[v] += mass / static_cast<double>(count == 0 ? static_cast<std::ptrdiff_t>(works.size()) : count);
  }
}

}  // namespace

ColumnBuilder::ColumnBuilder(const Feature& feature, const std::vector<LaterChange>& changes, FeatureInfo& info, const Rates& rates, Month first, Month last)
    : feature_(&feature), changes_(&changes), info_(info), rates_(rates), first_(first), last_(last) {}

ColumnBuilder::ColumnBuilder(const Number& number, FeatureInfo& info, const Rates& rates, Month first, Month last)
    : number_(&number), info_(info), rates_(rates), first_(first), last_(last) {}

double ColumnBuilder::fact_presence(std::size_t index, const Series& series, Month month, bool as_written) const {
  const Fact& fact = feature_->facts[index];
  const FactInfo& info = info_.facts[index];
  const auto passed = [&](const std::optional<std::int64_t>& number, const std::optional<Edge>& edge, int within, bool if_open) {
    if (number && series.edges_passed) {
      const auto at = std::lower_bound(info_.number_edges.begin(), info_.number_edges.end(), *number);
      return static_cast<std::size_t>(at - info_.number_edges.begin()) < *series.edges_passed ? 1.0 : 0.0;
    }
    if (!edge || edge->open) return if_open ? 1.0 : 0.0;
    return as_written || fact.law ? share_after(*edge, month) : past(*edge, month, within, rates_);
  };
  return passed(fact.from_number, fact.from, info.from_within, true) * (1 - passed(fact.to_number, fact.to, info.to_within, false));
}

Column ColumnBuilder::feature_column(const Series& series, Month month) const {
  Column column;
  column.share.assign(info_.value_count(), 0.0);
  column.applies = series.applies;
  column.changes = series.changes;
  if (!series.applies) {
    column.share[feature_->elsewhere.value_or(info_.other())] = 1.0;
    return column;
  }
  std::vector<double> whole(info_.value_count(), 0.0), part(info_.value_count(), 0.0);
  double options = 0;
  bool spoken = false;
  for (std::size_t i : series.lines) {
    const Fact& fact = feature_->facts[i];
    if (fact.law) continue;
    const double p = fact_presence(i, series, month, false);
    if (p <= 0) continue;
    spoken = spoken || (fact.fitted == Fitted::standard && fact_presence(i, series, month, true) > 0);
    if (p > rates_.wrong_year) column.facts.push_back(i);  // what only a date that is a year off would put in force is no reason
    if (fact.fitted != Fitted::standard) {
      column.share[fact.value] += p * fact.share.value_or(0);
      options += p * fact.share.value_or(0);
    } else if (fact.share) {
      part[fact.value] += p * *fact.share;
    } else {
      whole[fact.value] = std::min(1.0, whole[fact.value] + p);
    }
  }
  if (options > most_optional) {
    for (double& s : column.share) s *= most_optional / options;
    options = most_optional;
  }
  double part_sum = 0, whole_sum = 0;
  for (double x : part) part_sum += x;
  for (double x : whole) whole_sum += x;
  const double rest = 1.0 - options;
  if (!spoken) {
    const double taken = by_law(series, month, rest, column);
    // Where law takes the half of it or more the pack speaks; else relatives.cpp says what may have been fitted.
    column.silent = taken < 0.5;
    if (column.silent) std::fill(column.share.begin(), column.share.end(), 0.0);
    even_shares(column, values_named(*feature_), column.silent ? 1.0 : rest * (1 - taken));
    return column;
  }
  // Facts with a share take it; those without divide what is left, as far as they are in force; the whole is shared out.
  const double plain = part_sum > 0 ? std::min({1.0, whole_sum, std::max(1.0 - part_sum, 1.0 - most_optional)}) : 1.0;
  for (std::size_t v = 0; v < info_.value_count(); ++v) {
    if (part_sum > 0) column.share[v] += rest * (1.0 - plain) * part[v] / part_sum;
    if (whole_sum > 0) column.share[v] += rest * plain * whole[v] / whole_sum;
  }
  return column;
}

/// Where no fact speaks, law may: gives the values it asked for their share of `rest` and returns how much of it that took.
double ColumnBuilder::by_law(const Series& series, Month month, double rest, Column& column) const {
  double taken = 0;
  for (std::size_t i : series.lines) {
    const Fact& fact = feature_->facts[i];
    if (!fact.law) continue;
    const double p = std::min(1 - taken, obeyed * fact_presence(i, series, month, true));
    if (p <= 0) continue;
    column.facts.push_back(i);
    column.share[fact.value] += rest * p;
    taken += p;
  }
  return taken;
}

/// A serial falls in a range in proportion to the numbers which that range issued in the month, `spread` months blurred.
Column ColumnBuilder::range_column(const Series& series, Month month) const {
  Column column;
  column.share.assign(info_.value_count(), 0.0);
  double sum = 0;
  for (std::size_t i : series.lines) {
    const NumberRange& r = number_->ranges[i];
    if (month < r.from.first - r.spread || month > r.to.last + r.spread) continue;
    const double months = r.to.last - r.from.first + 1 + 2 * r.spread;
    column.share[i] = static_cast<double>(r.last - r.first + 1) / months;
    sum += column.share[i];
  }
  if (sum <= 0) {
    column.silent = true;
    even_shares(column, std::vector<bool>(info_.values.size(), true), 1.0);
    return column;
  }
  for (double& s : column.share) s /= sum;
  return column;
}

Column ColumnBuilder::column(const Series& series, Month month) const {
  return feature_ != nullptr ? feature_column(series, month) : range_column(series, month);
}

ColumnIndex ColumnBuilder::intern(Column column) {
  const auto [at, fresh] = known_.try_emplace(bytes_of(column), static_cast<ColumnIndex>(info_.columns.size()));
  if (!fresh) return at->second;
  if (info_.columns.size() > std::numeric_limits<std::uint16_t>::max()) {
    too_many_ = true;
    return {};
  }
  info_.columns.push_back(std::move(column));
  return static_cast<ColumnIndex>(info_.columns.size() - 1);
}

bool ColumnBuilder::too_many(Diagnostics& diagnostics) const {
  if (!too_many_) return false;
  const std::size_t most = std::size_t{std::numeric_limits<std::uint16_t>::max()} + 1;
  diagnostics.error(feature_ != nullptr ? feature_->place : number_->place, "'" + info_.id + "' has more than " + std::to_string(most) + " different states over the months and vehicles of the pack",
                    "write its facts with fewer scopes, or with narrower windows at their ends");
  return true;
}

const std::vector<ColumnIndex>& ColumnBuilder::months_of(const Route& route, std::optional<std::size_t> edges_passed) {
  const std::size_t count = feature_ != nullptr ? feature_->facts.size() : number_->ranges.size();
  const bool applies = feature_ == nullptr || feature_->applies.covers(route.variant, route.market, route.plant);
  // The key: number edges, then a byte each for whether the feature applies, its lines and its changes hold on this route.
  key_.clear();
  add_bytes(key_, edges_passed ? *edges_passed + 1 : 0);
  key_ += applies ? '1' : '0';
  for (std::size_t i = 0; i < count; ++i) {
    const Scope& scope = feature_ != nullptr ? feature_->facts[i].scope : number_->ranges[i].scope;
    key_ += scope.covers(route.variant, route.market, route.plant) ? '1' : '0';
  }
  for (std::size_t c : info_.changes) key_ += (*changes_)[c].scope.covers(route.variant, route.market, route.plant) ? '1' : '0';
  auto& series = series_[key_];
  if (series) return series->months;
  series = std::make_unique<Series>(Series{{}, {}, applies, edges_passed, {}});
  const std::size_t head = sizeof(std::size_t) + 1;
  for (std::size_t i = 0; i < count; ++i) {
    if (key_[head + i] == '1') series->lines.push_back(i);
  }
  for (std::size_t i = 0; i < info_.changes.size(); ++i) {
    if (key_[head + count + i] == '1') series->changes.push_back(info_.changes[i]);
  }
  fill_months(*series);
  return series->months;
}

void ColumnBuilder::fill_months(Series& series) {
  // Shares change only inside and just after an edge's window: other months repeat the one before.
  std::vector<bool> moves(static_cast<std::size_t>(last_ - first_) + 1, false);
  moves[0] = true;
  const auto mark = [&](Month from, Month to) {
    for (Month m = std::max(from, first_); m <= std::min(to, last_); m = m + 1) moves[static_cast<std::size_t>(m - first_)] = true;
  };
  for (std::size_t i : series.lines) {
    if (feature_ != nullptr) {
      const Fact& fact = feature_->facts[i];
      const FactInfo& info = info_.facts[i];
      for (const auto& [edge, within] : {std::pair{fact.from, info.from_within}, {fact.to, info.to_within}}) {
        const int reach = fact.law ? 0 : reach_of(within, rates_);
        if (edge && !edge->open) mark(edge->first - reach, edge->last + reach + 1);
      }
    } else {
      const NumberRange& r = number_->ranges[i];
      mark(r.from.first - r.spread, r.from.first - r.spread);
      mark(r.to.last + r.spread + 1, r.to.last + r.spread + 1);
    }
  }
  for (std::size_t i = 0; i < moves.size(); ++i) {
    series.months.push_back(moves[i] ? intern(column(series, first_ + static_cast<int>(i))) : series.months.back());
  }
}

}  // namespace exworks
