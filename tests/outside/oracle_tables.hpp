#pragma once
#include "oracle_changed.hpp"

/// What a pack says before anything was noted: [feature][build].
namespace exworks::test::oracle {

class PackTables {
 public:
  /// `month`: of the inspection
  PackTables(const SmallPack& pack, std::optional<int> month);
  PackTables(const PackTables&) = delete;
  PackTables& operator=(const PackTables&) = delete;

  /// Its features are those of the pack, then those that stand for the serials of assemblies' numbers.
  const SmallPack& pack() const { return pack_; }
  const Builds& builds() const { return builds_; }
  std::optional<int> month() const { return month_; }
  const Feature& feature(std::size_t f) const { return pack_.features[f]; }
  /// F_f(.|b), by date
  const Works& works(std::size_t f, std::size_t build) const { return works_[f][build]; }
  const std::vector<std::vector<Works>>& works() const { return works_; }
  const std::vector<std::vector<Changed>>& changed() const { return changed_; }
  /// R_f(.|b) by its parts, by date
  const Changed& changed(std::size_t f, std::size_t build) const { return changed_[f][build]; }
  /// R_f(.|b): [value]
  const Reals& changed_all(std::size_t f, std::size_t build) const { return changed_all_[f][build]; }
  /// F_f(.|b), [build], where the vehicle's own number has this serial. What it says is of this vehicle: its relatives and what
  /// is silent stay as they are by date.
  std::vector<Works> works_by_number(std::size_t f, std::optional<Serial> serial) const;
  /// R_f(.|b), [build], of vehicles that left the works with `own`.
  std::vector<Changed> changed_by(std::size_t f, const std::vector<Works>& own) const;
  /// The mean month of all builds that left the works with the same assembly.
  Real mean_month(std::size_t assembly, std::size_t build) const { return mean_month_[assembly][build]; }
  /// The feature that stands for the serial of a number.
  std::optional<std::size_t> serial_feature(std::size_t number) const;

 private:
  Works range_shares(const Number& number, const Build& build) const;
  bool same_assembly(std::size_t assembly, std::size_t a, std::size_t b) const;
  Reals mean_months(std::size_t assembly) const;

  SmallPack pack_;
  std::optional<int> month_;
  Builds builds_;
  std::vector<std::optional<ByDate>> by_date_;  ///< [feature]; none for a serial
  std::vector<std::vector<Works>> works_;
  std::vector<std::vector<Changed>> changed_;
  std::vector<std::vector<Reals>> changed_all_;
  std::vector<Reals> mean_month_;  ///< [assembly][build]
};

}  // namespace exworks::test::oracle
