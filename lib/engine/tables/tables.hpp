#pragma once
#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "base/date.hpp"
#include "base/index.hpp"
#include "base/rates.hpp"
#include "engine/tables/catalogue.hpp"
#include "numbers/grammar.hpp"

/// The compiled pack: dense arrays by index, and beside them the catalogue of what only words need. The whole contract of the engine;
/// it knows nothing of XML. Shapes are written `[build]`, `[cell]`, ...: what indexes the vector.
namespace exworks {

/// A variant, market and plant with its months; its builds are `first_build` + (month - first).
struct RouteInfo {
  VariantIndex variant;
  MarketIndex market;
  PlantIndex plant;
  Month first, last;
  std::size_t first_build = 0;

  std::size_t builds() const { return static_cast<std::size_t>(last - first) + 1; }
  /// The build as which that of the route's month `i` looks when the line's changes came `offset` months later than the pack has them.
  std::size_t looks_like(std::size_t i, int offset) const {
    return first_build + static_cast<std::size_t>(std::clamp(static_cast<int>(i) - offset, 0, static_cast<int>(builds()) - 1));
  }
};

/// A set of routes, [route]: what a scope means once compiled.
using RouteSet = std::vector<bool>;

struct ValueInfo {
  std::string id, name, recognise;
  std::vector<std::size_t> looks_like;  ///< values; FeatureInfo::other() when it may be taken for none of these and back
  std::optional<double> measure, tolerance;
};

/// What the works fitted to the builds of a cell: F_f(v|b) of design.md.
struct Column {
  std::vector<double> share;       ///< [value], with "other" last; sums to 1
  std::vector<std::size_t> facts;  ///< that bind here
  bool silent = false;             ///< no standard fact binds: as on the nearest relative, and even over the rest
  /// Silent, and no relative: the mean over the builds of the month of which the pack speaks (over all of them where there is none), as
  /// column, share of them. Empty else.
  std::vector<std::pair<ColumnIndex, double>> mean_of;
  bool applies = true;             ///< false: these vehicles have no such feature; the value that says so, else `other`, has share 1
  std::vector<std::size_t> changes; ///< later changes of the feature alone that are known on these vehicles
};

/// Two values that are mixed up more or less readily than others.
struct AlikePair {
  std::size_t a = 0, b = 0;
  double rate = 0;  ///< of an inspector who is sure
};

/// Several values under one name: what an inspector can see who can't tell them apart.
struct ValueGroup {
  std::string id, name;
  std::vector<ValueIndex> values;  ///< ascending
};

struct FeatureInfo {
  std::string id, name, ask, method, tool, unit;
  std::size_t place = 0;
  std::optional<std::size_t> assembly;
  std::vector<std::string> components;  ///< its own and its assembly's: "engine", "shell" ... as classifications name them
  int weight = 1;
  double minutes = 1;
  std::optional<ChangeClass> change_class;  ///< where the rate is that of a class
  double altered = 0;  ///< e_f
  double foreign = 0;  ///< of changes by itself that no later change names: to a kind from outside the family
  std::vector<std::size_t> cautions;
  std::vector<ValueInfo> values;  ///< without "other"
  std::vector<AlikePair> alike;
  std::vector<ValueGroup> groups;
  std::vector<double> volume;      ///< [value without "other"]: share of the family that left the works with it, as far as the pack speaks
  std::vector<double> mean_month;  ///< [value without "other"]: mean of their months, as Month::index; 0 where `volume` is 0
  std::vector<FactInfo> facts;
  std::vector<std::size_t> changes;       ///< later changes of this feature alone
  std::vector<Column> columns;            ///< distinct ones
  std::vector<ColumnIndex> column_of;     ///< [cell]
  /// Changeovers tied to the identity number, ascending. With serial n the column of a cell is
  /// column_by_number[k][cell], k = how many of the edges are <= n. Empty when no fact is tied.
  std::vector<std::int64_t> number_edges;
  std::vector<std::vector<ColumnIndex>> column_by_number;
  /// Set when this stands for the serial of a number in an assembly: its values are the ranges.
  std::optional<std::size_t> of_number;

