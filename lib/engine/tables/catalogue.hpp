#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/scope.hpp"
#include "base/source.hpp"
#include "base/trade.hpp"

/// What a compiled pack keeps for words alone: names, sources, cautions, terms. Nothing here is a sentence of ours; strings are ids and the
/// author's own words.
namespace exworks {

struct Label {
  std::string id, name;
};

struct CautionInfo {
  std::string id, name, text;
  bool always = false;
  std::vector<std::size_t> sources;
};

struct TermInfo {
  std::string word, en_us, en_au;
};

/// A question of "which family is it?", and which of its answers are right for this one (none: the pack doesn't say).
struct QuestionInfo {
  std::string id, ask;
  std::vector<Label> answers;
  std::vector<bool> right;  ///< [answer]
};

struct VariantInfo {
  std::string id, name;
  std::size_t generation = 0, body = 0;
  Month first, last;  ///< of its window, both included
};

struct MarketInfo {
  std::string id, name, country, steering;
};

struct PlantInfo {
  std::string id, name;
  bool kit = false;
};

/// What a build is one of each of; the sets of a Scope index these.
struct Axes {
  std::vector<Label> generations, bodies;
  std::vector<VariantInfo> variants;
  std::vector<MarketInfo> markets;
  std::vector<PlantInfo> plants;
};

struct FactInfo {
  std::string name;  ///< within its feature; what a pack that extends this one calls it by
  ValueIndex value;
  Fitted fitted = Fitted::standard;
  double share = 1;
  Scope scope;                    ///< as its author set it; indexes Axes
  std::optional<Edge> from, to;   ///< its period; nothing: the whole window
  int from_within = 0, to_within = 0;  ///< months either side within which the edge is trusted to lie; 0 for law
  std::optional<std::int64_t> from_number, to_number;  ///< identity numbers that begin and end it
  std::vector<std::size_t> sources;
  bool memory_only = false, disputed = false;
  std::optional<LegalBasis> law;  ///< when a legal requirement says it
  std::string note;
};

/// The edition of a pack that another one extends.
struct BaseEdition {
  std::string family, version, digest;
};

struct Catalogue {
  std::vector<SourceInfo> sources;
  std::vector<Label> places;
  std::vector<CautionInfo> cautions;
  std::vector<TermInfo> terms;
  std::vector<QuestionInfo> questions;
};

}  // namespace exworks
