#pragma once
#include <optional>
#include <string>

#include "engine/tables/catalogue.hpp"

namespace exworks {

/// A scope as a mechanic would say it: "Series MM two-door saloon (not North America)". "" when it is everything.
std::string scope_words(const Axes& axes, const Scope& scope);

/// "from Jan 1951", "to Oct 1954", "from Jan 1951 to Oct 1954"; "" when both are open.
std::string period_words(const std::optional<Edge>& from, const std::optional<Edge>& to);

/// The same with the identity numbers that begin and end it: "from Jan 1951, from number 114924".
std::string period_words(const std::optional<Edge>& from, const std::optional<Edge>& to, const std::optional<std::int64_t>& from_number,
                         const std::optional<std::int64_t>& to_number);
std::string period_words(const FactInfo& fact);

/// "GB-020, Great Britain: direction indicators"
std::string law_words(const LegalBasis& law);

/// "published", "common practice" or "memory".
std::string kind_words(SourceKind kind);

/// A source as a citation: title, publisher, year.
std::string citation(const SourceInfo& source);

}  // namespace exworks
