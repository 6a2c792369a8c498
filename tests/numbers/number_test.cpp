#include "numbers/grammar.hpp"

#include <catch2/catch.hpp>

#include "words/numbers.hpp"

/// Reading numbers as rules/FORMAT.md, "Numbers", says: spaces, hyphens, dots and slashes are left out or added at will, O/0
/// and I/1 are forgiven and reported, `also` lists misreadings, text="" is a part that may be left out.
using namespace exworks;

namespace {

Code code(std::string text, std::vector<std::string> also = {}) { return {std::move(text), std::move(also), ""}; }

NumberPart codes(std::string name, std::vector<Code> list) {
  NumberPart part;
  part.name = std::move(name);
  part.codes = std::move(list);
  return part;
}

NumberPart literal(std::string text) {
  NumberPart part;
  part.kind = NumberPart::Kind::literal;
  part.codes = {code(std::move(text))};
  return part;
}

NumberPart serial(int fewest, int most) {
  NumberPart part;
  part.kind = NumberPart::Kind::serial;
  part.min_digits = fewest;
  part.max_digits = most;
  return part;
}

/// "AC", a body letter, four or five digits, perhaps L or K.
const FormGrammar carrier{"carrier", "Carrier form", {literal("AC"), codes("Body letter", {code("V", {"U"}), code("P", {"R"})}), serial(4, 5), codes("Last letter", {code(""), code("L"), code("K")})}};

std::vector<std::string> words(const FormReading& r) {
  std::vector<std::string> out;
  for (const NumberSlip& s : r.slips) out.push_back(slip_words(s));
  return out;
}

std::vector<FormReading> read(const std::string& text) { return read_number(text, {&carrier}); }

FormReading only(const std::string& text) {
  INFO(text);
  const auto readings = read(text);
  REQUIRE(readings.size() == 1);
  return readings.front();
}

/// What of the text the message points at, and what it wants there.
std::string failure(const std::string& text, const std::vector<const FormGrammar*>& forms = {&carrier}) {
  INFO(text);
  const NumberFailure f = explain_failure(text, forms);
  return "'" + text.substr(f.offset) + "' " + f.expected;
}

}  // namespace

TEST_CASE("Spaces, hyphens, dots, slashes and small letters are the writer's own affair", "[numbers]") {
  for (const char* text : {"ACV8205", "AC V 8205", "ac v 8205", "AC/V-8205", "A.C.V.8205", "  AC V  8 2 0 5 ", "*AC V 8205*", "(AC) V: 8205", "AC_V\t8205"}) {
    const FormReading r = only(text);
    CHECK(r.serial == 8205);
    CHECK(r.slips.empty());
  }
}

TEST_CASE("Letters that stand for a nought or a one are forgiven in a serial, and each is reported", "[numbers]") {
  const FormReading nought = only("AC V 82O5");
  CHECK(nought.serial == 8205);
  CHECK(words(nought) == std::vector<std::string>{"'O' read as the digit 0"});
  const FormReading both = only("AC P I3O7");
  CHECK(both.serial == 1307);
  CHECK(words(both) == std::vector<std::string>{"'I' read as the digit 1", "'O' read as the digit 0"});
}

TEST_CASE("Figures that stand for a letter are forgiven in a code, and reported", "[numbers]") {
  const FormGrammar works{"works", "Works", {codes("Works", {code("OX"), code("I")}), serial(3, 3)}};
  const auto ox = read_number("0X 123", {&works});
  REQUIRE(ox.size() == 1);
  CHECK(ox.front().parts.front().text == "OX");
  CHECK(words(ox.front()) == std::vector<std::string>{"'0' read as the letter O"});
  const auto one = read_number("1 123", {&works});
  REQUIRE(one.size() == 1);
  CHECK(one.front().parts.front().text == "I");
  CHECK(words(one.front()) == std::vector<std::string>{"'1' read as the letter I"});
}

