#pragma once
#include <string>

#include "base/diagnostic.hpp"
#include "base/spelling.hpp"

namespace exworks {

enum class SourceKind { published, common_practice, memory };

template <>
struct Spelling<SourceKind> {
  static constexpr std::string_view words[] = {"published", "common-practice", "memory"};
};

/// Where a statement comes from, as far as a citation needs it.
struct SourceInfo {
  std::string id, title, publisher, year, url;
  SourceKind kind = SourceKind::published;
};

/// The same as its author wrote it.
struct Source : SourceInfo {
  std::string note;
  bool cited = false;  ///< by some line of the pack
  Place place;
};

}  // namespace exworks
