#pragma once
#include <algorithm>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>

namespace exworks {

/// How the files spell the values of an enum: `static constexpr std::string_view words[]`, in the order of the values. Specialised beside
/// each enum that a file's grammar lists the words of, so that they stand once. "": a value that is never written.
template <class Enum>
struct Spelling;

template <class Enum>
concept Spelled = requires { Spelling<Enum>::words[0]; };

template <Spelled Enum>
std::string word(Enum value) {
  return std::string(Spelling<Enum>::words[static_cast<std::size_t>(value)]);
}

/// "" for nothing.
template <Spelled Enum>
std::string word(const std::optional<Enum>& value) {
  return value ? word(*value) : std::string();
}

template <Spelled Enum>
std::optional<Enum> from_word(std::string_view text) {
  const auto& words = Spelling<Enum>::words;
  const auto at = std::find(std::begin(words), std::end(words), text);
  if (at == std::end(words)) return std::nullopt;
  return static_cast<Enum>(at - std::begin(words));
}

}  // namespace exworks