  ValueIndex other() const { return ValueIndex{values.size()}; }
  std::size_t value_count() const { return values.size() + 1; }
};

/// A change that the pack names.
struct NamedChange {
  std::string id, name, spot;
  Reversible reversible = Reversible::unknown;
  std::optional<Edge> from;
  double share = 0;  ///< of a later change: among the changes of its feature, or of the replaced assemblies; of a conversion: of the vehicles in its scope
  double hours = 0;
  RouteSet scope;
  std::vector<std::size_t> sources;
};

struct ChangeInfo : NamedChange {
  std::optional<std::size_t> feature, assembly;
  std::vector<FeatureValue> sets;
};

/// A change over features of any assemblies: had or not, as one.
struct ConversionInfo : NamedChange {
  struct Sets {
    FeatureIndex feature;
    ValueIndex value;
    double surely = 0.9;  ///< of vehicles that had it
  };
  std::vector<Sets> sets;
};

/// A combination of columns that an assembly has in some cell.
struct AssemblyColumn {
  std::vector<ColumnIndex> columns;  ///< [position in AssemblyInfo::features]
  std::vector<std::size_t> changes;  ///< outside donors known on these vehicles
  auto operator<=>(const AssemblyColumn&) const = default;
};

struct AssemblyInfo {
  std::string id, name;
  Reversible reversible = Reversible::unknown;
  double replaced = 0;  ///< c_a
  double hours = 0;
  std::vector<std::size_t> features;
  std::vector<std::size_t> changes;              ///< outside donors
  std::vector<AssemblyColumn> columns;           ///< distinct combinations
  std::vector<std::uint32_t> column_of;          ///< [cell]
  std::vector<std::size_t> donor_group;          ///< [variant]
  /// w_a(d|b) summed over the builds that share an assembly column: [donor group][assembly column]; each row sums to 1.
  std::vector<std::vector<double>> donors;
  std::vector<std::vector<bool>> donor_variants; ///< [donor group][variant]
  std::vector<double> mean_month;                ///< [assembly column]: mean month, as Month::index, of the builds that left the works alike in all of it
};

struct CodeInfo {
  std::optional<RouteSet> scope;
  std::optional<FeatureValue> sets;
};

struct FormInfo {
  FormGrammar grammar;
  RouteSet scope;
  std::optional<Edge> from, to;
  std::vector<std::vector<CodeInfo>> codes;  ///< [part][code]
  std::vector<std::size_t> sources;
  std::string example, note;
};

struct RangeInfo {
  std::int64_t first = 0, last = 0;
  Edge from, to;
  RouteSet scope;
  std::vector<std::size_t> forms;
  int spread = 1;
  std::string name;
  std::vector<std::size_t> sources;
};

struct NumberInfo {
  std::string id, name, where;
  bool identity = false;
  std::optional<std::size_t> assembly;
  std::optional<FeatureIndex> serial_feature;  ///< the feature whose values are the ranges (numbers of an assembly)
  std::vector<FormInfo> forms;
  std::vector<RangeInfo> ranges;
  std::vector<std::size_t> sources;

  std::vector<const FormGrammar*> grammars() const;
};

struct Tables {
  std::string family, name, version, digest;
  std::vector<BaseEdition> extends;  ///< the one that the pack extends, then the one which that extends ...
  bool invented = false;
  Rates rates;
  Axes axes;
  Catalogue catalogue;

  std::vector<RouteInfo> routes;
  std::vector<double> prior;               ///< [build], sums to 1
  std::vector<std::uint32_t> cell_of;      ///< [build]
  std::vector<double> cell_prior;          ///< [cell], sums to 1
  std::vector<std::uint32_t> cell_route;   ///< [cell]: one route of it; all of a cell share the variant and the assemblies' later changes
  std::vector<FeatureInfo> features;
  std::vector<AssemblyInfo> assemblies;
  std::vector<ChangeInfo> changes;
  std::vector<ConversionInfo> conversions;
  std::vector<NumberInfo> numbers;

  std::unordered_map<std::string, FeatureIndex> feature_index;  ///< by id; numbers' serials are not in it

  std::size_t builds() const { return prior.size(); }
  std::size_t cells() const { return cell_prior.size(); }
  /// "aldermoor-carrier 1.2", or "our-carriers 1 (extends aldermoor-carrier 1.2)".
  std::string edition() const;
  std::string value_name(FeatureIndex feature, ValueIndex value) const;
  std::string value_id(FeatureIndex feature, ValueIndex value) const;
  /// Of a look that left several open: the name of their group, else "round or square"; and their ids, with spaces between.
  std::string values_name(FeatureIndex feature, const std::vector<ValueIndex>& values) const;
  std::string values_id(FeatureIndex feature, const std::vector<ValueIndex>& values) const;
  /// The feature's name; the id itself where the pack has none of it.
  std::string feature_name(const std::string& id) const;
};

}  // namespace exworks
