#include "base/file.hpp"
#include "support.hpp"

/// Slips in a table of facts, as `exworks pack from-table` tells them: the cell at fault, what is wrong, what to do. The spot is
/// marked with @ in each line, so that its column is counted here and not by the reader.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::vector<std::string> faultless{
    "feature,value,variants,markets,from,to,fitted,source",
    "market,Home market,,,,,,",
    "market,north: The Northland,,,,,,",
    "variant,Series 1 van,,,1951-03,1955-06,,Parts list | Aldermoor Works (invented) | 1957",
    "variant,s2: Series 2 van,,home-market,1955-07,1961-03,,Parts list | Aldermoor Works (invented) | 1957",
    "Headlamps,low,series-1-van,,,,standard,Parts list | Aldermoor Works (invented) | 1957",
    "Headlamps,low,s2,,,1958-12,standard,trade",
    "Headlamps,high,s2,,1958-12,,standard,trade",
    "Heater,none,,,,,standard,trade",
    "Heater,fitted,,,1953,,option 0.2,memory",
};

/// What was written in place of the line, with @ at the spot of the fault.
struct Slip {
  const char* kind;
  std::size_t line;
  std::string is, told;
};

const std::string head_help = "the first line must be feature,value,variants,markets,from,to,fitted,source";

const std::vector<Slip> slips{
    {"semicolons instead of commas", 1,
     "@feature;value;variants;markets;from;to;fitted;source",
     "the cells are divided by semicolons; save the table as CSV with commas"},
    {"tabs instead of commas", 1,
     "@feature\tvalue\tvariants\tmarkets\tfrom\tto\tfitted\tsource",
     "the cells are divided by tabs; save the table as CSV with commas"},
    {"a head misspelt", 1,
     "feature,@valeu,variants,markets,from,to,fitted,source",
     std::string("the head of column 2 is not 'value'; ") + head_help},
    {"two heads swapped", 1,
     "feature,value,@markets,variants,from,to,fitted,source",
     std::string("the head of column 3 is not 'variants'; ") + head_help},
    {"the last head missing", 1,
     "feature,value,variants,markets,from,to,@fitted",
     std::string("the head of column 8 is not 'source'; ") + head_help},
    {"a column too many", 1,
     "feature,value,variants,markets,from,to,fitted,source,@note",
     std::string("a column too many; ") + head_help},
    {"no head at all", 1,
     "@market,Home market,,,,,,",
     std::string("the head of column 1 is not 'feature'; ") + head_help},
    {"not UTF-8", 9,
     "Heater,n@\xFF" "ne,,,,,standard,trade",
     "this byte is no UTF-8 text; save the table as CSV in UTF-8"},
    {"a control character", 9,
     "Heater,n@\x01 one,,,,,standard,trade",
     "this byte is no UTF-8 text; save the table as CSV in UTF-8"},
    {"a quote that is never closed", 10,
     "Heater,fitted,,,1953,,option 0.2,@\"memory",
     "this cell's quote is never closed; add a quote at the end of the cell"},
    {"a quote inside a cell", 9,
     "Heater,no@\"ne,,,,,standard,trade",
     "a quote inside a cell that doesn't begin with one; put the whole cell in quotes and double this one"},
    {"text after a closing quote", 9,
     "Heater,\"none\"@x,,,,,standard,trade",
     "text follows the closing quote of a cell; double the quotes inside a cell, or put a comma here"},
    {"a cell too few", 9,
     "@Heater,none,,,,standard,trade",
     "this row has 7 cells instead of 8; write one cell for each column of the first line; text with a comma stands in quotes"},
    {"a comma outside quotes", 9,
     "@Heater,none, or taken out,,,,,standard,trade",
     "this row has 9 cells instead of 8; write one cell for each column of the first line; text with a comma stands in quotes"},
    {"a variant named twice", 5,
     "variant,@Series 1 van,,home-market,1955-07,1961-03,,trade",
     "variant 'series-1-van' has a row already, in line 4; give this one another name"},
    {"a market named twice", 3,
     "market,@Home market,,,,,,",
     "market 'home-market' has a row already, in line 2; give this one another name"},
    {"a variant without a beginning", 4,
     "variant,Series 1 van,,,@,1955-06,,trade",
     "variant 'series-1-van' has no window; write its first and last month in from and to"},
    {"a variant without an end", 4,
     "variant,Series 1 van,,,1951-03,@,,trade",
     "variant 'series-1-van' has no window; write its first and last month in from and to"},
    {"a variant whose window is open", 5,
     "variant,s2: Series 2 van,,home-market,@..,1961-03,,trade",
     "a variant's 'from' can't be open; write the month, or a span such as [1950..1952]"},
    {"a variant that ends before it begins", 5,
     "variant,s2: Series 2 van,,home-market,1961-03,@1955-07,,trade",
     "variant 's2' ends before it begins; swap or correct the dates"},
    {"a variant's name without a letter", 5,
     "variant,@+++,,home-market,1955-07,1961-03,,trade",
     "'+++' has no letter or digit to make an id from; write the name of the variant"},
    {"a variant without a source", 5,
     "variant,s2: Series 2 van,,home-market,1955-07,1961-03,,@",
     "the source is empty; write title | publisher | year, or trade, or memory"},
    {"a variant sold in an unknown market", 5,
     "variant,s2: Series 2 van,,@home-markt,1955-07,1961-03,,trade",
     "there is no market 'home-markt'; did you mean 'home-market'?"},
    {"a variant said to be fitted", 5,
     "variant,s2: Series 2 van,,home-market,1955-07,1961-03,@standard,trade",
     "the row of a variant says nothing under 'fitted'; leave this cell empty"},
    {"a market without a name", 3,
     "market,@,,,,,,",
     "the market is empty; write the name of the market"},
    {"a market with a date", 3,
     "market,north: The Northland,,,@1953,,,",
     "the row of a market says nothing under 'from'; leave this cell empty"},
    {"a capital that a spreadsheet put there", 3,
     "@Market,north: The Northland,,,,,,",
     "'Market' would be a feature here; write market or variant, in small letters, in the row that names one"},
    {"no feature", 9,
     "@,none,,,,,standard,trade",
     "the feature is empty; write the name of the feature"},
    {"a feature without a letter", 9,
     "@?,none,,,,,standard,trade",
     "'?' has no letter or digit to make an id from; write the name of the feature"},
    {"no value", 9,
     "Heater,@,,,,,standard,trade",
     "the value is empty; write the name of the value"},
    {"the value that every feature has", 9,
     "Heater,@other,,,,,standard,trade",
     "'other' is every feature's last value already; use another id"},
    {"a feature written in two ways", 10,
     "@heater,fitted,,,1953,,option 0.2,memory",
     "feature 'heater' is called 'Heater' in line 9; write the same name in every row"},
    {"a value written in two ways", 7,
     "Headlamps,@LOW,s2,,,1958-12,standard,trade",
     "'LOW' is written 'low' above; write the same name in every row"},
    {"a thirteenth month", 10,
     "Heater,fitted,,,@1953-13,,option 0.2,memory",
     "'1953-13' is no date; a date is written 1951-01, 1951, 195X, 1951-22, 1951-01~ or [1950-10..1951-01]"},
    {"a date with the month first", 10,
     "Heater,fitted,,,@03/1953,,option 0.2,memory",
     "'03/1953' is no date; both ends of a span are dates such as 1951-01 or 1951"},
    {"two years in short", 7,
     "Headlamps,low,s2,,,@1957-58,standard,trade",
     "'1957-58' is no date; a date is written 1951-01, 1951, 195X, 1951-22, 1951-01~ or [1950-10..1951-01]"},
    {"a word for fitted that is none", 9,
     "Heater,none,,,,,@usual,trade",
     "'usual' doesn't say how it was fitted; write standard, option 0.2 or dealer 0.1"},
    {"a word too many under fitted", 10,
     "Heater,fitted,,,1953,,@option about 0.2,memory",
     "'option about 0.2' doesn't say how it was fitted; write standard, option 0.2 or dealer 0.1"},
    {"an option without a share", 10,
     "Heater,fitted,,,1953,,@option,memory",
     "how many had this option is missing; write option 0.2 for one vehicle in five"},
    {"a dealer's fitting without a share", 10,
     "Heater,fitted,,,1953,,@dealer,memory",
     "how many had this dealer is missing; write dealer 0.2 for one vehicle in five"},
    {"a share in per cent", 10,
     "Heater,fitted,,,1953,,@option 20,memory",
     "'20' is no share; write a figure above 0 and up to 1, such as 0.2 for one vehicle in five"},
    {"a share with a sign", 10,
     "Heater,fitted,,,1953,,@dealer 20%,memory",
     "'20%' is no share; write a figure above 0 and up to 1, such as 0.2 for one vehicle in five"},
    {"a share of nought", 10,
     "Heater,fitted,,,1953,,@option 0,memory",
     "'0' is no share; write a figure above 0 and up to 1, such as 0.2 for one vehicle in five"},
    {"a share too small to count", 10,
     "Heater,fitted,,,1953,,@option 0.00001,memory",
     "'0.00001' is no share; write a figure above 0 and up to 1, such as 0.2 for one vehicle in five"},
    {"no source", 9,
     "Heater,none,,,,,standard,@",
     "the source is empty; write title | publisher | year, or trade, or memory"},
    {"a title alone", 9,
     "Heater,none,,,,,standard,@Parts list",
     "'Parts list' doesn't say who published it and when; write title | publisher | year or URL; or trade, or memory"},
    {"a source of five parts", 9,
     "Heater,none,,,,,standard,@Parts list | Works | 1957 | p. 3 | top",
     "'Parts list | Works | 1957 | p. 3 | top' doesn't say who published it and when; write title | publisher | year or URL; or trade, or memory"},
    {"an unknown variant", 7,
     "Headlamps,low,@s3,,,1958-12,standard,trade",
     "there is no variant 's3'; did you mean 's2'?"},
    {"an unknown market", 7,
     "Headlamps,low,s2,@nort,,1958-12,standard,trade",
     "there is no market 'nort'; did you mean 'north'?"},
    {"an unknown market taken away", 7,
     "Headlamps,low,s2,@!nroth,,1958-12,standard,trade",
     "there is no market 'nroth'; did you mean 'north'?"},
    {"variants divided by a comma", 6,
     "Headlamps,low,@\"series-1-van,s2\",,,,standard,trade",
     "there is no variant 'series-1-van,s2'; did you mean 'series-1-van'?"},
    {"a fact that ends before it begins", 7,
     "Headlamps,low,s2,,1959-01,@1958-01,standard,trade",
     "this fact ends (Jan 1958) before it begins (Jan 1959); swap or correct the dates"},
    {"a fact after the last vehicle", 10,
     "@Heater,fitted,,,1971,,option 0.2,memory",
     "this fact's period is outside the window of its variants (Mar 1951 to Mar 1961); correct the dates or the scope"},
    {"a fact of vehicles that were never sold there", 7,
     "@Headlamps,low,s2,north,,1958-12,standard,trade",
     "no vehicle was ever built in the scope of this 'fact'; check that these variants list the markets and plants, and that the plants serve the markets"},
    {"two standard fittings at a time", 8,
     "@Headlamps,high,s2,,1957-12,,standard,trade",
     "standard facts 'low' and 'high' of feature 'headlamps' are both in force in Jan 1958 (s2, home-market); end one with the edge that begins the other, narrow a scope, or give shares; the other is at facts.csv:7:1"},
};

