#pragma once

namespace exworks {

/// Judgement, not measurement: each is a share of surviving vehicles or of readings, 0 to 1 exclusive
/// (look_alike: a factor, at least 1). Common practice, no source; a pack or a rates file may override them.
struct Rates {
  double sure = 0.01;          ///< an inspector who is sure names another value than the one that is there
  double probable = 0.08;      ///< the same, for "probable"
  double guess = 0.25;         ///< the same, for "guess"
  double look_alike = 3;       ///< weight of a look-alike among the slips, where another value weighs 1
  double altered = 0.04;       ///< a feature was changed by itself
  double unlisted = 0.2;       ///< a change leads to a value that no later change names
  double replaced = 0.10;      ///< an assembly was replaced
  double number_error = 0.03;  ///< a number is miswritten, or is not the vehicle's own
};

}  // namespace exworks
