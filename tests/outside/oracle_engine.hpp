#pragma once
#include <memory>

#include "oracle_compare.hpp"

/// The engine's answer as plain figures, in the order of the oracle's structs. Nothing else of the comparison reads the engine.
namespace exworks::test::oracle {

struct EngineLook {
  std::size_t feature = 0;  ///< the oracle's
  double p_type = 0, p_before = 0, likelihood_ratio = 0, p_untouched = 0, p_silent = 0, p_type_spoken = 0, p_later_spoken = 0;
  std::vector<double> there, works;      ///< [value]
  std::vector<std::size_t> left_open{};  ///< the values that the look leaves open, ascending
  std::map<Reason, double> explanations{};
};

struct EngineAssembly {
  std::size_t assembly = 0;
  double p_replaced = 0, p_unnamed = 0;
  std::vector<double> donor;    ///< [build], given that it was replaced
  std::vector<double> outside;  ///< [outside of the pack], given that it was replaced
};

struct EngineScore {
  double value = 0, low = 0, high = 0;
  int weight = 0;
};

struct EngineAnswer {
  std::vector<double> build;  ///< [build]
  double log_evidence = 0;
  std::vector<double> level;       ///< [level]
  std::vector<double> conversion;  ///< [conversion]: P(it was had)
  std::optional<double> p_own;
  std::vector<EngineLook> looks;
  std::vector<EngineAssembly> assemblies;
  EngineScore score;
};

struct EngineWithout {
  std::size_t left_out = 0;         ///< feature
  std::vector<double> variants;     ///< [variant]
  std::vector<double> type, later;  ///< [place of the finding among EngineAnswer::looks]
};

struct EngineOutlook {
  std::size_t feature = 0;
  double build_bits = 0, verdict_bits = 0, applies = 0;
  std::vector<double> noted;  ///< [value]
};

class EngineRun {
 public:
  explicit EngineRun(const Case& c);
  ~EngineRun();
  EngineRun(const EngineRun&) = delete;
  EngineRun& operator=(const EngineRun&) = delete;

  const EngineAnswer& answer() const { return answer_; }
  std::vector<EngineWithout> leave_each_out() const;
  /// `open`: features
  std::vector<EngineOutlook> outlooks(const std::vector<std::size_t>& open) const;
  double fit(std::uint64_t seed, int draws) const;

 private:
  struct Inside;
  const Case& case_;
  std::unique_ptr<Inside> inside_;
  EngineAnswer answer_;
};

}  // namespace exworks::test::oracle
