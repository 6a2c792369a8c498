#pragma once
#include <string>

#include "engine/infer/documents.hpp"
#include "engine/infer/evidence.hpp"

namespace exworks {

/// How something came to be observed, where that is more than a look: "1200 mm", "47.2 in (1198.9 mm)", "from chassis number AC V 12873". "" else.
std::string how_noted_words(const Tables& tables, const Evidence& evidence, const Seen& seen);

/// Why no form of the pack reads a number, and where in it reading failed: "at 'X' it wants the serial".
std::string unread_words(const Tables& tables, const NumberRead& read);
std::string failure_words(const NumberRead& read);

/// "registration, dated May 1950", "claim by the seller, built 1950"
std::string paper_words(const Inspection& inspection, const DocumentLikelihood& paper);

}  // namespace exworks
