#pragma once
#include <vector>

#include "assess/assessment.hpp"

namespace exworks {

/// The shortest run of months that holds at least `level` of the odds. `odds`: [month - first], any scale above zero.
DateSet shortest_window(const std::vector<double>& odds, Month first, double level);

/// Fills routes, marginals and dates of an assessment from P(b | o).
void fill_marginals(const Tables& tables, const std::vector<double>& build, double level, Assessment& out);

/// P(month) of any distribution over builds: [month - first].
std::vector<double> month_odds(const Tables& tables, const std::vector<double>& build, Month* first);

}  // namespace exworks
