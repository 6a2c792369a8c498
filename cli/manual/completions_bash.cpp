#include "completions.hpp"

namespace exworks::manual {

namespace {

/// Patterns "pack:--json" of `case`, one for each name of the option.
std::string patterns(const Verb& verb, const Option& option) {
  std::string out;
  for (const std::string& n : option.names) out += (out.empty() ? "" : "|") + ("\"" + joined(verb.words) + ":" + n + "\"");
  return out;
}

/// What may follow an option that takes a value; files are left to the shell.
std::string values(const Verb& verb) {
  std::string out;
  for (const Option& o : verb.options) {
    if (!o.choices.empty()) out += "    " + patterns(verb, o) + ") mapfile -t COMPREPLY < <(compgen -W \"" + joined(o.choices) + "\" -- \"$cur\"); return ;;\n";
    else if (!o.value.empty()) out += "    " + patterns(verb, o) + ") return ;;\n";
  }
  return out;
}

std::string words_of(const Verb& verb) {
  std::string options, verbs;
  for (const Option& o : verb.options) options += (options.empty() ? "" : " ") + joined(o.names);
  for (const Verb& v : verb.verbs) verbs += (verbs.empty() ? "" : " ") + v.words.back();
  return "    \"" + joined(verb.words) + "\") options=\"" + options + "\" verbs=\"" + verbs + "\" ;;\n";
}

}  // namespace

std::string bash_completion(const Verb& top) {
  std::string steps, follow, words;
  for (const Verb* v : all_verbs(top)) {
    std::vector<std::string> above = v->words;
    if (!above.empty()) {
      above.pop_back();
      steps += std::string(steps.empty() ? "" : "|") + "\"" + joined(above) + ":" + v->words.back() + "\"";
    }
    follow += values(*v);
    words += words_of(*v);
  }
  return "# Completion of exworks for bash, written from the program's own options.\n"
         "_exworks() {\n"
         "  local cur=\"${COMP_WORDS[COMP_CWORD]}\" prev=\"${COMP_WORDS[COMP_CWORD-1]}\" verb=\"\" options=\"\" verbs=\"\" at\n"
         "  COMPREPLY=()\n"
         "  for ((at = 1; at < COMP_CWORD; ++at)); do\n"
         "    case \"$verb:${COMP_WORDS[at]}\" in\n"
         "      " + steps + ") verb=\"${verb:+$verb }${COMP_WORDS[at]}\" ;;\n"
         "    esac\n"
         "  done\n"
         "  case \"$verb:$prev\" in\n" + follow +
         "  esac\n"
         "  case \"$verb\" in\n" + words +
         "  esac\n"
         "  if [[ $cur == -* ]]; then mapfile -t COMPREPLY < <(compgen -W \"$options\" -- \"$cur\")\n"
         "  else mapfile -t COMPREPLY < <(compgen -W \"$verbs\" -- \"$cur\"); fi\n"
         "}\n"
         "complete -o default -F _exworks exworks\n";
}

}  // namespace exworks::manual
