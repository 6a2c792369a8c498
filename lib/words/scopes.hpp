#pragma once
#include <optional>
#include <string>

#include "pack/model/pack.hpp"

namespace exworks {

/// A scope as a mechanic would say it: "Series MM two-door saloon (not North America)". "" when it is everything.
std::string scope_words(const Pack& pack, const Scope& scope);

/// "from Jan 1951", "to Oct 1954", "Jan 1951 to Oct 1954"; "" when both are open.
std::string period_words(const std::optional<Edge>& from, const std::optional<Edge>& to);

/// A source as a citation: title, publisher, year.
std::string citation(const Source& source);

}  // namespace exworks
