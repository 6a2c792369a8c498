#include "web/api.hpp"
#include "web/words.hpp"

/// Which family is it: by a few questions, or by a number.
namespace exworks::cli::web {

Json Api::families(const Call&) {
  Json out = Json::array();
  for (const Tables* t : shop_.families()) out.push_back({{"id", t->family}, {"name", t->name}, {"status", t->invented ? "invented" : "real"}, {"features", t->feature_index.size()}});
  return {{"families", std::move(out)}, {"questions", Json::array()}};
}

Json Api::guess(const Call&) { return {{"families", Json::array()}}; }

}  // namespace exworks::cli::web
