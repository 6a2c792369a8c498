#pragma once
#include <string>
#include <vector>

#include "command.hpp"
#include "scheme/scheme.hpp"

namespace exworks::cli {

/// The classifications of the first of the folders of rules that has any; throws BadInput after printing what is wrong with one.
std::vector<Scheme> load_schemes(const Rules& rules);

/// Those named by id or group; all when nothing is named. Throws BadInput after saying which word names none.
std::vector<Scheme> choose_schemes(std::vector<Scheme> schemes, const std::vector<std::string>& wanted);

/// "2026-11-20"; throws BadInput after saying what is wrong.
CalendarDay report_day(const std::string& text);

}  // namespace exworks::cli
