#pragma once
#include <memory>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "engine/tables/tables.hpp"
#include "pack/model/pack.hpp"

namespace exworks {

/// Builds the distinct columns of one feature, and says which of them a route has in a month.
class ColumnBuilder {
 public:
  /// `first` and `last` span every route of the pack.
  ColumnBuilder(const Feature& feature, const std::vector<LaterChange>& changes, FeatureInfo& info, const Rates& rates, Month first, Month last);
  /// For the serial of an assembly's number: the values are the ranges.
  ColumnBuilder(const Number& number, FeatureInfo& info, const Rates& rates, Month first, Month last);

  /// [month - first], one column per month, for every route with the same facts in scope. `edges_passed`: how many of the
  /// feature's number edges the serial has reached; nothing where changeovers go by date.
  const std::vector<ColumnIndex>& months_of(const Route& route, std::optional<std::size_t> edges_passed);
  /// The index of a column, added where there is none like it.
  ColumnIndex intern(Column column);

  /// Reports more different columns than a ColumnIndex can tell apart; those beyond were not kept.
  bool too_many(Diagnostics& diagnostics) const;

 private:
  struct Series {
    std::vector<std::size_t> lines;
    std::vector<std::size_t> changes;
    bool applies;
    std::optional<std::size_t> edges_passed;
    std::vector<ColumnIndex> months;
  };
  void fill_months(Series& series);
  Column column(const Series& series, Month month) const;
  Column feature_column(const Series& series, Month month) const;
  double by_law(const Series& series, Month month, double rest, Column& column) const;
  Column range_column(const Series& series, Month month) const;
  /// Share of the month's vehicles on which a fact is in force: with its edges as they may have fallen, or `as_written`.
  double fact_presence(std::size_t fact, const Series& series, Month month, bool as_written) const;

  const Feature* feature_ = nullptr;
  const std::vector<LaterChange>* changes_ = nullptr;
  const Number* number_ = nullptr;
  FeatureInfo& info_;
  const Rates& rates_;
  Month first_, last_;
  std::string key_;  ///< of the last series asked for
  bool too_many_ = false;
  std::unordered_map<std::string, std::unique_ptr<Series>> series_;  ///< by all but its months
  std::unordered_map<std::string, ColumnIndex> known_;                ///< by the bytes of the column
};

}  // namespace exworks
