#include "report/render/source_list.hpp"

namespace exworks {

void list_sources(const Tables& tables, const Citations& citations, bool with_addresses, Page& page) {
  if (citations.cited().empty()) return;
  page.heading("Sources");
  std::size_t n = 0;
  for (std::size_t s : citations.cited()) {
    const SourceInfo& source = tables.catalogue.sources[s];
    const bool address = with_addresses && !source.url.empty();
    page.pair("[" + std::to_string(++n) + "]", source_words(source) + (address ? ", " + source.url : ""), 2, 8);
  }
}

}  // namespace exworks
