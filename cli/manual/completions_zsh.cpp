#include "completions.hpp"

namespace exworks::manual {

namespace {

/// Inside '...' of zsh, and inside [...] and before : of _arguments.
std::string quoted(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\'') out += "'\\''";
    else if (c == '[' || c == ']' || c == ':' || c == '\\') out += std::string("\\") + c;
    else out += c;
  }
  return out;
}

std::string value_of(const Option& o) {
  if (o.value.empty()) return "";
  if (!o.choices.empty()) return ":value:(" + joined(o.choices) + ")";
  return o.number ? ":number:" : ":value:_files";
}

std::string options_of(const Verb& verb) {
  std::string out;
  for (const Option& o : verb.options) {
    for (const std::string& n : o.names) out += std::string(" \\\n    '") + (o.repeated ? "*" : "") + n + "[" + quoted(o.help) + "]" + value_of(o) + "'";
  }
  return out;
}

std::string function_of(const Verb& verb) {
  std::string out = "_" + name_of(verb, '_') + "() {\n";
  if (verb.verbs.empty()) return out + "  _arguments" + options_of(verb) + " \\\n    '*:file:_files'\n}\n\n";
  std::string list, choose;
  for (const Verb& v : verb.verbs) {
    list += "    '" + v.words.back() + ":" + quoted(v.help) + "'\n";
    choose += "      " + v.words.back() + ") _" + name_of(v, '_') + " ;;\n";
  }
  return out + "  local -a verbs=(\n" + list +
         "  )\n"
         "  if (( CURRENT == 2 )); then\n"
         "    if [[ $words[CURRENT] == -* ]]; then _arguments" + options_of(verb) + "\n"
         "    else _describe -t commands command verbs; fi\n"
         "  else\n"
         "    shift words\n"
         "    (( CURRENT-- ))\n"
         "    case $words[1] in\n" + choose +
         "    esac\n"
         "  fi\n}\n\n";
}

}  // namespace

std::string zsh_completion(const Verb& top) {
  std::string out = "#compdef exworks\n# Completion of exworks for zsh, written from the program's own options.\n\n";
  for (const Verb* v : all_verbs(top)) out += function_of(*v);
  return out + "_exworks \"$@\"\n";
}

}  // namespace exworks::manual
