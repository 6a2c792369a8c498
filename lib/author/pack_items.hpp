#pragma once
#include <string>
#include <vector>

#include "pack/model/pack.hpp"

/// The things of a pack in words, name by name, so that two editions can be compared without knowing what they are made of.
namespace exworks {

/// One thing that is said: "hours to put back", "8". "" where the pack says nothing.
struct Said {
  std::string what, words;
};

std::vector<Said> said_of(const Pack& pack, const Market& market);
std::vector<Said> said_of(const Pack& pack, const Plant& plant);
std::vector<Said> said_of(const Pack& pack, const Variant& variant);
std::vector<Said> said_of(const Pack& pack, const Assembly& assembly);
std::vector<Said> said_of(const Pack& pack, const Feature& feature);
std::vector<Said> said_of(const Feature& feature, const Value& value);
std::vector<Said> said_of(const Pack& pack, const LaterChange& change);
std::vector<Said> said_of(const Pack& pack, const Conversion& conversion);

/// Sources by what they are, not by their ids: these may differ between editions. In order of their words.
std::string cited_words(const Pack& pack, const std::vector<std::size_t>& sources);

/// "0.2", "20".
std::string figure_words(double figure);

}  // namespace exworks
