#include "words/english/english.hpp"

namespace exworks {

namespace {

bool capital(char c) { return c >= 'A' && c <= 'Z'; }
bool digit(char c) { return c >= '0' && c <= '9'; }
char lower(char c) { return capital(c) ? static_cast<char>(c + 32) : c; }
bool one_of(char c, std::string_view set) { return set.find(c) != std::string_view::npos; }

/// Said letter by letter: "MG", "GT6", "M38", "SWB"; not a short word in capitals that has a vowel.
bool spelt(std::string_view word) {
  std::size_t capitals = 0;
  bool vowel = false;
  for (char c : word) {
    if (digit(c)) return capitals > 0;
    if (!capital(c)) return capitals > 1 && capitals + 1 == word.size() && c == 's';
    ++capitals;
    vowel = vowel || one_of(c, "AEIOU");
  }
  return capitals == 1 || !vowel || capitals < 3;
}

/// Numbers: "an 8 hp", "an 11", "an 18", "an 80", "an 1100".
bool number_begins_with_vowel(std::string_view word) {
  std::size_t digits = 0;
  while (digits < word.size() && digit(word[digits])) ++digits;
  return word[0] == '8' || ((digits == 2 || digits == 4) && (word.starts_with("11") || word.starts_with("18")));
}

bool begins_with_vowel(std::string_view word) {
  if (word.empty()) return false;
  if (digit(word[0])) return number_begins_with_vowel(word);
  if (capital(word[0]) && spelt(word)) return one_of(word[0], "AEFHILMNORSX");
  const char c = lower(word[0]), next = word.size() > 1 ? lower(word[1]) : ' ', third = word.size() > 2 ? lower(word[2]) : ' ';
  if (c == 'u') return !(next == 't' && third == 'i') && !(next == 'n' && third == 'i') && !(next == 's');  // utility, unit, used
  if (c == 'e') return next != 'u';                                                                          // European
  if (c == 'o') return !(next == 'n' && third == 'e');  // one-ton
  return one_of(c, "ai");
}

}  // namespace

std::string plural(std::size_t n, std::string_view one, std::string_view many) {
  if (n == 1) return std::string(one);
  return many.empty() ? std::string(one) + "s" : std::string(many);
}

std::string counted(std::size_t n, std::string_view one, std::string_view many) { return std::to_string(n) + " " + plural(n, one, many); }

std::string_view is_or_are(std::size_t n) { return n == 1 ? "is" : "are"; }
std::string_view was_or_were(std::size_t n) { return n == 1 ? "was" : "were"; }

std::string with_article(std::string_view words) {
  const std::string_view first = words.substr(0, words.find_first_of(" -,;()"));
  return (begins_with_vowel(first) ? "an " : "a ") + std::string(words);
}

}  // namespace exworks