TEST_CASE("Signs that look alike on a worn plate are forgiven, others are not", "[numbers]") {
  // Common practice, no source: D and O for 0, I for 1, Z for 2, S for 5, G for 6, B for 8, U for V, and back.
  const std::pair<const char*, std::int64_t> alike[] = {{"AC V 8B05", 8805}, {"AC V 820S", 8205}, {"AC V Z205", 2205}, {"AC V 82D5", 8205}, {"AC V GG05", 6605}};
  for (const auto& [text, serial] : alike) {
    INFO(text);
    CHECK(only(text).serial == serial);
    CHECK_FALSE(only(text).slips.empty());
  }
  for (const char* text : {"AC V 8X0T5Y", "8C V 8205", "AC V 8205XYZ"}) {
    INFO(text);
    CHECK(read(text).empty());
  }
}

TEST_CASE("A sign that can't be read leaves open what it may be", "[numbers]") {
  const FormReading r = only("AC V 82?5");
  CHECK(r.serial == 8205);
  CHECK(r.serial_to == 8295);
  CHECK_FALSE(r.whole_serial());
  CHECK(r.slips.empty());
  // Either letter may stand there.
  CHECK(read("AC ? 8205").size() == 2);
}

TEST_CASE("The beginning of a number is read, and what follows is left open", "[numbers]") {
  const auto readings = read("AC V 82");
  REQUIRE(readings.size() == 2);  // four figures or five
  CHECK(readings[0].partial);
  CHECK(readings[0].serial == 8200);
  CHECK(readings[0].serial_to == 8299);
  CHECK(readings[1].serial == 82000);
  CHECK(readings[1].serial_to == 82999);
  CHECK(read("AC").empty());  // two signs tell too little
}

TEST_CASE("One sign too many or missing, and two changed about, are mended where nothing else reads it", "[numbers]") {
  const FormGrammar sedan{"sedan", "Sedan", {literal("AC"), codes("Body letter", {code("V"), code("P")}), serial(4, 4)}};
  const auto said = [&](const char* text) {
    std::vector<std::string> out;
    for (const FormReading& r : read_number(text, {&sedan})) out.push_back(r.parts.back().text + ": " + words(r).front());
    return out;
  };
  using Lines = std::vector<std::string>;
  CHECK(said("AVC 8205") == Lines{"8205: 'VC' read as 'CV': two signs changed about"});
  CHECK(said("ACCV 8205") == Lines{"8205: 'C' left out as one sign too many"});
  CHECK(said("AC 8205").size() == 2);  // the letter is missing: V or P
  // Any of five figures may be the one too many.
  CHECK(said("AC V 82057").size() == 5);
  CHECK(read_number("AC V 8205", {&sedan}).front().slips.empty());
}

TEST_CASE("A common misreading is read as what it was, and reported", "[numbers]") {
  const FormReading r = only("AC U 8205");
  CHECK(r.parts[1].text == "V");
  CHECK(words(r) == std::vector<std::string>{"'U' read as the letter V"});
  CHECK(only("AC R 8205").parts[1].text == "P");
}

TEST_CASE("A code that may be left out is read both ways", "[numbers]") {
  CHECK(only("AC V 8205").parts.back().text.empty());
  CHECK(only("AC V 8205").parts.back().code == 0u);
  CHECK(only("AC V 8205 K").parts.back().text == "K");
}

TEST_CASE("The serial takes as many figures as it may, and gives back what the next part needs", "[numbers]") {
  CHECK(only("AC V 82051").serial == 82051);
  const FormGrammar tail{"tail", "Figures with a tail", {serial(1, 6), codes("Tail", {code(""), code("7")})}};
  const auto readings = read_number("1237", {&tail});
  REQUIRE(readings.size() == 2);
  CHECK(readings[0].serial == 1237);
  CHECK(readings[1].serial == 123);
  CHECK(readings[1].parts.back().text == "7");
}

TEST_CASE("Noughts in front belong to the number but not to its count", "[numbers]") {
  const FormReading r = only("AC V 00501");
  CHECK(r.serial == 501);
  CHECK(r.parts[2].text == "00501");
}

