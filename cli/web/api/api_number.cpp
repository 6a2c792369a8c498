#include <algorithm>
#include <nlohmann/json.hpp>

#include "web/api/api.hpp"
#include "web/api/edits.hpp"
#include "web/api/words.hpp"
#include "words/numbers.hpp"

namespace exworks::cli::web {

Json Api::read_number(const Call& call) {
  constexpr std::size_t longest = 60, most_others = 3;
  const Json body = call.body();
  const Tables& t = context_.family(text_of(body, "family", 64));
  const std::string id = text_of(body, "number", 64), text = text_of(body, "text", longest);
  const auto at = std::find_if(t.numbers.begin(), t.numbers.end(), [&](const NumberInfo& n) { return n.id == id; });
  if (at == t.numbers.end()) throw Refusal{404, "the pack has no number '" + id + "'; load the page again"};

  NumberRead read;
  read.number = static_cast<std::size_t>(at - t.numbers.begin());
  read.text = text;
  read.readings = exworks::read_number(text, at->grammars());
  const NumberFailure stopped = explain_failure(text, at->grammars());
  if (read.readings.empty()) read.unread = stopped;
  const NumberVerdict n = describe_number(t, read);
  Json out = number_json(t, n);
  out["wants"] = read.readings.empty() || read.readings.front().partial ? stopped.expected : "";
  // What it may be mistaken for: the other ways that are as likely.
  out["others"] = Json::array();
  for (std::size_t i = 1; i < read.readings.size() && out["others"].size() < most_others; ++i) {
    NumberRead other = read;
    other.readings.erase(other.readings.begin(), other.readings.begin() + static_cast<std::ptrdiff_t>(i));
    out["others"].push_back(parts_in_a_row(t, describe_number(t, other)));
  }
  return out;
}

}  // namespace exworks::cli::web
