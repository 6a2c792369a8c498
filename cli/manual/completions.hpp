#pragma once
#include "tree.hpp"

/// What each shell reads to complete a command that is half typed.
namespace exworks::manual {

std::string bash_completion(const Verb& top);
std::string zsh_completion(const Verb& top);
std::string fish_completion(const Verb& top);

}  // namespace exworks::manual
