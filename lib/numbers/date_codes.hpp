#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"

/// Date codes on parts, read by published rule: tyres, glass, castings, belts, lamps, approval marks, registration marks.
/// Each reader is pure and keeps every date that the rule allows; none of them dates the vehicle, only the part.
namespace exworks {

using Day = std::chrono::year_month_day;

Day day_of(int year, int month, int day);
/// "1968-02-29"
std::string to_iso(const Day& day);
/// Whole years from one day to another, as ages are counted.
int full_years(const Day& from, const Day& to);

/// One span of days that a code can stand for, both ends included.
struct CodeCandidate {
  Day first, last;
  std::string words;  ///< "week 43 of 1979"
  std::string why;    ///< when one reading of several: which
};

struct CodeFault {
  std::string what, remedy;
};

enum class CodeCertainty {
  published,  ///< in law, or in several published pages
  copy,       ///< one page, or answers on one site
  derived,    ///< follows from a published rule
  no_rule     ///< nothing published turns this into a date
};

/// What a code says. No candidates: it gives no date, and `faults` or `remarks` say why.
struct CodeReading {
  std::string kind, text, source;
  CodeCertainty certainty = CodeCertainty::published;
  std::vector<CodeCandidate> candidates;
  std::vector<CodeFault> faults;
  std::vector<std::string> remarks;
  bool earliest_only = false;  ///< only the first day of a candidate counts: no limit follows for the latest
  bool conflict = false;       ///< published readings disagree; both are among the candidates
};

/// Calendar years, both included. A code with one year digit needs them: the decade comes from elsewhere.
struct Years {
  int first = 0, last = 0;
};

/// The candidates that touch these years.
std::vector<CodeCandidate> within(const CodeReading& reading, Years years);

// ---- tyres (49 CFR 574) ----

/// The last three or four digits of a tyre's DOT number; `triangle` when one follows three digits. Dates after `today`, where it is
/// known, are refused.
CodeReading read_tyre_code(std::string_view code, bool triangle, const std::optional<Day>& today);

enum class TyreUse { other, goods_front_steered, bus_front_steered, minibus_single };
enum class TyreAge { no_rule, allowed, too_old, undetermined };
/// Great Britain since 1 February 2021: no tyre over ten years old on the front steered axles of goods vehicles over 3.5 t, buses and
/// coaches, nor on single wheels of minibuses. A tyre without a date fails there.
TyreAge gb_tyre_age(const CodeReading& tyre, TyreUse use, const Day& test);

// ---- glass ----

enum class TriplexWord { toughened, laminated };
enum class GlassEra { unknown, before_war, after_war };
/// What is seen on a Triplex mark up to about 1969.
struct TriplexMark {
  TriplexWord word = TriplexWord::toughened;
  GlassEra era = GlassEra::unknown;
  char year_letter = '\0';       ///< letter with the dot below; '\0' for none
  int occurrence = 0;            ///< 1 or 2 for a letter that the word has twice; 0 when not known
  bool right_of_word = false;    ///< the dot stands to the right of the last letter
  std::string quarter_letters{}; ///< letters of TRIPLEX with a dot above; several dots are the style from about 1969
  bool kite_mark = false;        ///< standard mark below the logo
};
CodeReading read_triplex(const TriplexMark& mark);

/// Laminated Triplex from before the war, without the word: the figure 0 to 9 under the broken circle, opposite the P.
CodeReading read_triplex_figure(int figure);

/// A numeral with dots on modern glass. When the dots have two sizes: small and large ones after the numeral.
struct NumeralMark {
  int figure = 0;
  int dots_before = 0;
  int dots_after = 0;
  int large_after = 0;  ///< how many of `dots_after` are large
};
CodeReading read_numeral_glass(const NumeralMark& mark, Years years);

// ---- castings ----

/// US Ford: year digit, month letter A to M without I, day: "6B10". Cast in, it is the day of the foundry.
CodeReading read_ford_casting(std::string_view code, Years years);
/// A ring of dots with a pointer on a casting. Never a date.
CodeReading read_foundry_clock();

// ---- belts, fluid, lamps ----

enum class BeltAge { may_be_original, replaced, cannot_tell };
/// The year on a seat-belt label (US standard 209) against the year the vehicle was built.
BeltAge judge_belt_label(std::optional<int> label_year, int built);
CodeReading read_belt_label(int label_year);

/// Brake fluid: what its colour allows. It never gives a date.
CodeReading read_brake_fluid(std::string_view colour);

/// The number on a US sealed-beam lamp: the year it first appeared.
CodeReading read_sealed_beam(std::string_view number);

// ---- marks of the law ----

/// A mark can't be older than its rule: "R10", "R11" in a circle E, or "76/114".
CodeReading read_approval_mark(std::string_view rule);

/// A registration mark of Great Britain: the earliest date it can have been given to a vehicle.
CodeReading read_gb_mark(std::string_view mark);

// ---- against the build ----

/// Months in which the vehicle was built, as far as known; both included.
struct BuildWindow {
  Month first, last;
};

/// How a part's date lies to the build.
enum class Timing {
  after,        ///< made after the vehicle left the works: a later part
  supports,     ///< made in the months before, or in the window: may be the first fitted
  long_before,  ///< made long before: old stock, or from an older vehicle
  ambiguous,    ///< the readings disagree, and all are kept
  says_nothing
};

/// Judgement, common practice, no source: how old a part may be and still support the build. Gaps differ by maker and part.
struct TimingLimits {
  int months_before = 12;
};

struct CodeTiming {
  Timing overall = Timing::says_nothing;
  std::vector<Timing> each;  ///< by candidate
};

CodeTiming compare_with_build(const CodeReading& reading, const BuildWindow& built, const TimingLimits& limits = {});

}  // namespace exworks
