#pragma once
#include <string>
#include <string_view>

/// The pages, built into the program (cli/web/embed.cmake).
namespace exworks::cli::web {

struct Asset {
  std::string_view name, content;
};

/// nullptr when there is none of this name.
const Asset* find_asset(std::string_view name);

/// By the ending of its name.
std::string media_type(std::string_view name);

}  // namespace exworks::cli::web
