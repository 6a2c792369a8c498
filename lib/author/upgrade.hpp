#pragma once
#include <string>
#include <vector>

namespace exworks {

/// A file of a pack, rewritten.
struct Upgraded {
  std::string text;
  std::vector<std::string> dropped;  ///< attributes that mean nothing any more, as they stood: `slip="0.01"`
  bool rewritten = false;            ///< it was of format 1
};

/// A well-formed file of a pack in format 2, from one in format 1: the root says so, and attributes that have no meaning any more are gone.
/// Every other byte stays as it was, comments included. A file whose root is no `pack` or is not of format 1 comes back as it is.
Upgraded upgraded_pack_file(const std::string& text);

}  // namespace exworks
