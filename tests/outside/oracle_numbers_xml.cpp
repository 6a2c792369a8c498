#include <sstream>

#include "oracle_xml.hpp"

/// Numbers as text that the engine reads.
namespace exworks::test::oracle {

namespace {

void write_code(const SmallPack& pack, const Code& code, std::ostream& out) {
  std::string also;
  for (const std::string& word : code.also) also += (also.empty() ? "" : " ") + word;
  out << "      <code" << attribute("text", code.text) << (also.empty() ? "" : attribute("also", also))
      << attribute("means", "so") << (code.scope ? scope(*code.scope) : "");
  if (code.sets) {
    out << attribute("feature", id('f', code.sets->first))
        << attribute("value", value_id(pack.features[code.sets->first], code.sets->second));
  }
  out << "/>\n";
}

void write_form(const SmallPack& pack, const Form& form, std::size_t index, std::ostream& out) {
  out << "  <form" << attribute("id", id('o', index)) << attribute("name", id('o', index)) << scope(form.scope)
      << edges(form.from, form.to, false) << attribute("source", "S") << ">\n";
  for (std::size_t p = 0; p < form.parts.size(); ++p) {
    const Part& part = form.parts[p];
    if (!part.literal.empty()) out << "    <text" << attribute("is", part.literal) << "/>\n";
    if (part.max_digits > 0) {
      const std::string least = std::to_string(part.min_digits), most = std::to_string(part.max_digits);
      out << "    <serial" << attribute("digits", least == most ? least : least + "-" + most) << "/>\n";
    }
    if (part.codes.empty()) continue;
    out << "    <part" << attribute("id", id('q', p)) << attribute("name", id('q', p)) << ">\n";
    for (const Code& code : part.codes) write_code(pack, code, out);
    out << "    </part>\n";
  }
  out << "  </form>\n";
}

void write_range(const Range& range, std::ostream& out) {
  std::string forms;
  for (const std::size_t f : range.forms) forms += (forms.empty() ? "" : " ") + id('o', f);
  out << "  <range" << attribute("first", std::to_string(range.first)) << attribute("last", std::to_string(range.last))
      << edges(range.from, range.to, false) << scope(range.scope) << (forms.empty() ? "" : attribute("forms", forms));
  if (range.spread != 1) out << attribute("spread", std::to_string(range.spread));
  out << attribute("source", "S") << "/>\n";
}

}  // namespace

std::string numbers_xml(const SmallPack& pack) {
  std::ostringstream out;
  for (std::size_t n = 0; n < pack.numbers.size(); ++n) {
    const Number& number = pack.numbers[n];
    out << "<number" << attribute("id", id('n', n)) << attribute("name", id('n', n)) << attribute("where", "Stamped.")
        << (number.assembly ? attribute("assembly", id('a', *number.assembly)) : attribute("identity", "yes"))
        << attribute("source", "S") << ">\n";
    for (std::size_t f = 0; f < number.forms.size(); ++f) write_form(pack, number.forms[f], f, out);
    for (const Range& range : number.ranges) write_range(range, out);
    out << "</number>\n";
  }
  return out.str();
}

std::string number_texts_xml(const Visit& visit) {
  std::string out;
  for (const NumberText& text : visit.numbers) {
    out += "<number" + attribute("id", id('n', text.number)) + attribute("text", text.text) + attribute("how", text.how) +
           attribute("sure", text.sure) + attribute("state", text.state) + "/>\n";
  }
  return out;
}

}  // namespace exworks::test::oracle
