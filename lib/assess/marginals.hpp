#pragma once
#include <string_view>
#include <vector>

#include "engine/tables/tables.hpp"

/// P(b | o) by axis and by month.
namespace exworks {

struct Odds {
  std::size_t index = 0;
  double p = 0;
};

/// The builds of one route that remain: variant, market and plant with the months that hold most of their odds.
struct RouteOdds {
  std::size_t route = 0;
  Month from, to;
  double p = 0;
};

struct DateSet {
  Month from, to, most_likely;
  double level = 0.9;  ///< at least this share of the odds lies within
};

struct Marginals {
  std::vector<RouteOdds> routes;                                     ///< most likely first, those above 1 % (always one)
  std::vector<Odds> generations, variants, bodies, markets, plants;  ///< most likely first
  DateSet date;
  std::vector<double> month_odds;                                    ///< [month - first_month]
  Month first_month;
};

/// Of one axis by its name in files: generation, variant, market, plant, body.
const std::vector<Odds>& odds_of_axis(const Marginals& marginals, std::string_view axis);

/// From P(b | o), [build].
Marginals marginals(const Tables& tables, const std::vector<double>& build, double level);

/// The shortest run of months that holds at least `level` of the odds. `odds`: [month - first], any scale above zero.
DateSet shortest_window(const std::vector<double>& odds, Month first, double level);

/// P(month) of any distribution over builds: [month - first].
std::vector<double> month_odds(const Tables& tables, const std::vector<double>& build, Month* first);

}  // namespace exworks
