#include "man_page.hpp"

#include <algorithm>

namespace exworks::manual {

namespace {

/// Text as man(7) wants it: no character of it is taken for markup.
std::string plain(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\') out += "\\e";
    else if (c == '-') out += "\\-";
    else if ((c == '.' || c == '\'') && (out.empty() || out.back() == '\n')) out += std::string("\\&") + c;
    else out += c;
  }
  return out;
}

std::string bold(const std::string& text) { return "\\fB" + plain(text) + "\\fR"; }
std::string slanted(const std::string& text) { return "\\fI" + plain(text) + "\\fR"; }
std::string heading(const std::string& words) { return ".SH " + words + "\n"; }

std::string shown(const Argument& a) {
  const std::string name = slanted(a.name) + (a.several ? " ..." : "");
  return a.required ? name : "[" + name + "]";
}

std::string synopsis(const Verb& verb) {
  std::string out = heading("SYNOPSIS") + bold(name_of(verb, ' '));
  if (!verb.options.empty()) out += " [" + slanted("OPTIONS") + "]";
  for (const Argument& a : verb.arguments) out += " " + shown(a);
  if (!verb.verbs.empty()) out += " " + slanted("COMMAND") + " ...";
  return out + "\n";
}

std::string option(const Option& o) {
  std::string names;
  for (const std::string& n : o.names) names += (names.empty() ? "" : ", ") + bold(n);
  std::string value;
  if (o.choices.empty()) value = slanted(o.value);
  for (const std::string& c : o.choices) value += (value.empty() ? "" : "|") + bold(c);
  return ".TP\n" + names + (o.value.empty() ? "" : " " + value) + "\n" + plain(o.help) + "\n";
}

std::string commands(const Verb& verb) {
  std::string out;
  for (const Verb& v : verb.verbs) out += ".TP\n" + bold(name_of(v, '-')) + "(1)\n" + plain(v.help) + "\n";
  return out.empty() ? "" : heading("COMMANDS") + out;
}

std::string examples(const Verb& verb) {
  std::string out;
  for (const std::string& e : verb.examples) out += ".PP\n.nf\n" + plain(e) + "\n.fi\n";
  return out.empty() ? "" : heading("EXAMPLES") + out;
}

std::string exit_status(const Verb& verb) {
  std::string out;
  for (const std::string& code : verb.exit_codes) {
    const std::size_t cut = std::min(code.find(' '), code.size());
    out += ".TP\n" + bold(code.substr(0, cut)) + "\n" + plain(code.substr(std::min(cut + 1, code.size()))) + "\n";
  }
  return out.empty() ? "" : heading("EXIT STATUS") + out;
}

}  // namespace

std::string man_page(const Verb& verb, const Verb* parent, const std::string& version) {
  std::string title = name_of(verb, '-');
  std::string out = ".TH " + plain(title) + " 1 \"\" \"exworks " + version + "\" \"exworks manual\"\n";
  const std::string own_name = "exworks: ";
  const std::string help = verb.help.compare(0, own_name.size(), own_name) == 0 ? verb.help.substr(own_name.size()) : verb.help;
  out += heading("NAME") + plain(title) + " \\- " + plain(help) + "\n" + synopsis(verb);
  std::string details;
  for (const Argument& a : verb.arguments) details += ".TP\n" + slanted(a.name) + "\n" + plain(a.help) + "\n";
  for (const Option& o : verb.options) details += option(o);
  out += heading("OPTIONS") + details + commands(verb);
  if (!verb.remarks.empty()) out += heading("NOTES");
  for (const std::string& r : verb.remarks) out += ".PP\n" + plain(r) + "\n";
  out += examples(verb) + exit_status(verb);
  if (parent != nullptr) out += heading("SEE ALSO") + bold(name_of(*parent, '-')) + "(1)\n";
  return out;
}

}  // namespace exworks::manual
