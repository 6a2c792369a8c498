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

/// The digit that a letter is taken for in stampings and in handwriting, or 0. Common practice, no source.
char as_digit(char c) {
  switch (c) {
    case 'O':
    case 'D': return '0';
    case 'I': return '1';
    case 'Z': return '2';
    case 'S': return '5';
    case 'G': return '6';
    case 'B': return '8';
    default: return 0;
  }
}

/// Can `written` stand for the code character `meant`?
bool mixed_up(char written, char meant) {
  return (digit(meant) && as_digit(written) == meant) || (digit(written) && as_digit(meant) == written) || (written == 'U' && meant == 'V') || (written == 'V' && meant == 'U');
}

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
    std::string digits;  // with the signs that could not be read
    std::vector<NumberSlip> slips;
    std::vector<std::pair<std::string, std::vector<NumberSlip>>> lengths;
    for (std::size_t i = at; i < text_.size() && digits.size() < static_cast<std::size_t>(p.max_digits); ++i) {
      const char c = text_[i];
      const char d = digit(c) || c == unread_sign ? c : as_digit(c);
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
      next.serial = filled(it->first, '0');
      next.serial_to = filled(it->first, '9');
      next.slips.insert(next.slips.end(), it->second.begin(), it->second.end());
      step(part + 1, at + it->first.size(), next);
    }
  }

  static std::int64_t filled(std::string digits, char unread) {
    std::replace(digits.begin(), digits.end(), unread_sign, unread);
    return std::stoll(digits);
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
      if (written == spelling[i] || written == unread_sign) continue;
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

namespace {

using Forms = std::vector<const FormGrammar*>;

bool same_reading(const FormReading& a, const FormReading& b) {
  const auto same_part = [](const PartReading& x, const PartReading& y) { return x.code == y.code && x.text == y.text; };
  return a.form == b.form && std::equal(a.parts.begin(), a.parts.end(), b.parts.begin(), b.parts.end(), same_part);
}

/// A code read from its sign and from one that looks like it is one way.
void add_new(FormReading reading, std::vector<FormReading>& all) {
  if (std::none_of(all.begin(), all.end(), [&](const FormReading& x) { return same_reading(x, reading); })) all.push_back(std::move(reading));
}

/// Is it worth a second try? Neither what is too short to leave enough, nor what is no number.
bool may_be_mended(const std::string& text, std::size_t least) {
  constexpr std::size_t longest = 40;
  return text.size() >= least && text.size() <= longest && std::all_of(text.begin(), text.end(), [](char c) { return digit(c) || (c >= 'A' && c <= 'Z') || c == unread_sign; });
}

std::vector<FormReading> read_bare(const std::string& text, const Forms& forms) {
  std::vector<FormReading> all;
  for (std::size_t f = 0; f < forms.size(); ++f) {
    Matcher matcher(f, *forms[f], text);
    matcher.run();
    all.insert(all.end(), matcher.readings.begin(), matcher.readings.end());
  }
  std::stable_sort(all.begin(), all.end(), [](const FormReading& a, const FormReading& b) { return a.slips.size() < b.slips.size(); });
  // Where the number reads as it stands, nothing needs to be forgiven.
  if (!all.empty() && all.front().slips.empty()) std::erase_if(all, [](const FormReading& r) { return !r.slips.empty(); });
  std::vector<FormReading> out;
  for (FormReading& r : all) add_new(std::move(r), out);
  return out;
}

/// Does a code begin where nothing was read? It would be made up.
bool makes_up_a_code(const FormReading& r, std::size_t read) {
  std::size_t at = 0;
  for (const PartReading& part : r.parts) {
    if (part.code && !part.text.empty() && at + part.text.size() > read) return true;
    at += part.text.size();
  }
  return false;
}

/// The beginning of a number, the rest of which was not read: as many figures as the form may have.
std::vector<FormReading> read_beginning(const std::string& text, const Forms& forms) {
  constexpr std::size_t least = 3, most_unread = 9;
  std::vector<FormReading> all;
  if (!may_be_mended(text, least)) return all;
  std::string longer = text;
  for (std::size_t k = 0; k < most_unread; ++k) {
    longer += unread_sign;
    for (FormReading& r : read_bare(longer, forms)) {
      if (!r.slips.empty() || makes_up_a_code(r, text.size())) continue;
      r.partial = true;
      add_new(std::move(r), all);
    }
  }
  return all;
}

/// With one sign too many, one missing, or two changed about: none of them with a further slip.
std::vector<FormReading> read_mended(const std::string& text, const Forms& forms) {
  constexpr std::size_t least = 4;  // of a shorter one too little would be left
  std::vector<FormReading> all;
  if (!may_be_mended(text, least) || text.find(unread_sign) != std::string::npos) return all;
  const auto attempt = [&](const std::string& mended, const NumberSlip& slip) {
    for (FormReading& r : read_bare(mended, forms)) {
      if (!r.slips.empty()) continue;
      r.slips.push_back(slip);
      add_new(std::move(r), all);
    }
  };
  for (std::size_t i = 0; i + 1 < text.size(); ++i) {
    if (text[i] == text[i + 1]) continue;
    std::string swapped = text;
    std::swap(swapped[i], swapped[i + 1]);
    attempt(swapped, {NumberSlip::Kind::swapped, text.substr(i, 2), swapped.substr(i, 2)});
  }
  for (std::size_t i = 0; i < text.size(); ++i) attempt(text.substr(0, i) + text.substr(i + 1), {NumberSlip::Kind::extra, text.substr(i, 1), ""});
  for (std::size_t i = 0; i <= text.size(); ++i) attempt(text.substr(0, i) + unread_sign + text.substr(i), {NumberSlip::Kind::missing, "", text.substr(0, i) + unread_sign + text.substr(i)});
  return all;
}

}  // namespace

std::vector<FormReading> read_number(std::string_view written, const std::vector<const FormGrammar*>& forms) {
  constexpr std::size_t most = 16;
  const std::string text = strip(written).text;
  std::vector<FormReading> all = read_bare(text, forms);
  if (all.empty()) all = read_beginning(text, forms);
  if (all.empty()) all = read_mended(text, forms);
  if (all.size() > most) all.resize(most);
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
