#include "base/foreign_json.hpp"

#include <nlohmann/json.hpp>

namespace exworks {

namespace {

/// Counts brackets outside of strings, before anything is built.
bool too_deep(const std::string& text) {
  int depth = 0;
  bool in_string = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (in_string) {
      if (c == '\\') ++i;
      else if (c == '"') in_string = false;
    } else if (c == '"') {
      in_string = true;
    } else if (c == '[' || c == '{') {
      if (++depth > deepest_json) return true;
    } else if (c == ']' || c == '}') {
      --depth;
    }
  }
  return false;
}

template <class Json>
Json parsed(const std::string& text) {
  if (too_deep(text)) return Json(nlohmann::json::value_t::discarded);
  return Json::parse(text, nullptr, false);
}

}  // namespace

nlohmann::json parse_foreign(const std::string& text) { return parsed<nlohmann::json>(text); }

nlohmann::ordered_json parse_foreign_ordered(const std::string& text) { return parsed<nlohmann::ordered_json>(text); }

}  // namespace exworks
