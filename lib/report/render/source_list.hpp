#pragma once
#include "report/render/page.hpp"
#include "words/english/citations.hpp"

namespace exworks {

/// The numbered list under the heading "Sources"; nothing where nothing was cited.
void list_sources(const Tables& tables, const Citations& citations, bool with_addresses, Page& page);

}  // namespace exworks
