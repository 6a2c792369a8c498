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

/// What was forgiven in reading: a sign taken for one that looks like it, a common misreading of a whole code, or, where nothing else
/// reads, one sign too many, one missing, or two changed about.
struct NumberSlip {
  enum class Kind { digit, letter, spelling, extra, missing, swapped };
  Kind kind = Kind::digit;      ///< digit, letter: of what was meant
  std::string written, meant;   ///< meant: "" for a part that may be left out, and for what is too many
  bool operator==(const NumberSlip&) const = default;
};

/// A whole number read by one form.
struct FormReading {
  std::size_t form = 0;
  std::vector<PartReading> parts;
  std::optional<std::int64_t> serial;  ///< the first that it can be
  std::int64_t serial_to = 0;          ///< the last: `serial`, unless figures could not be read
  std::vector<NumberSlip> slips;
  bool partial = false;                ///< the text ends before the number does

  bool whole_serial() const { return serial && *serial == serial_to; }
};

/// The number as it is compared: upper case, without spaces, hyphens, dots, slashes and the like.
struct BareNumber {
  std::string text;
  std::vector<std::size_t> offsets;  ///< into what was written, one for each character of `text`
};
BareNumber strip(std::string_view written);

/// A sign that could not be read.
inline constexpr char unread_sign = '?';

/// Every way in which `written` can be read by one of `forms`, fewest slips first (at most 16). A sign that can't be read is written `?`. Where nothing
/// reads it as it stands: as the beginning of a number; else with one sign too many or missing, or two changed about.
std::vector<FormReading> read_number(std::string_view written, const std::vector<const FormGrammar*>& forms);

/// Why no form reads it: the form that came farthest, and where it stopped.
struct NumberFailure {
  std::size_t form = 0;
  std::size_t offset = 0;  ///< into what was written
  std::string expected;    ///< in words
};
NumberFailure explain_failure(std::string_view written, const std::vector<const FormGrammar*>& forms);

}  // namespace exworks
