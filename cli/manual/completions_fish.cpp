#include "completions.hpp"

namespace exworks::manual {

namespace {

std::string quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) {
    if (c == '\'' || c == '\\') out += '\\';
    out += c;
  }
  return out + "'";
}

std::string option(const Option& o) {
  std::string out;
  for (const std::string& n : o.names) out += n.compare(0, 2, "--") == 0 ? " -l " + n.substr(2) : " -s " + n.substr(1);
  if (!o.choices.empty()) out += " -x -a " + quoted(joined(o.choices));
  else if (o.number) out += " -x";
  else if (!o.value.empty()) out += " -r";
  return out + " -d " + quoted(o.help) + "\n";
}

}  // namespace

std::string fish_completion(const Verb& top) {
  std::string steps, lines;
  for (const Verb* v : all_verbs(top)) {
    const std::string start = "complete -c exworks -n '__exworks_at \"" + joined(v->words) + "\"'";
    for (const Option& o : v->options) lines += start + option(o);
    for (const Verb& sub : v->verbs) {
      lines += start + " -f -a " + sub.words.back() + " -d " + quoted(sub.help) + "\n";
      steps += " " + quoted(joined(v->words) + ":" + sub.words.back());
    }
  }
  return "# Completion of exworks for fish, written from the program's own options.\n"
         "function __exworks_at\n"
         "  set -l verb ''\n"
         "  for word in (commandline -opc)[2..-1]\n"
         "    switch \"$verb:$word\"\n"
         "      case" + steps + "\n"
         "        set verb (string trim -- \"$verb $word\")\n"
         "    end\n"
         "  end\n"
         "  test \"$verb\" = \"$argv[1]\"\n"
         "end\n" + lines;
}

}  // namespace exworks::manual
