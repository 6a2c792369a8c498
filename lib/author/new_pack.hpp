#pragma once
#include <string>
#include <vector>

namespace exworks {

struct NewMarket {
  std::string name, steering;  ///< left or right
};

struct NewVariant {
  std::string name, from, to;  ///< dates as rules/FORMAT.md writes them
};

/// What must be known of a family before its first fact.
struct NewPack {
  std::string id, name;
  std::vector<NewMarket> markets;
  std::vector<NewVariant> variants;
};

/// A small valid pack.xml with comments that say what to write where. Its one feature is the side of the steering wheel, which
/// follows from the markets.
std::string new_pack_text(const NewPack& pack);

}  // namespace exworks
