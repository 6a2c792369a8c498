#pragma once
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/date.hpp"
#include "base/spelling.hpp"
#include "xml/xml_file.hpp"

namespace exworks {

/// Typed reading of one element's attributes. Every mistake becomes a diagnostic at the attribute's own place, and a
/// harmless default is returned so that reading can go on to the next mistake.
class Attributes {
 public:
  /// Reports every attribute that is not in `allowed`, with the nearest that is.
  Attributes(const Element& element, Diagnostics& diagnostics, const std::vector<std::string_view>& allowed);

  bool has(std::string_view name) const;
  /// Required, not empty.
  std::string text(std::string_view name) const;
  std::string text_or(std::string_view name, std::string fallback) const;
  /// Required; kebab-case unless `free_case`.
  std::string id(bool free_case = false) const;
  /// A decimal number within [low, high].
  std::optional<double> number(std::string_view name, double low, double high) const;
  std::optional<std::int64_t> integer(std::string_view name, std::int64_t low, std::int64_t high) const;
  std::optional<Edge> edge(std::string_view name) const;
  /// A day written 1965-01-01; nothing when it is not there or empty.
  std::optional<CalendarDay> day(std::string_view name) const;
  bool yes_no(std::string_view name, bool fallback) const;
  /// One of `words`; `fallback` when the attribute is not there.
  std::string choice(std::string_view name, const std::vector<std::string>& words, const std::string& fallback) const;
  /// One of the words that spell an enum; `fallback` when the attribute is not there or a mistake.
  template <Spelled Enum>
  Enum one_of(std::string_view name, Enum fallback) const {
    return one_of<Enum>(name).value_or(fallback);
  }
  template <Spelled Enum>
  std::optional<Enum> one_of(std::string_view name) const {
    std::vector<std::string> words;
    for (const std::string_view w : Spelling<Enum>::words) {
      if (!w.empty()) words.emplace_back(w);
    }
    const std::string chosen = choice(name, words, "");
    return chosen.empty() ? std::nullopt : from_word<Enum>(chosen);
  }

  const Element& element() const { return element_; }
  Diagnostics& diagnostics() const { return diagnostics_; }

 private:
  std::string missing(std::string_view name) const;
  const Element& element_;
  Diagnostics& diagnostics_;
};

/// A decimal number, and nothing but it; nothing for any other text.
std::optional<double> parse_number(std::string_view text);

/// Reports an element that has no business where it stands, with the nearest that has.
void unknown_element(const Element& element, const std::vector<std::string>& known, Diagnostics& diagnostics);

/// The ids of one kind: index by name, no duplicates, and the nearest known one for a word that is none.
class Ids {
 public:
  /// `kind` is what messages call one: "feature".
  explicit Ids(std::string kind) : kind_(std::move(kind)) {}

  /// The index that the id will have; a duplicate is reported with both places.
  std::size_t add(const std::string& id, const Place& place, Diagnostics& diagnostics);
  std::optional<std::size_t> find(const std::string& id) const;
  /// Like find, and reports an unknown id.
  std::optional<std::size_t> resolve(const std::string& id, const Place& place, Diagnostics& diagnostics) const;
  const std::vector<std::string>& names() const { return names_; }
  const std::string& kind() const { return kind_; }

 private:
  std::string kind_;
  std::vector<std::string> names_;
  std::vector<Place> places_;
  std::unordered_map<std::string, std::size_t> index_;
};

}  // namespace exworks
