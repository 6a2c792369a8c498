#pragma once
#include <cstdint>

namespace exworks {

/// Settings of the verdicts; shown in every report. All thresholds stand here, and nowhere else.
struct Settings {
  double original_from = 0.90;    ///< P(type as built) from which a verdict is "original"
  double later_to = 0.10;         ///< and up to which it is "later change"
  double rather_original_from = 0.70;  ///< an uncertain verdict leans so from here
  double rather_later_to = 0.30;       ///< and so up to here
  double explanation_from = 0.10;      ///< odds from which an explanation of a change is told; the likeliest always is
  double speaks_from = 2;              ///< factor on the odds of a claim from which what was seen speaks for it or against it
  double level = 0.90;            ///< of the date set and the score's interval
  bool memory_decides = false;    ///< a verdict on memory alone may be more than uncertain
  int fit_draws = 200;            ///< simulated vehicles of the fit check; 0 leaves it out
  std::uint64_t seed = 1;
  bool readings = true;           ///< both readings of a number that contradicts the rest, and one of each claim
  bool hinges = true;             ///< what each firm answer hangs on
  double contradiction_from = 100;  ///< likelihood ratio against an identity number from which both readings are given; they are, too, where its odds are below `original_from`
  double unusual_below = 0.05;    ///< share of simulated vehicles as unlikely, below which the fit is unusual
  double contradictory_below = 0.01;  ///< and below which the observations contradict each other
  double worth_looking_bits = 0.02;   ///< a coin that falls heads 99.8 times in 100 has as much
  double outcome_shown_from = 0.03;   ///< odds from which an outcome of a look is told
  double partly_silent_from = 0.1;  ///< P(the pack is silent) above which that is said
  double fact_counts_from = 0.02;  ///< odds of the builds in which a fact binds, above which it is named
  double value_named_from = 0.05; ///< works share above which a value is named as what the works fitted
  double often_changed_from = 0.2;  ///< rate of change from which a feature says little about originality
};

}  // namespace exworks
