#pragma once
#include <string>
#include <vector>

#include "engine/tables/tables.hpp"

namespace exworks {

/// The sources of a page, numbered in the order in which they are first cited.
class Citations {
 public:
  /// "[1, 3]", or "" for none.
  std::string cite(const std::vector<std::size_t>& sources);

  /// " [1, 3]" to follow a text, or "" for none.
  std::string after(const std::vector<std::size_t>& sources);

  std::vector<std::size_t> numbers(const std::vector<std::size_t>& sources);
  const std::vector<std::size_t>& cited() const { return cited_; }

 private:
  std::vector<std::size_t> cited_;  ///< [number - 1]: index into Tables::sources
};

/// A source as it is listed: what is not published is said to be so, once.
std::string source_words(const SourceInfo& source);

}  // namespace exworks
