#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/diagnostic.hpp"

/// A note on value from comparable sales that the user supplies. A note, not a valuation: it claims no standard.
namespace exworks {

/// One sale: a line of the user's file.
struct Comparable {
  Month sold;
  std::string sold_text;             ///< as written
  double price = 0;
  std::string currency;
  std::optional<int> year;           ///< of the vehicle
  std::string variant;
  std::optional<int> condition;      ///< 1 (best) to 5
  std::optional<double> originality; ///< 0 to 100
  std::string note;
};

/// Reads the file: `date,price,currency,year,variant,condition,originality,note`, commas, quotes doubled inside quotes
/// (RFC 4180). Every mistake is reported with its line; nothing is guessed.
std::vector<Comparable> read_comparables(std::string_view text, const std::string& file, Diagnostics& diagnostics);

/// The vehicle as the note needs it, and the rates that the user sets.
struct ValuationSubject {
  Month valued;                      ///< the valuation date
  std::optional<int> year;
  std::string variant;
  std::optional<int> condition;
  std::optional<double> originality;
  double trend = 0;                  ///< change of prices a year, 0.03 for 3 %
};

/// Bandwidths of the similarity: judgement (common practice, no source), printed in the note.
struct Bandwidths {
  double sale_years = 2, model_years = 4, condition_steps = 1, originality_points = 20;
  double other_variant = 0.5;
};

struct WeightedSale {
  Comparable sale;
  double adjusted = 0;               ///< the price at the valuation date
  double weight = 0;                 ///< of all, sums to 1
};

struct Restoration {
  std::string change;
  double hours = 0, labour = 0, parts = 0;
  bool parts_known = false;
};

struct Valuation {
  std::vector<WeightedSale> sales;
  std::string currency;
  double low = 0, high = 0;
  std::optional<double> middle;      ///< the weighted median; not given below five sales
  double effective = 0;              ///< Kish's effective number of sales, (sum w)^2 / sum w^2
  ValuationSubject subject;
  Bandwidths bandwidths;
  double rate = 0;                   ///< an hour of work; 0 when none was given
  std::vector<Restoration> changes;  ///< to put back each later change
};

inline constexpr std::size_t enough_sales = 5;

/// Each price is carried to the valuation date at the trend, compounded by months; weights are a product of Gaussian kernels of
/// the differences (Nadaraya 1964, Watson 1964), where both sides are known; the middle is the weighted median and the range
/// the weighted 10 % and 90 % quantiles; below five sales only the lowest and the highest.
Valuation value_note(const std::vector<Comparable>& sales, const ValuationSubject& subject, const Bandwidths& bandwidths = {});

/// The smallest value at which the weights below or at it reach `share` of all: at one half the (lower) weighted median.
double weighted_quantile(std::vector<std::pair<double, double>> value_and_weight, double share);

}  // namespace exworks
