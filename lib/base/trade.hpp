#pragma once
#include <string>

#include "base/spelling.hpp"

/// What packs, tables and verdicts all say of a part.
namespace exworks {

/// How a value came to be on a vehicle when it was new.
enum class Fitted { standard, option, dealer };

template <>
struct Spelling<Fitted> {
  static constexpr std::string_view words[] = {"standard", "option", "dealer"};
};

/// Does a later change, or a replaced assembly, come off again?
enum class Reversible { unknown, yes, no, partly };

template <>
struct Spelling<Reversible> {
  static constexpr std::string_view words[] = {"", "yes", "no", "partly"};
};

/// The requirement of law that a fact follows from: it binds only where no other standard fact does.
struct LegalBasis {
  std::string requirement;  ///< its id
  std::string market;       ///< whose law it is, by name
  std::string asks;         ///< what it asks of, in a few words
};

}  // namespace exworks