std::string joined(const std::vector<std::string>& lines) {
  std::string out;
  for (const std::string& line : lines) out += line + "\n";
  return out;
}

/// Runs the command on the table; its messages, with the table called facts.csv. A table at fault leaves nothing behind.
std::string told_of(const std::string& csv, int exit_code) {
  TemporaryFolder folder;
  const std::string file = folder.write("facts.csv", csv).string();
  const Run run = test::exworks("pack from-table '" + file + "' -o '" + (folder.path() / "trial").string() + "'");
  CHECK(run.exit_code == exit_code);
  CHECK(fs::exists(folder.path() / "trial") == (exit_code == 0));
  CHECK(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator()) == (exit_code == 0 ? 2 : 1));
  std::string told = run.err;
  for (std::size_t at = told.find(file); at != std::string::npos; at = told.find(file)) told.replace(at, file.size(), "facts.csv");
  return told;
}

}  // namespace

TEST_CASE("A faultless table is passed without a word", "[cli][author]") { CHECK(told_of(joined(faultless), 0).empty()); }

TEST_CASE("The author of a table is told which cell is at fault, what is wrong and what to do", "[cli][author]") {
  CHECK(slips.size() >= 40);
  for (const Slip& s : slips) {
    INFO(s.kind);
    const std::size_t spot = s.is.find('@');
    REQUIRE(spot != std::string::npos);
    auto lines = faultless;
    lines[s.line - 1] = std::string(s.is).erase(spot, 1);
    CHECK(told_of(joined(lines), 3) == "facts.csv:" + std::to_string(s.line) + ":" + std::to_string(spot + 1) + ": " + s.told + "\n");
  }
}

