#include "xml/tabs.hpp"

#include <algorithm>

namespace exworks {

void warn_of_tabs(const std::string& text, const std::string& file, Diagnostics& diagnostics) {
  const std::size_t at = text.find('\t');
  if (at == std::string::npos) return;
  const std::size_t start = at == 0 ? 0 : text.rfind('\n', at) + 1;
  int column = 1;
  for (std::size_t i = start; i < at; ++i) column += (static_cast<unsigned char>(text[i]) & 0xC0u) != 0x80u;
  const auto count = std::count(text.begin(), text.end(), '\t');
  diagnostics.warning({file, static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n')) + 1, column},
                      count == 1 ? "there is a tab in the file" : "there are " + std::to_string(count) + " tabs in the file, the first here", "write spaces instead");
}

}  // namespace exworks
