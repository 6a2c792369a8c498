#pragma once
#include <string>
#include <vector>

#include "report/model/report.hpp"
#include "scheme/scheme.hpp"
#include "workshop/packs.hpp"

namespace exworks {

/// The classifications of the rules folders; of two with one id the first counts. Throws Mistakes.
std::vector<Scheme> load_schemes(const Rules& rules);

/// Those named by id or group; all when nothing is named. Throws Mistakes that say which word names none.
std::vector<Scheme> choose_schemes(std::vector<Scheme> schemes, const std::vector<std::string>& wanted);

/// Those of no one country, and those of the reader's.
std::vector<Scheme> schemes_for(std::vector<Scheme> schemes, Region reader);

/// "2026-11-20"; throws Mistakes.
CalendarDay report_day(const std::string& text);

}  // namespace exworks
