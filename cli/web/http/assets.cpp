#include "web/http/assets.hpp"

#include <algorithm>

namespace exworks::cli::web {

/// Made at build time; ends with an asset without a name.
extern const Asset embedded[];

const Asset* find_asset(std::string_view name) {
  for (const Asset* a = embedded; !a->name.empty(); ++a) {
    if (a->name == name) return a;
  }
  return nullptr;
}

std::string media_type(std::string_view name) {
  if (name.ends_with(".html")) return "text/html; charset=utf-8";
  if (name.ends_with(".css")) return "text/css; charset=utf-8";
  if (name.ends_with(".js")) return "text/javascript; charset=utf-8";
  if (name.ends_with(".svg")) return "image/svg+xml";
  return "application/octet-stream";
}

}  // namespace exworks::cli::web
