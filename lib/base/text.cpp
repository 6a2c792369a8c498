#include "base/text.hpp"

#include <algorithm>

namespace exworks {

namespace {
bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
}  // namespace

std::vector<std::string> split_words(std::string_view text) {
  std::vector<std::string> words;
  std::size_t i = 0;
  while (i < text.size()) {
    while (i < text.size() && is_space(text[i])) ++i;
    const std::size_t start = i;
    while (i < text.size() && !is_space(text[i])) ++i;
    if (i > start) words.emplace_back(text.substr(start, i - start));
  }
  return words;
}

std::string fold_space(std::string_view text) {
  std::string out;
  for (const std::string& w : split_words(text)) {
    if (!out.empty()) out += ' ';
    out += w;
  }
  return out;
}

int edit_distance(std::string_view a, std::string_view b) {
  const std::size_t n = b.size() + 1;
  std::vector<int> before(n), last(n), row(n);
  for (std::size_t j = 0; j < n; ++j) last[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = static_cast<int>(i);
    for (std::size_t j = 1; j < n; ++j) {
      const int change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        row[j] = std::min(row[j], before[j - 2] + 1);
      }
    }
    before.swap(last);
    last.swap(row);
  }
  return last[n - 1];
}

std::string nearest(std::string_view word, const std::vector<std::string>& candidates) {
  std::string best;
  int best_distance = 1 + std::max<int>(2, static_cast<int>(word.size()) / 3);
  for (const std::string& c : candidates) {
    const int d = edit_distance(word, c);
    if (d < best_distance) {
      best_distance = d;
      best = c;
    }
  }
  return best;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& known, const std::string& otherwise) {
  const std::string near = nearest(word, known);
  return near.empty() ? otherwise : "did you mean '" + near + "'?";
}

bool glob_match(std::string_view pattern, std::string_view text) {
  std::size_t p = 0, t = 0, star = std::string_view::npos, mark = 0;
  while (t < text.size()) {
    if (p < pattern.size() && pattern[p] == '*') {
      star = p++;
      mark = t;
    } else if (p < pattern.size() && pattern[p] == text[t]) {
      ++p;
      ++t;
    } else if (star != std::string_view::npos) {
      p = star + 1;
      t = ++mark;
    } else {
      return false;
    }
  }
  while (p < pattern.size() && pattern[p] == '*') ++p;
  return p == pattern.size();
}

bool is_country(std::string_view text) {
  return text.size() == 2 && std::all_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

std::string upper(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  return out;
}

std::string upper_first(std::string s) {
  if (!s.empty() && s[0] >= 'a' && s[0] <= 'z') s[0] = static_cast<char>(s[0] - 'a' + 'A');
  return s;
}

namespace {
std::string join(const std::vector<std::string>& items, const std::string& last) {
  const bool commas = items.size() > 2 && std::any_of(items.begin(), items.end(), [](const std::string& s) { return s.find(", ") != std::string::npos; });
  const std::string between = commas ? "; " : ", ", at_last = commas ? ";" + last : last;
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) out += i + 1 == items.size() ? at_last : between;
    out += items[i];
  }
  return out;
}
}  // namespace

std::string join_and(const std::vector<std::string>& items) { return join(items, " and "); }

std::string join_or(const std::vector<std::string>& items) { return join(items, " or "); }

bool is_clean_utf8(std::string_view s, std::size_t* bad_offset) {
  std::size_t i = 0;
  while (i < s.size()) {
    const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(s[k]); };
    const unsigned lead = byte(i);
    std::size_t length = 1;
    unsigned code = lead;
    if (lead >= 0xF0 && lead < 0xF5) length = 4, code = lead & 0x07u;
    else if (lead >= 0xE0 && lead < 0xF0) length = 3, code = lead & 0x0Fu;
    else if (lead >= 0xC2 && lead < 0xE0) length = 2, code = lead & 0x1Fu;
    bool good = length > 1 || lead < 0x80;
    if (i + length > s.size()) good = false;
    for (std::size_t k = 1; good && k < length; ++k) {
      good = (byte(i + k) & 0xC0u) == 0x80u;
      code = (code << 6) | (byte(i + k) & 0x3Fu);
    }
    if (good && length == 1) good = lead >= 0x20 || lead == '\t' || lead == '\n' || lead == '\r';
    if (good && length == 3) good = code >= 0x800 && !(code >= 0xD800 && code <= 0xDFFF) && code != 0xFFFE && code != 0xFFFF;
    if (good && length == 4) good = code >= 0x10000 && code <= 0x10FFFF;
    if (!good) {
      if (bad_offset != nullptr) *bad_offset = i;
      return false;
    }
    i += length;
  }
  return true;
}

}  // namespace exworks
