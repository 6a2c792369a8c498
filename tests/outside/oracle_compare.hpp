#pragma once
#include "../support.hpp"
#include "engine/evidence/documents.hpp"
#include "engine/evidence/evidence.hpp"
#include "engine/infer/findings.hpp"
#include "engine/evidence/given.hpp"
#include "engine/infer/score.hpp"
#include "oracle.hpp"

/// The engine's answer beside the oracle's.
namespace exworks::test::oracle {

/// What the engine makes of a visit.
struct Engine {
  Evidence evidence;
  Posterior posterior;
  std::vector<FeatureFinding> features;
  std::vector<AssemblyFinding> assemblies;
  Score score;
};

/// `given`: as --given of the command takes it.
Engine run_engine(const Tables& tables, const std::string& inspection_xml, const std::vector<std::string>& given = {});

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

/// Ids in the order of the structs.
struct Names {
  std::vector<std::string> features, assemblies, outsides;
};
/// Those that pack_xml() writes.
Names letters(const SmallPack& pack);

/// The same pack and inspection for both.
struct Case {
  const SmallPack& pack;
  const Tables& tables;
  Visit visit;
  std::string xml;  ///< of the inspection
  Names names;
};

/// What the report says of each number: its odds, and the months that it gives by itself.
void compare_numbers(const Case& c, const Model& model, const Answer& answer, const Assessment& assessment, Differences& out);

/// Every figure of the model: builds, findings of features and assemblies, score, and the marginals that a report shows.
Differences compare_all(const Case& c);
/// The builds and log P(o) alone.
Differences compare_posterior(const Case& c);

}  // namespace exworks::test::oracle
