#include <algorithm>
#include <cstdlib>

#include "base/file.hpp"
#include "report/render/page.hpp"
#include "support.hpp"

/// What a stranger wrote into an inspection can't steer the reader's terminal, and the page keeps its width.
using namespace exworks::test;

namespace {

/// Control characters, the C1 set that some terminals obey, and marks that turn the direction of writing.
bool harmless_line(const std::string& line) {
  for (std::size_t i = 0; i < line.size(); ++i) {
    const auto byte = [&](std::size_t k) { return k < line.size() ? static_cast<unsigned char>(line[k]) : 0u; };
    if (byte(i) < 0x20 || byte(i) == 0x7F) return false;
    if (byte(i) == 0xC2 && byte(i + 1) < 0xA0) return false;
    if (byte(i) == 0xE2 && byte(i + 1) == 0x80 && byte(i + 2) >= 0xAA && byte(i + 2) <= 0xAE) return false;
  }
  return true;
}

void check_page(const std::string& text) {
  std::size_t lines = 0;
  for (std::size_t at = 0; at < text.size(); ++lines) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    const std::string line = text.substr(at, end - at);
    INFO(line);
    CHECK(harmless_line(line));
    CHECK(::exworks::columns_of(line) <= 80);
    at = end + 1;
  }
  CHECK(lines > 2);
}

std::string inspection_with_note(const std::string& note) {
  return R"(<inspection format="1" family="aldermoor-carrier" date="2026-11-20"><vehicle name="Van"><note>)" + note + R"(</note></vehicle>
<claimed by="seller" built="1953" note=")" + note + R"("/><document kind="letter" date="1953" note=")" + note + R"("/>
<number id="chassis-number" text="AC V 8205" note=")" + note + R"("/>
<observed feature="headlamp-position" value="high" note=")" + note + R"("/><observed feature="windscreen" value="two-panes" note=")" + note + R"("/>
<observed feature="grille" state="missing" note=")" + note + R"("/><observed feature="heater" state="cannot-tell" note=")" + note + "\"/></inspection>";
}

/// The report on a terminal of its own.
Run on_a_terminal(const std::string& environment) {
  const TemporaryFolder folder;
  const std::string script = folder.write("run.sh", "#!/bin/sh\nexec env " + environment + " " EXWORKS_BINARY " assess " +
                                                        (source_dir() / "sample-vehicles/carrier-assembled-from-a-kit.xml").string() + "\n").string();
  const std::string out = (folder.path() / "out").string();
  const int status = std::system(("script -qec 'sh " + script + "' /dev/null >" + out + " </dev/null 2>&1").c_str());
  Run run;
  run.exit_code = status;
  run.out = ::exworks::read_file(out);
  return run;
}

}  // namespace

TEST_CASE("Notes that would steer a terminal are shown with their commands taken out", "[command]") {
  const TemporaryFolder folder;
  const std::string hostile[] = {
      "title &#x9b;31m and &#x9d;0;owned&#x9c; and \xC2\x9B" "2J end",          // C1: the one-character forms of terminal commands
      "price \xE2\x80\xAE" "0001 for only\xE2\x80\xAC \xE2\x80\xAD" "x end",    // the direction of writing turned
      std::string(10'000, 'x') + " end",                                       // a word that no line can hold
      "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xD8\xB3\xD9\x84\xD8\xA7\xD9\x85 end",  // right-to-left letters are just letters
      "tab &#9; line &#10; return &#13; end",
  };
  for (const std::string& note : hostile) {
    const std::string job = folder.write("job.xml", inspection_with_note(note)).string();
    for (const char* more : {"", "--full "}) {
      const Run run = exworks::test::exworks("assess " + std::string(more) + job);
      INFO(run.err);
      CHECK(run.exit_code == 0);
      CHECK(run.err.empty());
      check_page(run.out);
    }
  }
}

TEST_CASE("The escape character itself is refused in an inspection, written out or as a number", "[command]") {
  const TemporaryFolder folder;
  const Run raw = exworks::test::exworks("assess " + folder.write("job.xml", inspection_with_note("\x1b[2J")).string());
  CHECK(raw.exit_code == 3);
  CHECK(raw.out.empty());
  CHECK(raw.err.find("this byte is not UTF-8 text") != std::string::npos);
  const Run numbered = exworks::test::exworks("assess " + folder.write("job.xml", inspection_with_note("&#27;[2J")).string());
  CHECK(numbered.exit_code == 3);
  CHECK(numbered.err.find("'&' does not begin one of the five built-in entities or a character number") != std::string::npos);
  for (const Run* run : {&raw, &numbered}) CHECK(run->err.find('\x1b') == std::string::npos);
}

TEST_CASE("Every sample's report keeps to 80 columns", "[command]") {
  for (const auto& entry : fs::directory_iterator(source_dir() / "sample-vehicles")) {
    if (!entry.path().filename().string().starts_with("carrier-")) continue;
    INFO(entry.path());
    for (const char* verb : {"assess ", "assess --full ", "next "}) check_page(exworks::test::exworks(verb + entry.path().string()).out);
  }
  check_page(exworks::test::exworks("pack show " + (rules_dir() / "aldermoor-carrier").string()).out);
}

TEST_CASE("Colour is for terminals alone, and can be declined", "[command]") {
  if (std::system("command -v script >/dev/null 2>&1") != 0) {
    WARN("SKIPPED: script is not installed (Debian package bsdutils)");
    return;
  }
  const std::string escape = "\x1b[";
  CHECK(on_a_terminal("-u NO_COLOR TERM=xterm").out.find(escape) != std::string::npos);
  CHECK(on_a_terminal("NO_COLOR=1 TERM=xterm").out.find(escape) == std::string::npos);
  CHECK(on_a_terminal("-u NO_COLOR TERM=dumb").out.find(escape) == std::string::npos);
  CHECK(exworks::test::exworks("assess " + (source_dir() / "sample-vehicles/carrier-assembled-from-a-kit.xml").string()).out.find(escape) == std::string::npos);
}
