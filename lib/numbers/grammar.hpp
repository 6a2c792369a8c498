#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Identity numbers as rows of parts, read from left to right with the slips that people make forgiven and reported.
namespace exworks {

struct Code {
  std::string text;               ///< upper case, without separators; "" means that the part may be left out
  std::vector<std::string> also;  ///< common misreadings, same spelling rules
  std::string means;
};

struct NumberPart {
  enum class Kind { codes, literal, serial };
  Kind kind = Kind::codes;
  std::string id, name;
  std::vector<Code> codes;  ///< of a codes part; a literal has one
  int min_digits = 0;       ///< of a serial
  int max_digits = 0;
};

struct FormGrammar {
  std::string id, name;
  std::vector<NumberPart> parts;
};

/// What one part of the grammar took from the text.
struct PartReading {
  std::size_t part = 0;
  std::optional<std::size_t> code;  ///< index into NumberPart::codes
  std::string text;                 ///< as the grammar spells it
};

/// What was forgiven in reading: a letter for a figure, a figure for a letter, or a common misreading of a whole code.
struct NumberSlip {
  enum class Kind { digit, letter, spelling };
  Kind kind = Kind::digit;      ///< of what was meant
  std::string written, meant;   ///< meant: "" for a part that may be left out
  bool operator==(const NumberSlip&) const = default;
};

/// A whole number read by one form.
struct FormReading {
  std::size_t form = 0;
  std::vector<PartReading> parts;
  std::optional<std::int64_t> serial;
  std::vector<NumberSlip> slips;
};

/// The number as it is compared: upper case, without spaces, hyphens, dots, slashes and the like.
struct BareNumber {
  std::string text;
  std::vector<std::size_t> offsets;  ///< into what was written, one for each character of `text`
};
BareNumber strip(std::string_view written);

/// Every way in which `written` can be read by one of `forms`, fewest slips first (at most 16).
std::vector<FormReading> read_number(std::string_view written, const std::vector<const FormGrammar*>& forms);

/// Why no form reads it: the form that came farthest, and where it stopped.
struct NumberFailure {
  std::size_t form = 0;
  std::size_t offset = 0;  ///< into what was written
  std::string expected;    ///< in words
};
NumberFailure explain_failure(std::string_view written, const std::vector<const FormGrammar*>& forms);

}  // namespace exworks
