#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "oracle_axes.hpp"

/// Numbers of a small pack, and how a written one can be read ("Numbers" of rules/FORMAT.md).
namespace exworks::test::oracle {

using Serial = std::int64_t;

struct Code {
  std::string text;  ///< "": the part may be left out
  std::vector<std::string> also;
  std::optional<Scope> scope;
  std::optional<std::pair<std::size_t, std::size_t>> sets;  ///< feature, value
};

/// Codes, a literal text, or a serial: the one that isn't empty.
struct Part {
  std::vector<Code> codes;
  std::string literal;
  int min_digits = 0, max_digits = 0;
};

struct Form {
  Scope scope;
  std::optional<Window> from, to;
  std::vector<Part> parts;
};

struct Range {
  Serial first = 0, last = 0;
  Window from, to;
  Scope scope;
  std::vector<std::size_t> forms;  ///< empty: all
  int spread = 1;
};

struct Number {
  std::optional<std::size_t> assembly;  ///< none: this is the identity number
  std::vector<Form> forms;
  std::vector<Range> ranges;
};

struct NumberText {
  std::size_t number = 0;
  std::string text, how = "read", sure = "sure", state = "as-found";
};

/// One way of reading a number: a form, the code that each part is, and the serial.
struct Reading {
  std::size_t form = 0;
  std::vector<std::optional<std::size_t>> codes;  ///< [part]
  std::optional<Serial> serial;
  int slips = 0;
};

/// Fewest slips first, then by the order of the forms.
std::vector<Reading> readings_of(const Number& number, const std::string& written);

/// The range's numbers are issued as a bridge between its ends: P(a serial whose point is `x` was issued in the month).
long double issued_in(const Range& range, long double x, int month);

/// The ranges that hold the serial of a reading, of any scope.
std::vector<std::size_t> ranges_holding(const Number& number, const Reading& reading);

}  // namespace exworks::test::oracle
