#include "xml/attributes.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "base/text.hpp"

namespace exworks {

namespace {

bool good_id(const std::string& id, bool free_case) {
  if (id.empty()) return false;
  for (std::size_t i = 0; i < id.size(); ++i) {
    const char c = id[i];
    const bool alnum = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (free_case && c >= 'A' && c <= 'Z');
    if (!alnum && (i == 0 || (c != '-' && c != '.' && !(free_case && c == '_')))) return false;
  }
  return true;
}

std::string shown(double x) {
  char buffer[32];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, x, std::chars_format::fixed).ptr;
  return std::string(buffer, end);
}

}  // namespace

Attributes::Attributes(const Element& element, Diagnostics& diagnostics, const std::vector<std::string_view>& allowed)
    : element_(element), diagnostics_(diagnostics) {
  for (const std::string_view name : element.attribute_names()) {
    if (std::find(allowed.begin(), allowed.end(), name) != allowed.end()) continue;
    const std::vector<std::string> known(allowed.begin(), allowed.end());
    diagnostics.error(element.place(name), "'" + element.name() + "' has no attribute '" + std::string(name) + "'",
                      did_you_mean(std::string(name), known, "it may have " + join_and(known)));
  }
}

bool Attributes::has(std::string_view name) const { return element_.has(name); }

std::string Attributes::missing(std::string_view name) const {
  diagnostics_.error(element_.place(), "'" + element_.name() + "' needs the attribute '" + std::string(name) + "'", "write " + std::string(name) + "=\"...\"");
  return {};
}

std::string Attributes::text(std::string_view name) const {
  const auto value = element_.attribute(name);
  if (!value) return missing(name);
  if (value->empty()) diagnostics_.error(element_.place(name), "'" + std::string(name) + "' is empty", "write its text");
  return *value;
}

std::string Attributes::text_or(std::string_view name, std::string fallback) const {
  return element_.attribute(name).value_or(std::move(fallback));
}

std::string Attributes::id(bool free_case) const {
  const auto value = element_.attribute("id");
  if (!value) return missing("id");
  if (!good_id(*value, free_case)) {
    diagnostics_.error(element_.place("id"), "'" + *value + "' is no id",
                       free_case ? "use letters, digits, '-', '_' and '.'" : "use small letters, digits, '-' and '.', beginning with a letter or digit");
  }
  return *value;
}

std::optional<double> parse_number(std::string_view text) {
  double x = 0;
  const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), x);
  if (code != std::errc{} || end != text.data() + text.size() || !std::isfinite(x)) return std::nullopt;
  return x;
}

std::optional<double> Attributes::number(std::string_view name, double low, double high) const {
  const auto value = element_.attribute(name);
  if (!value) return std::nullopt;
  const std::optional<double> parsed = parse_number(*value);
  if (!parsed) {
    diagnostics_.error(element_.place(name), "'" + *value + "' is no number", "write it like 0.25");
    return std::nullopt;
  }
  const double x = *parsed;
  if (x < low || x > high) {
    diagnostics_.error(element_.place(name), "'" + std::string(name) + "' is " + *value, "it lies between " + shown(low) + " and " + shown(high));
    return std::nullopt;
  }
  return x;
}

std::optional<std::int64_t> Attributes::integer(std::string_view name, std::int64_t low, std::int64_t high) const {
  const auto value = element_.attribute(name);
  if (!value) return std::nullopt;
  std::int64_t x = 0;
  const auto [end, code] = std::from_chars(value->data(), value->data() + value->size(), x);
  if (code != std::errc{} || end != value->data() + value->size() || x < low || x > high) {
    diagnostics_.error(element_.place(name), "'" + *value + "' can't be '" + std::string(name) + "'",
                       "write a whole number from " + std::to_string(low) + " to " + std::to_string(high));
    return std::nullopt;
  }
  return x;
}

std::optional<Edge> Attributes::edge(std::string_view name) const {
  const auto value = element_.attribute(name);
  if (!value) return std::nullopt;
  std::string why;
  auto edge = parse_edge(*value, &why);
  if (!edge) diagnostics_.error(element_.place(name), "'" + *value + "' is no date", why);
  return edge;
}

std::optional<CalendarDay> Attributes::day(std::string_view name) const {
  const auto value = element_.attribute(name);
  if (!value || value->empty()) return std::nullopt;
  const auto day = parse_day(*value);
  if (!day) diagnostics_.error(element_.place(name), "'" + *value + "' is no day", "write it like 1965-01-01, or leave it out where there is no limit");
  return day;
}

bool Attributes::yes_no(std::string_view name, bool fallback) const {
  return choice(name, {"yes", "no"}, fallback ? "yes" : "no") == "yes";
}

std::string Attributes::choice(std::string_view name, const std::vector<std::string>& words, const std::string& fallback) const {
  const auto value = element_.attribute(name);
  if (!value) return fallback;
  if (std::find(words.begin(), words.end(), *value) != words.end()) return *value;
  diagnostics_.error(element_.place(name), "'" + *value + "' can't be '" + std::string(name) + "'", "write one of " + join_and(words));
  return fallback;
}

void unknown_element(const Element& element, const std::vector<std::string>& known, Diagnostics& diagnostics) {
  diagnostics.error(element.place(), "element '" + element.name() + "' is not known here",
                    did_you_mean(element.name(), known, "use one of " + join_and(known)));
}

std::size_t Ids::add(const std::string& id, const Place& place, Diagnostics& diagnostics) {
  const auto [it, fresh] = index_.emplace(id, names_.size());
  if (!fresh && !id.empty()) {
    const Place& first = places_[it->second];
    diagnostics.error(place, kind_ + " '" + id + "' is given twice",
                      "rename one; the first is at " + first.file + ":" + std::to_string(first.line) + ":" + std::to_string(first.column));
  }
  names_.push_back(id);
  places_.push_back(place);
  return names_.size() - 1;
}

std::optional<std::size_t> Ids::find(const std::string& id) const {
  const auto it = index_.find(id);
  if (it == index_.end()) return std::nullopt;
  return it->second;
}

std::optional<std::size_t> Ids::resolve(const std::string& id, const Place& place, Diagnostics& diagnostics) const {
  if (const auto found = find(id)) return found;
  const std::string near = nearest(id, names_);
  const bool nameless = std::find(names_.begin(), names_.end(), "") != names_.end();
  if (near.empty() && nameless) return std::nullopt;  // it may be the one whose missing id is reported already
  std::string remedy = "did you mean '" + near + "'?";
  if (near.empty()) remedy = names_.size() <= 12 && !names_.empty() ? "known are " + join_and(names_) : "write it, or correct the name";
  diagnostics.error(place, "there is no " + kind_ + " '" + id + "'", remedy);
  return std::nullopt;
}

}  // namespace exworks
