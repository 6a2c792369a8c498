#include "workshop/schemes.hpp"

#include <algorithm>
#include <set>

#include "base/text.hpp"

namespace exworks {

std::vector<Scheme> load_schemes(const Rules& rules) {
  Diagnostics d;
  std::vector<Scheme> out;
  for (const std::filesystem::path& folder : rules.folders) {
    for (Scheme& s : read_schemes(folder / "scheme", d)) {
      const bool known = std::any_of(out.begin(), out.end(), [&](const Scheme& other) { return other.id == s.id; });
      if (!known) out.push_back(std::move(s));
    }
  }
  if (d.has_errors()) throw Mistakes{errors_among(d)};
  return out;
}

std::vector<Scheme> choose_schemes(std::vector<Scheme> schemes, const std::vector<std::string>& wanted) {
  if (wanted.empty()) return schemes;
  std::set<std::string> words;
  for (const Scheme& s : schemes) words.insert({s.id, s.group});
  const std::vector<std::string> known(words.begin(), words.end());
  for (const std::string& word : wanted) {
    if (words.contains(word)) continue;
    throw mistake("there is no scheme or group '" + word + "'", did_you_mean(word, known, "known are " + join_and(known)));
  }
  const auto named = [&](const std::string& word) { return std::find(wanted.begin(), wanted.end(), word) != wanted.end(); };
  std::erase_if(schemes, [&](const Scheme& s) { return !named(s.id) && !named(s.group); });
  return schemes;
}

std::vector<Scheme> schemes_for(std::vector<Scheme> schemes, Region reader) {
  const std::string country = reader == Region::en_GB ? "GB" : reader == Region::en_US ? "US" : "AU";
  std::erase_if(schemes, [&](const Scheme& s) { return !s.country.empty() && s.country != country; });
  return schemes;
}

CalendarDay report_day(const std::string& text) {
  const auto day = parse_day(text);
  if (day) return *day;
  throw mistake("--date '" + text + "' is not a day", "write it 2026-11-20");
}

}  // namespace exworks
