#pragma once
#include <vector>

/// What every line of a small pack may have: a period and a scope.
namespace exworks::test::oracle {

/// Months are counted from January 1950; both ends belong to the window.
struct Window {
  int first = 0, last = 0;
};

/// For each axis whether a member is in; an empty axis means all.
struct Scope {
  std::vector<bool> generations, variants, bodies, markets, plants;
  bool operator==(const Scope&) const = default;
};

}  // namespace exworks::test::oracle
