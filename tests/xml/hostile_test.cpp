#include <chrono>

#include "base/file.hpp"
#include "base/random.hpp"
#include "base/text.hpp"
#include "support.hpp"

/// Files and numbers damaged at random, each time the same way: whatever comes in, what comes out is a result or a message with
/// its place. The sanitizer build of tests/run runs this too.
using namespace exworks;
using namespace exworks::test;

namespace {

std::size_t below(Random& random, std::size_t n) { return static_cast<std::size_t>(random.next() % std::max<std::size_t>(1, n)); }

/// One to four damages: a byte changed, a stretch cut out, doubled or moved, a mark of the format put in.
std::string damaged(std::string text, Random& random) {
  static const std::vector<std::string> marks{"<", ">", "\"", "&", "/", "=", "<!--", "]]>", "<![CDATA[", "&#x1b;", "&#x9b;", "..", "*", "!", "\xEF\xBB\xBF", "\xFF", "\xE2\x80\xAE",
                                              std::string(1, '\0'), "\n", "-1", "1e308", "9999999999999999999", "0000-00", "other", "<fact/>", "<pack>", "</pack>", "source=\"\""};
  for (std::size_t n = 1 + below(random, 4); n > 0; --n) {
    const std::size_t at = below(random, text.size()), length = below(random, 1 + below(random, 60));
    const std::string stretch = text.substr(std::min(at, text.size()), length);
    switch (below(random, 5)) {
      case 0:
        if (!text.empty()) text[at] = static_cast<char>(random.next() & 0xFFu);
        break;
      case 1: text.erase(std::min(at, text.size()), length); break;
      case 2: text.insert(std::min(at, text.size()), stretch); break;
      case 3: text.insert(below(random, text.size() + 1), stretch); break;
      default: text.insert(std::min(at, text.size()), marks[below(random, marks.size())]);
    }
  }
  return text;
}

/// Every message is whole, and its place lies in the file as it was given.
void check_messages(const Diagnostics& d, const std::vector<std::string>& texts) {
  std::size_t lines = 0;
  for (const std::string& t : texts) lines = std::max(lines, static_cast<std::size_t>(std::count(t.begin(), t.end(), '\n')) + 1);
  for (const Diagnostic& x : d.all()) {
    INFO(to_text(x));
    CHECK_FALSE(x.what.empty());
    CHECK_FALSE(x.remedy.empty());
    CHECK_FALSE(x.place.file.empty());
    if (x.severity == Severity::error) CHECK((x.place.line >= 1 && static_cast<std::size_t>(x.place.line) <= lines && x.place.column >= 1));
  }
}

}  // namespace

TEST_CASE("A pack damaged at random is read or refused with a place, whatever the damage", "[hostile]") {
  const std::string main_file = read_file(rules_dir() / "aldermoor-carrier/pack.xml");
  const std::string features = read_file(rules_dir() / "aldermoor-carrier/features.xml");
  const TemporaryFolder folder;
  fs::copy(rules_dir() / "common", folder.path() / "common", fs::copy_options::recursive);
  Random random(19510301);
  std::size_t passed = 0, refused = 0;
  for (int round = 0; round < 700; ++round) {
    const bool first = round % 2 == 0;
    const std::vector<std::string> texts{first ? damaged(main_file, random) : main_file, first ? features : damaged(features, random)};
    folder.write("aldermoor-carrier/pack.xml", texts[0]);
    folder.write("aldermoor-carrier/features.xml", texts[1]);
    INFO("round " << round);
    Diagnostics d;
    const auto pack = read_pack(folder.path() / "aldermoor-carrier", d);
    if (pack) check_pack(*pack, d);
    CHECK((pack.has_value() || d.has_errors()));
    check_messages(d, texts);
    ++(d.has_errors() ? refused : passed);
    if (pack && !d.has_errors() && round % 20 == 0) CHECK(compile(*pack, d)->builds() > 0);
  }
  CHECK(refused > 100);  // the damage is real
  CHECK(passed > 10);    // and not always deadly: much of it falls into comments and names
}

TEST_CASE("An inspection damaged at random is assessed or refused with a place", "[hostile]") {
  const std::string sample = read_file(source_dir() / "sample-vehicles/carrier-assembled-from-a-kit.xml");
  const Tables& tables = pack("aldermoor-carrier");
  Random random(19610301);
  std::size_t assessed = 0, refused = 0;
  for (int round = 0; round < 700; ++round) {
    const std::string text = damaged(sample, random);
    INFO("round " << round);
    Diagnostics d;
    const auto inspection = read_inspection(text, "job.xml", d);
    CHECK(inspection.has_value() == !d.has_errors());
    if (inspection) {
      const Evidence evidence = bind(tables, *inspection, d);
      CHECK(evidence.seen.size() <= inspection->observations.size() + 2 * inspection->numbers.size());
      if (!d.has_errors() && round % 20 == 0) CHECK(assess(tables, *inspection, Settings{}, Given{}, d).has_value());
    }
    check_messages(d, {text});
    ++(d.has_errors() ? refused : assessed);
  }
  CHECK(refused > 100);
  CHECK(assessed > 10);
}

TEST_CASE("A file in one long line is told its mistakes at the right columns, in a second and not in minutes", "[hostile]") {
  const std::string one = "<observed feature='\u00e9\u00e9' valu='x'/>";  // counted in characters, not in bytes
  std::string text = "<inspection format='1'>";
  const std::size_t head = text.size(), characters = one.size() - 2;
  constexpr std::size_t times = 30'000;
  for (std::size_t i = 0; i < times; ++i) text += one;
  Diagnostics d;
  const auto begun = std::chrono::steady_clock::now();
  CHECK_FALSE(read_inspection(text + "</inspection>", "job.xml", d));
  CHECK(std::chrono::steady_clock::now() - begun < std::chrono::seconds(20));
  std::vector<int> columns;
  for (const Diagnostic& m : d.sorted()) {
    if (m.what == "'observed' has no attribute 'valu'") columns.push_back(m.place.column);
  }
  REQUIRE(columns.size() == times);
  const int first = static_cast<int>(head + one.find("valu") - 2) + 1;
  for (const std::size_t i : {std::size_t{0}, std::size_t{1}, std::size_t{5000}, times - 1}) CHECK(columns[i] == first + static_cast<int>(i * characters));
}

TEST_CASE("A number damaged at random is read, or refused at a character of its own", "[hostile]") {
  const Tables& tables = pack("aldermoor-carrier");
  Random random(19680930);
  std::size_t read = 0, refused = 0;
  for (int round = 0; round < 700; ++round) {
    const std::string text = damaged(round % 2 == 0 ? "AC2 V 31205 K" : "10 H 4521", random);
    INFO("round " << round << ": " << text);
    for (const NumberInfo& number : tables.numbers) {
      const auto readings = read_number(text, number.grammars());
      CHECK(readings.size() <= 16);
      for (const FormReading& r : readings) CHECK(r.form < number.forms.size());
      ++(readings.empty() ? refused : read);
      if (!readings.empty()) continue;
      const NumberFailure why = explain_failure(text, number.grammars());
      CHECK(why.offset <= text.size());
      CHECK(why.form < number.forms.size());
      CHECK_FALSE(why.expected.empty());
    }
  }
  CHECK(refused > 100);
  CHECK(read > 10);
}
