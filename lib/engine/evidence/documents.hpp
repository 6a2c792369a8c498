#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/evidence/evidence.hpp"

namespace exworks {

enum class Paper { document, claim };

/// What the date that was weighed is the date of.
enum class DateMeans {
  built,       ///< the vehicle's build
  registered,  ///< its registration: after the build by a lag
  printed,     ///< the paper's printing
  existed      ///< work or a replaced unit: the vehicle had been built
};

/// A dated paper and what of it is weighed.
struct WeighedPaper {
  Paper paper = Paper::document;
  std::size_t index = 0;        ///< into Inspection::documents or ::claims
  DateMeans means = DateMeans::built;
  Edge date;                    ///< that which was weighed
  double reliability = 0;       ///< r; judgement, common practice, no source
};

/// One dated paper as evidence of the build month. P(document | b) = r g(b) + (1 - r) u: with reliability r it speaks of this
/// vehicle and is right, and then g says what it shows of a vehicle built in b's month; otherwise it could say anything (u).
struct DocumentLikelihood : WeighedPaper {
  std::vector<double> right;    ///< [build]: r g(b)
  double wrong = 0;             ///< (1 - r) u
};

/// By the table of rules/FORMAT.md, "What papers and numbers weigh". A claim is left out beside a registration, from which it
/// will have been read; the first market of the pack counts as home. Papers without a usable date are left out.
std::vector<DocumentLikelihood> document_likelihoods(const Tables& tables, const Inspection& inspection);

/// The date of a document that is weighed; nothing when it has none that says anything of the build.
std::optional<Edge> date_weighed(const Document& document);

/// The product over documents, [build]; empty when there is none.
std::vector<double> document_weights(const std::vector<DocumentLikelihood>& documents, std::size_t builds);

}  // namespace exworks
