#include <algorithm>
#include <cctype>

#include "oracle_numbers.hpp"

/// Every way of reading a number: the text is cut at every place, for each form.
namespace exworks::test::oracle {

namespace {

std::string without_separators(const std::string& written) {
  std::string out;
  for (const char c : written) {
    if (c == ' ' || c == '-' || c == '.' || c == '/') continue;
    out += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  }
  return out;
}

bool confused(char a, char b) {
  const auto pair = [&](char x, char y) { return (a == x && b == y) || (a == y && b == x); };
  return pair('O', '0') || pair('D', '0') || pair('I', '1') || pair('Z', '2') || pair('S', '5') || pair('G', '6') || pair('B', '8') || pair('U', 'V');
}

/// Slips in writing `due` as `written`; none when it can't be.
std::optional<int> slips_between(const std::string& due, const std::string& written) {
  if (due.size() != written.size()) return std::nullopt;
  int out = 0;
  for (std::size_t i = 0; i < due.size(); ++i) {
    if (due[i] == written[i]) continue;
    if (!confused(due[i], written[i])) return std::nullopt;
    ++out;
  }
  return out;
}

/// As the code itself, or as one of the common misreadings, which is one slip more: whichever takes the fewest.
std::optional<int> slips_of_code(const Code& code, const std::string& written) {
  std::optional<int> out = slips_between(code.text, written);
  for (const std::string& also : code.also) {
    const std::optional<int> slips = slips_between(also, written);
    if (slips && (!out || *slips + 1 < *out)) out = *slips + 1;
  }
  return out;
}

class Reader {
 public:
  Reader(const Form& form, std::size_t index, std::string text, std::vector<Reading>& out)
      : form_(form), text_(std::move(text)), out_(out) {
    reading_.form = index;
    reading_.codes.resize(form.parts.size());
    part(0, 0);
  }

 private:
  void part(std::size_t p, std::size_t at) {
    if (p == form_.parts.size()) {
      if (at == text_.size()) out_.push_back(reading_);
      return;
    }
    for (std::size_t length = text_.size() - at + 1; length-- > 0;) take(p, at, text_.substr(at, length));
  }

  void take(std::size_t p, std::size_t at, const std::string& piece) {
    const Part& here = form_.parts[p];
    const Reading before = reading_;
    const auto next = [&](int slips) {
      reading_.slips += slips;
      part(p + 1, at + piece.size());
      reading_ = before;
    };
    for (std::size_t c = 0; c < here.codes.size(); ++c) {
      const std::optional<int> slips = slips_of_code(here.codes[c], piece);
      if (!slips) continue;
      reading_.codes[p] = c;
      next(*slips);
    }
    if (!here.literal.empty()) {
      if (const auto slips = slips_between(here.literal, piece)) next(*slips);
    }
    if (here.max_digits > 0) serial(here, piece, next);
  }

  template <typename Next>
  void serial(const Part& here, const std::string& piece, const Next& next) {
    const int length = static_cast<int>(piece.size());
    if (length < here.min_digits || length > here.max_digits) return;
    Serial value = 0;
    int slips = 0;
    for (const char c : piece) {
      char digit = c;
      for (char d = '0'; d <= '9' && !(c >= '0' && c <= '9'); ++d) digit = confused(c, d) ? d : digit;
      if (digit < '0' || digit > '9') return;
      slips += digit != c;
      value = value * 10 + (digit - '0');
    }
    reading_.serial = value;
    next(slips);
  }

  const Form& form_;
  const std::string text_;
  std::vector<Reading>& out_;
  Reading reading_;
};

}  // namespace

std::vector<Reading> readings_of(const Number& number, const std::string& written) {
  std::vector<Reading> out;
  for (std::size_t f = 0; f < number.forms.size(); ++f) Reader(number.forms[f], f, without_separators(written), out);
  std::stable_sort(out.begin(), out.end(), [](const Reading& a, const Reading& b) { return a.slips < b.slips; });
  // Nothing is forgiven where it can be read as it stands.
  if (!out.empty() && out.front().slips == 0) std::erase_if(out, [](const Reading& r) { return r.slips > 0; });
  // Two ways to the same codes and serial are one, with the fewest slips.
  std::vector<Reading> apart;
  for (const Reading& r : out) {
    const auto same = [&](const Reading& x) { return x.form == r.form && x.codes == r.codes && x.serial == r.serial; };
    if (std::none_of(apart.begin(), apart.end(), same)) apart.push_back(r);
  }
  out = apart;
  return out;
}

std::vector<std::size_t> ranges_holding(const Number& number, const Reading& reading) {
  std::vector<std::size_t> out;
  for (std::size_t r = 0; r < number.ranges.size() && reading.serial; ++r) {
    const Range& range = number.ranges[r];
    const bool of_form =
        range.forms.empty() || std::find(range.forms.begin(), range.forms.end(), reading.form) != range.forms.end();
    if (of_form && *reading.serial >= range.first && *reading.serial <= range.last) out.push_back(r);
  }
  return out;
}

}  // namespace exworks::test::oracle
