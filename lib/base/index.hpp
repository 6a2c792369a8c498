#pragma once
#include <compare>
#include <cstddef>
#include <cstdint>

/// Positions in lists, told apart by what the list holds: each counts from nought, but a feature is not a value. One is made on purpose
/// only, and read as a number wherever it indexes.
namespace exworks {

template <class Of, class Number = std::size_t>
class Index {
 public:
  constexpr Index() = default;
  constexpr explicit Index(std::size_t at) : at_(static_cast<Number>(at)) {}
  constexpr operator Number() const { return at_; }
  constexpr Index& operator++() {
    ++at_;
    return *this;
  }
  auto operator<=>(const Index&) const = default;

 private:
  Number at_ = 0;
};

using VariantIndex = Index<struct OfVariants>;
using MarketIndex = Index<struct OfMarkets>;
using PlantIndex = Index<struct OfPlants>;
using FeatureIndex = Index<struct OfFeatures>;
using ValueIndex = Index<struct OfValues>;  ///< within a feature; one past the last is `other`
using CellIndex = Index<struct OfCells>;
/// Distinct columns of a feature; a table of them by cell is the largest of a pack, so they are kept short.
using ColumnIndex = Index<struct OfColumns, std::uint16_t>;

/// A value of a feature that is set by something: a later change, a code of a number.
struct FeatureValue {
  FeatureIndex feature;
  ValueIndex value;
  bool operator==(const FeatureValue&) const = default;
};

}  // namespace exworks
