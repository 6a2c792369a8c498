#include "tree.hpp"

#include <CLI/CLI.hpp>
#include <cctype>

#include "options/options.hpp"

namespace exworks::manual {

namespace {

/// Cuts "TEXT:{build,verdicts}" into what follows the option and the words allowed.
void read_type(const std::string& type, Option& option) {
  const std::size_t open = type.find('{'), close = type.find('}');
  option.value = type.substr(0, type.find(':'));
  option.number = option.value == "INT" || option.value == "UINT" || option.value == "FLOAT";
  if (open == std::string::npos || close == std::string::npos) return;
  option.choices = CLI::detail::split(type.substr(open + 1, close - open - 1), ',');
}

Option option_of(const CLI::Option& from) {
  Option out;
  for (const std::string& n : from.get_lnames()) out.names.push_back("--" + n);
  for (const std::string& n : from.get_snames()) out.names.push_back("-" + n);
  out.help = from.get_description();
  out.repeated = from.get_expected_max() > 1;
  if (from.get_items_expected_max() > 0) read_type(from.get_type_name(), out);
  return out;
}

/// "Exit codes: 0 done, 1 no, at all" is cut before each code.
std::vector<std::string> codes_of(const std::string& text) {
  std::vector<std::string> out;
  std::size_t from = 0;
  for (std::size_t at = text.find(", "); at != std::string::npos; at = text.find(", ", at + 2)) {
    if (at + 2 >= text.size() || std::isdigit(static_cast<unsigned char>(text[at + 2])) == 0) continue;
    out.push_back(text.substr(from, at - from));
    from = at + 2;
  }
  std::string last = text.substr(from);
  if (!last.empty() && last.back() == '.') last.pop_back();
  out.push_back(last);
  return out;
}

/// A footer holds lines "Example: ...", one "Exit codes: ...", and remarks.
void read_footer(const std::string& footer, Verb& verb) {
  static const std::string example = "Example: ", codes = "Exit codes: ";
  for (const std::string& line : CLI::detail::split(footer, '\n')) {
    if (line.empty()) continue;
    if (line.compare(0, example.size(), example) == 0) verb.examples.push_back(line.substr(example.size()));
    else if (line.compare(0, codes.size(), codes) == 0) verb.exit_codes = codes_of(line.substr(codes.size()));
    else verb.remarks.push_back(line);
  }
}

Verb verb_of(const CLI::App& app, const std::vector<std::string>& words) {
  Verb out;
  out.words = words;
  out.help = app.get_description();
  read_footer(app.get_footer(), out);
  for (const CLI::Option* o : app.get_options()) {
    if (o->get_group().empty()) continue;
    if (o->get_positional()) out.arguments.push_back({o->get_name(true), o->get_description(), o->get_required(), o->get_items_expected_max() > 1});
    else out.options.push_back(option_of(*o));
  }
  for (const CLI::App* sub : app.get_subcommands([](const CLI::App* s) { return !s->get_group().empty(); })) {
    std::vector<std::string> longer = words;
    longer.push_back(sub->get_name());
    out.verbs.push_back(verb_of(*sub, longer));
  }
  return out;
}

void add_all(const Verb& verb, std::vector<const Verb*>& out) {
  out.push_back(&verb);
  for (const Verb& v : verb.verbs) add_all(v, out);
}

}  // namespace

Verb tree() {
  CLI::App app;
  cli::Action action;
  cli::describe(app, action);
  return verb_of(app, {});
}

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& w : words) out += (out.empty() ? "" : " ") + w;
  return out;
}

std::vector<const Verb*> all_verbs(const Verb& top) {
  std::vector<const Verb*> out;
  add_all(top, out);
  return out;
}

std::string name_of(const Verb& verb, char between) {
  std::string out = "exworks";
  for (const std::string& w : verb.words) out += between + w;
  return out;
}

}  // namespace exworks::manual
