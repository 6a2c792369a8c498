#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "engine/tables/tables.hpp"
#include "words/english/region.hpp"

namespace exworks {

/// Swaps trade terms for those of a region: whole words only, the longest first, all in one pass (so that a bonnet that became
/// a hood does not become a top), plurals and a leading capital kept.
class Terms {
 public:
  Terms(const std::vector<TermInfo>& terms, Region region);
  std::string operator()(std::string_view text) const;

 private:
  std::vector<std::pair<std::string, std::string>> swaps_;  ///< longest first
};

/// The tables with every text of the pack in the region's terms. What an inspector wrote, numbers and the titles of sources stay as they
/// are; ids too.
Tables in_terms(Tables tables, Region region);

}  // namespace exworks
