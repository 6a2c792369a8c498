#include "engine/infer/simulate_number.hpp"

#include <algorithm>

#include "engine/evidence/serial.hpp"

namespace exworks {

namespace {

class NumberMaker {
 public:
  NumberMaker(const Tables& tables, std::size_t number, std::size_t route, Month month, Random& random)
      : info_(tables.numbers[number]), number_(number), route_(route), month_(month), random_(random) {}

  std::optional<NumberRead> run() {
    std::vector<double> in_use;
    double sum = 0;
    for (const FormInfo& f : info_.forms) {
      in_use.push_back(f.scope[route_] ? presence(f.from, f.to, month_) : 0);
      sum += in_use.back();
    }
    if (sum <= 0) return std::nullopt;
    const std::size_t form = random_.pick(in_use);
    NumberRead read;
    read.number = number_;
    const auto& parts = info_.forms[form].grammar.parts;
    for (std::size_t p = 0; p < parts.size(); ++p) {
      const auto text = part(form, p);
      if (!text) return std::nullopt;
      // A dash keeps the digits of a code and those of the serial apart.
      if (!text->empty()) read.text += (read.text.empty() ? "" : "-") + *text;
    }
    read.readings = read_number(read.text, info_.grammars());
    if (read.readings.empty()) return std::nullopt;
    return read;
  }

 private:
  std::optional<std::string> part(std::size_t form, std::size_t p) {
    const NumberPart& part = info_.forms[form].grammar.parts[p];
    if (part.kind == NumberPart::Kind::literal) return part.codes.front().text;
    if (part.kind == NumberPart::Kind::serial) {
      const auto serial = draw_serial(form);
      if (!serial) return std::nullopt;
      std::string digits = std::to_string(*serial);
      if (digits.size() < static_cast<std::size_t>(part.min_digits)) digits.insert(0, static_cast<std::size_t>(part.min_digits) - digits.size(), '0');
      return digits;
    }
    std::vector<double> possible;
    for (const CodeInfo& c : info_.forms[form].codes[p]) possible.push_back(!c.scope || (*c.scope)[route_] ? 1 : 0);
    if (std::count(possible.begin(), possible.end(), 1.0) == 0) std::fill(possible.begin(), possible.end(), 1.0);
    return part.codes[random_.pick(possible)].text;
  }

  /// By the numbers that each range, and each month of it, had issued by the time.
  std::optional<std::int64_t> draw_serial(std::size_t form) {
    std::vector<const RangeInfo*> ranges;
    std::vector<double> issued;
    for (const RangeInfo& r : info_.ranges) {
      const bool form_fits = r.forms.empty() || std::find(r.forms.begin(), r.forms.end(), form) != r.forms.end();
      if (!r.scope[route_] || !form_fits || r.from.first > month_ || r.to.last < month_) continue;
      ranges.push_back(&r);
      issued.push_back(numbers_in(r, month_));
    }
    if (ranges.empty()) return std::nullopt;
    const RangeInfo& r = *ranges[random_.pick(issued)];
    std::vector<double> from_month;
    for (int i = 0; i < static_cast<int>(months_of(r)); ++i) from_month.push_back(issued_in(point_of(r, r.from.first.index + i + 0.5), month_));
    const double share = (static_cast<double>(random_.pick(from_month)) + random_.unit()) / months_of(r);
    return r.first + std::min(r.last - r.first, static_cast<std::int64_t>(share * static_cast<double>(r.last - r.first + 1)));
  }

  const NumberInfo& info_;
  std::size_t number_, route_;
  Month month_;
  Random& random_;
};

}  // namespace

std::optional<NumberRead> simulate_identity_number(const Tables& tables, std::size_t route, Month month, Random& random) {
  for (std::size_t n = 0; n < tables.numbers.size(); ++n) {
    if (tables.numbers[n].identity) return NumberMaker(tables, n, route, month, random).run();
  }
  return std::nullopt;
}

}  // namespace exworks
