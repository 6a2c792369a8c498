#pragma once
#include <chrono>
#include <concepts>
#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>
#include <variant>

#include "base/spelling.hpp"

/// What a long run notes of itself: what was asked, how long it took, what was refused and why. Never what a vehicle or a person is
/// called, its numbers or its marks: the type lets nothing in but words of this source and figures.
namespace exworks::cli {

enum class LogLevel { debug, info, warning, error, off };

}  // namespace exworks::cli

template <>
struct exworks::Spelling<exworks::cli::LogLevel> {
  static constexpr std::string_view words[] = {"debug", "info", "warning", "error", "off"};
};

namespace exworks::cli {

/// Text that stands in the source: the compiler refuses any that is made while the program runs.
class Word {
 public:
  consteval Word(const char* text) : text_(text) {}  // NOLINT(google-explicit-constructor): a literal is one
  constexpr std::string_view text() const { return text_; }

 private:
  std::string_view text_;
};

struct LogField {
  Word name;
  std::variant<Word, std::int64_t> value;

  LogField(Word n, Word v) : name(n), value(v) {}
  template <std::integral Count>
  LogField(Word n, Count v) : name(n), value(static_cast<std::int64_t>(v)) {}
};

/// How much is noted, in which form, and where.
struct LogOptions {
  std::string level;             ///< of --log-level; "": of $EXWORKS_LOG, else the verb's own
  bool json = false;             ///< lines of JSON
  LogLevel usual = LogLevel::off;
  bool to_state_folder = false;  ///< a file that begins anew at 1 MB and keeps three before it, in place of standard error
};

/// Throws BadUsage when $EXWORKS_LOG can't be read. Without it nothing is noted.
void open_log(const LogOptions& options);

/// exworks/serve.log in $XDG_STATE_HOME, else in ~/.local/state.
std::string log_file();

void log(LogLevel level, Word what, std::initializer_list<LogField> fields = {});

/// The milliseconds since it was made.
class Stopwatch {
 public:
  std::int64_t milliseconds() const { return std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::steady_clock::now() - start_).count(); }

 private:
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

}  // namespace exworks::cli
