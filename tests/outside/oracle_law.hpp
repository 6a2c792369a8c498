#pragma once
#include <optional>
#include <string>
#include <vector>

/// Requirements of law in a small pack (rules/schema/requirements.rng).
namespace exworks::test::oracle {

/// A day; months are counted from January 1950.
struct Day {
  int month = 0, day = 1;
};

/// A rule whose strength is "must".
struct Law {
  std::string country;
  std::vector<std::string> classes;  ///< of the bodies that it binds
  std::string basis;                 ///< first-used, manufactured or model-year
  Day from;
  std::optional<Day> to;  ///< the last day of its month
};

}  // namespace exworks::test::oracle
