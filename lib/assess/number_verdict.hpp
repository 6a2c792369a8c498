#pragma once
#include <optional>
#include <string>

#include "assess/feature_verdict.hpp"
#include "assess/marginals.hpp"

/// What a number says and whether it agrees with the rest, as data: words/numbers.hpp makes the sentences.
namespace exworks {

enum class Agreement { yes, no, cannot_tell };

template <>
struct Spelling<Agreement> {
  static constexpr std::string_view words[] = {"yes", "no", "cannot-tell"};
};

/// Why the serial of a number gives no window, though the pack has ranges of it.
enum class NoWindow { outside_all_ranges, no_ranges_of_this_form, of_other_vehicles };

struct NumberVerdict {
  std::size_t number = 0;                   ///< index into Tables::numbers
  std::string text;                         ///< as it was written
  NumberState state = NumberState::as_found;
  std::optional<FormReading> reading;       ///< with the fewest slips; nothing when no form reads it
  std::optional<NumberFailure> unread;      ///< then: where the best form stopped
  Agreement agrees = Agreement::cannot_tell;
  std::optional<DateSet> window;            ///< what the number by itself says of the build
  std::optional<NoWindow> no_window;
  std::optional<double> p_own;              ///< of an identity number: P(it is the vehicle's own | everything)
  /// Of a number that doesn't agree: the later change that explains it, index into Tables::changes; or the conversion, into Tables::conversions.
  std::optional<std::size_t> known_change, known_conversion;
};

/// A number part by part, and the build window that it gives by itself. `level`: of the window; `says`: of an identity number, when it is known.
NumberVerdict describe_number(const Tables& tables, const NumberRead& read, double level = Settings{}.level, const IdentityLikelihood* says = nullptr);

/// The same, and whether it agrees with everything else.
NumberVerdict judge_number(const VerdictInputs& inputs, const NumberRead& read);

}  // namespace exworks
