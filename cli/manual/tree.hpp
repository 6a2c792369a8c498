#pragma once
#include <string>
#include <vector>

/// The command line as plain data: the one source of the manual pages and of the completions for shells.
namespace exworks::manual {

struct Option {
  std::vector<std::string> names;    ///< "--json", "-o"
  std::string value;                 ///< what follows it, such as "TEXT"; empty for a switch
  std::vector<std::string> choices;  ///< when only these words may follow
  std::string help;
  bool number = false;               ///< what follows is a number, so no file
  bool repeated = false;
};

struct Argument {
  std::string name, help;
  bool required = false, several = false;
};

struct Verb {
  std::vector<std::string> words;  ///< "pack", "check"; empty for the program itself
  std::string help;
  std::vector<std::string> examples, remarks, exit_codes;  ///< what stands below --help
  std::vector<Option> options;
  std::vector<Argument> arguments;
  std::vector<Verb> verbs;
};

/// The tree of the program's options.
Verb tree();

/// Words with spaces between them.
std::string joined(const std::vector<std::string>& words);

/// This verb and all below it, in order.
std::vector<const Verb*> all_verbs(const Verb& top);

/// The words with something between them: "exworks pack check" by ' ', from "exworks" on.
std::string name_of(const Verb& verb, char between);

}  // namespace exworks::manual