TEST_CASE("A number that two forms read as it stands has both readings", "[numbers]") {
  const FormGrammar early{"early", "Early", {codes("Works", {code("B")}), serial(4, 4)}};
  const FormGrammar late{"late", "Late", {codes("Series", {code("B"), code("C")}), serial(3, 6)}};
  const auto readings = read_number("B 1234", {&early, &late});
  REQUIRE(readings.size() == 2);
  CHECK(readings[0].form == 0);
  CHECK(readings[1].form == 1);
}

TEST_CASE("Nothing is forgiven where another form reads the number as it stands", "[numbers]") {
  const FormGrammar plain{"plain", "Plain", {codes("Works", {code("B")}), serial(4, 4)}};
  const FormGrammar misread{"misread", "Misread", {codes("Works", {code("A", {"B"})}), serial(4, 4)}};
  const auto readings = read_number("B 1234", {&misread, &plain});
  REQUIRE(readings.size() == 1);
  CHECK(readings.front().form == 1);
  CHECK(readings.front().slips.empty());
}

TEST_CASE("Where every reading needs forgiving, the one that needs least stands first", "[numbers]") {
  const FormGrammar once{"once", "Once", {codes("Works", {code("A", {"B"})}), serial(4, 4)}};
  const FormGrammar twice{"twice", "Twice", {codes("Works", {code("A", {"B"})}), literal("1"), serial(3, 3)}};
  const auto readings = read_number("B I234", {&twice, &once});
  REQUIRE(readings.size() == 2);
  CHECK(readings[0].slips.size() <= readings[1].slips.size());
  const auto plain_end = read_number("B 1O34", {&twice, &once});
  REQUIRE(plain_end.size() == 2);
  for (const FormReading& r : plain_end) CHECK(r.slips.size() == 2);
}

TEST_CASE("A letter at the end is the code before it is a figure", "[numbers]") {
  const auto readings = read("AC V 8205 L");
  REQUIRE_FALSE(readings.empty());
  CHECK(readings.front().serial == 8205);
  CHECK(readings.front().parts.back().text == "L");
  CHECK(readings.front().slips.empty());
}

TEST_CASE("The message points at the character where the reading stopped, and says what it wants there", "[numbers]") {
  CHECK(failure("AB V 8205") == "'AB V 8205' AC");
  CHECK(failure("AC X 8205") == "'X 8205' Body letter, one of V and P");
  CHECK(failure("AC V X205") == "'X205' the digits of the serial number");
  CHECK(failure("AC V 82") == "'' the digits of the serial number");
  CHECK(failure("AC V 82-X5") == "'X5' the digits of the serial number");
  CHECK(failure("AC V 8205 X") == "'X' Last letter, one of nothing, L and K");
  CHECK(failure("AC V 8205 KK") == "'K' the end of the number");
  CHECK(failure("AC V 820512") == "'2' Last letter, one of nothing, L and K");
  CHECK(failure("") == "'' AC");
  CHECK(failure("  -- / ") == "'' AC");
}

TEST_CASE("Of several forms the message speaks of the one that came farthest", "[numbers]") {
  const FormGrammar letters{"letters", "Letters", {literal("XY"), serial(3, 3)}};
  CHECK(failure("AC V 8X05", {&letters, &carrier}) == "'X05' the digits of the serial number");
  CHECK(explain_failure("XY 12", {&carrier, &letters}).form == 1);
}

TEST_CASE("A number of any length and with any byte is read or refused, never more", "[numbers]") {
  CHECK(read(std::string(10'000, '8')).empty());
  CHECK(read("AC V 8205" + std::string(10'000, ' ')).size() == 1);
  CHECK(read("AC V 8205\xC3\xA9").empty());
  CHECK(read(std::string("AC V 8205\0", 10)).empty());
  CHECK(read_number("anything", {}).empty());
  FormGrammar optional{"optional", "Forty parts that may be left out", {}};
  for (int i = 0; i < 40; ++i) optional.parts.push_back(codes("", {code(""), code("8")}));
  CHECK(read_number(std::string(20, '8') + "XX", {&optional}).empty());  // 2^40 ways to fail, were each tried
  CHECK(explain_failure("anything", {}).offset <= 8);
}
