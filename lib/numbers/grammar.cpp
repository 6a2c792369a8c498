#include "numbers/grammar.hpp"

#include <algorithm>
#include <set>

#include "base/text.hpp"

namespace exworks {

namespace {

bool separator(char c) {
  return c == ' ' || c == '-' || c == '.' || c == '/' || c == '*' || c == '_' || c == '\t' || c == ',' || c == ':' || c == '(' || c == ')';
}

bool digit(char c) { return c >= '0' && c <= '9'; }

/// The digit that a letter is written for, or 0.
char as_digit(char c) {
  if (c == 'O') return '0';
  if (c == 'I') return '1';
  return 0;
}

/// Can `written` stand for the code character `meant`?
bool mixed_up(char written, char meant) { return (digit(meant) && as_digit(written) == meant) || (digit(written) && as_digit(meant) == written); }

/// Depth-first reading of the parts; remembers how far it got for the sake of the message.
class Matcher {
 public:
  Matcher(std::size_t form, const FormGrammar& grammar, const std::string& text) : form_(form), grammar_(grammar), text_(text) {}

  void run() {
    FormReading reading;
    reading.form = form_;
    step(0, 0, reading);
  }

  std::vector<FormReading> readings;
  std::size_t farthest = 0;
  std::string expected;

 private:
  void stopped(std::size_t at, const std::string& what) {
    if (at >= farthest) {
      farthest = at;
      expected = what;
    }
  }

  void step(std::size_t part, std::size_t at, const FormReading& so_far) {
    if (readings.size() >= 16 || dead_.contains({part, at})) return;
    if (part == grammar_.parts.size()) {
      if (at == text_.size()) readings.push_back(so_far);
      else stopped(at, "the end of the number");
      return;
    }
    const std::size_t before = readings.size();
    const NumberPart& p = grammar_.parts[part];
    if (p.kind == NumberPart::Kind::serial) serial(part, p, at, so_far);
    else codes(part, p, at, so_far);
    if (readings.size() == before) dead_.insert({part, at});
  }

  void serial(std::size_t part, const NumberPart& p, std::size_t at, const FormReading& so_far) {
    std::string digits;
    std::vector<NumberSlip> slips;
    std::vector<std::pair<std::string, std::vector<NumberSlip>>> lengths;
    for (std::size_t i = at; i < text_.size() && digits.size() < static_cast<std::size_t>(p.max_digits); ++i) {
      const char c = text_[i];
      const char d = digit(c) ? c : as_digit(c);
      if (d == 0) break;
      if (d != c) slips.push_back({NumberSlip::Kind::digit, std::string(1, c), std::string(1, d)});
      digits += d;
      if (digits.size() >= static_cast<std::size_t>(p.min_digits)) lengths.emplace_back(digits, slips);
    }
    if (lengths.empty()) {
      stopped(at + digits.size(), "the digits of the serial number");
      return;
    }
    for (auto it = lengths.rbegin(); it != lengths.rend(); ++it) {  // the longest first
      FormReading next = so_far;
      next.parts.push_back({part, std::nullopt, it->first});
      next.serial = std::stoll(it->first);
      next.slips.insert(next.slips.end(), it->second.begin(), it->second.end());
      step(part + 1, at + it->first.size(), next);
    }
  }

  void codes(std::size_t part, const NumberPart& p, std::size_t at, const FormReading& so_far) {
    std::vector<std::string> wanted;
    for (std::size_t c = 0; c < p.codes.size(); ++c) {
      const Code& code = p.codes[c];
      wanted.push_back(code.text.empty() ? "nothing" : code.text);
      try_code(part, c, code.text, false, at, so_far);
      for (const std::string& other : code.also) try_code(part, c, other, true, at, so_far);
    }
    if (wanted.size() > 12) wanted.resize(12);
    const std::string lead = p.name.empty() ? "" : p.name + ", ";
    stopped(at, lead + (wanted.size() == 1 ? "" : "one of ") + join_and(wanted));
  }

  void try_code(std::size_t part, std::size_t c, const std::string& spelling, bool misreading, std::size_t at, const FormReading& so_far) {
    if (text_.size() - at < spelling.size()) return;
    FormReading next = so_far;
    const std::string& proper = grammar_.parts[part].codes[c].text;
    for (std::size_t i = 0; i < spelling.size(); ++i) {
      const char written = text_[at + i];
      if (written == spelling[i]) continue;
      if (!mixed_up(written, spelling[i])) return;
      next.slips.push_back({digit(spelling[i]) ? NumberSlip::Kind::digit : NumberSlip::Kind::letter, std::string(1, written), std::string(1, spelling[i])});
    }
    if (misreading) next.slips.push_back({NumberSlip::Kind::spelling, spelling, proper});
    next.parts.push_back({part, c, proper});
    step(part + 1, at + spelling.size(), next);
  }

  std::size_t form_;
  const FormGrammar& grammar_;
  const std::string& text_;
  std::set<std::pair<std::size_t, std::size_t>> dead_;  // part, place in the text: nothing reads from there, whatever came before
};

}  // namespace

BareNumber strip(std::string_view written) {
  BareNumber bare;
  const std::string capital = upper(written);
  for (std::size_t i = 0; i < capital.size(); ++i) {
    if (separator(capital[i])) continue;
    bare.text += capital[i];
    bare.offsets.push_back(i);
  }
  return bare;
}

std::vector<FormReading> read_number(std::string_view written, const std::vector<const FormGrammar*>& forms) {
  const BareNumber bare = strip(written);
  std::vector<FormReading> all;
  for (std::size_t f = 0; f < forms.size(); ++f) {
    Matcher matcher(f, *forms[f], bare.text);
    matcher.run();
    all.insert(all.end(), matcher.readings.begin(), matcher.readings.end());
  }
  std::stable_sort(all.begin(), all.end(), [](const FormReading& a, const FormReading& b) { return a.slips.size() < b.slips.size(); });
  // Where the number reads as it stands, nothing needs to be forgiven.
  if (!all.empty() && all.front().slips.empty()) std::erase_if(all, [](const FormReading& r) { return !r.slips.empty(); });
  if (all.size() > 16) all.resize(16);
  return all;
}

NumberFailure explain_failure(std::string_view written, const std::vector<const FormGrammar*>& forms) {
  const BareNumber bare = strip(written);
  NumberFailure best;
  best.offset = 0;
  std::size_t farthest = 0;
  for (std::size_t f = 0; f < forms.size(); ++f) {
    Matcher matcher(f, *forms[f], bare.text);
    matcher.run();
    if (f == 0 || matcher.farthest > farthest) {
      farthest = matcher.farthest;
      best.form = f;
      best.expected = matcher.expected;
    }
  }
  best.offset = farthest < bare.offsets.size() ? bare.offsets[farthest] : written.size();
  return best;
}

}  // namespace exworks