TEST_CASE("What a whole table lacks is told at its beginning", "[cli][author]") {
  CHECK(told_of("", 3) == "facts.csv:1:1: the table is empty; begin it with the line feature,value,variants,markets,from,to,fitted,source\n");
  CHECK(told_of(joined({faultless.begin(), faultless.begin() + 5}), 3) == "facts.csv:1:1: the table has no fact; add a row such as: Grille,mesh,,,,,standard,trade\n");
  CHECK(told_of(joined({faultless[0], faultless[8]}), 3) ==
        "facts.csv:1:1: the table names no variant; add a row such as: variant,Series 1 van,,,1951-03,1955-06,,Parts list | Works | 1957\n");
  // The line ends of an old Macintosh are told once, where the first line ends.
  std::string old = joined(faultless);
  for (char& c : old) c = c == '\n' ? '\r' : c;
  CHECK(told_of(old, 3) == "facts.csv:1:53: a line ends in the old Macintosh way; save the table as CSV with LF or CR LF line ends\n");
}

TEST_CASE("Two mistakes in a table are told in one run", "[cli][author]") {
  auto lines = faultless;
  lines[4] = "variant,s2: Series 2 van,,home-market,1955-13,1961-03,,trade";
  lines[8] = "Heater,none,,,,,usual,trade";
  const std::string told = told_of(joined(lines), 3);
  CHECK(told.find("facts.csv:5:39: '1955-13' is no date") == 0);
  CHECK(told.find("\nfacts.csv:9:17: 'usual' doesn't say") != std::string::npos);
}
