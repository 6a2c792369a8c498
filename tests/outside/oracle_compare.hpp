#pragma once
#include "../support.hpp"
#include "oracle.hpp"
#include "oracle_xml.hpp"

/// The engine's answer beside the oracle's.
namespace exworks::test::oracle {

/// Ids in the order of the structs.
struct Names {
  std::vector<std::string> features, assemblies, outsides, conversions{};
  std::vector<std::vector<std::string>> changes{};  ///< [feature]
};
/// Those that pack_xml() writes.
Names letters(const SmallPack& pack);
/// Fails the test where it is none of them.
std::size_t place_in(const std::vector<std::string>& names, const std::string& name);

/// The same pack and inspection for both.
struct Case {
  const SmallPack& pack;
  const Tables& tables;
  Visit visit;
  std::string xml;  ///< of the inspection
  Names names;
};

/// With the ids that pack_xml() writes. `more`: further lines of the inspection.
Case case_of(const SmallPack& pack, const Tables& tables, const Visit& visit, const std::string& more = "");

/// Collects what differs, so that a thousand comparisons are one assertion.
class Differences {
 public:
  /// Off by no more than 1e-9, or that share of figures above 1.
  void compare(const std::string& what, double engine, Real oracle);
  void compare(const std::string& what, const std::vector<double>& engine, const Reals& oracle);
  void check(const std::string& what, bool holds);
  const std::string& text() const { return text_; }
  double largest() const { return largest_; }

 private:
  std::string text_;
  double largest_ = 0;
};

/// Every figure of the model: builds, levels, conversions, findings of features and assemblies, score, and what a report says of
/// marginals, papers and numbers.
Differences compare_all(const Case& c);
/// The builds and log P(o) alone.
Differences compare_posterior(const Case& c);
/// What would stand without each look, and what each further look can be expected to tell.
Differences compare_more(const Case& c);
/// The share of so many drawn vehicles that look at least as unlikely, against all that there could be.
Differences compare_fit(const Case& c, int draws);

/// What a report says of the odds of each axis, of papers, claims and numbers.
void compare_report(const Case& c, const Model& model, const Answer& answer, Differences& out);
/// What the report says of each number: its odds, and the months that it gives by itself.
void compare_numbers(const Case& c, const Model& model, const Answer& answer, const Assessment& assessment, Differences& out);

}  // namespace exworks::test::oracle
