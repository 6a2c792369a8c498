#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/infer/evidence.hpp"

namespace exworks {

/// One dated paper as evidence of the build month. P(document | b) = r g(b) + (1 - r) u: with reliability r it speaks of this
/// vehicle and is right, and then g says what it shows of a vehicle built in b's month; otherwise it could say anything (u).
struct DocumentLikelihood {
  std::string words;            ///< "registration, dated May 1950"
  double reliability = 0;       ///< r; judgement, common practice, no source
  std::vector<double> right;    ///< [build]: r g(b)
  double wrong = 0;             ///< (1 - r) u
};

/// Kinds and their reliability:
///   build-record .97, letter .97 (maker's archive), plate .9: a build date, give or take a month
///   registration .95: dated after the build by a lag, short at home (half within two months), longer elsewhere, with a long tail;
///     the first market of the pack counts as home
///   handbook .6: printed within two years before to one year after the build
///   invoice .9: of a replaced unit or of work: only that the vehicle had been built
///   owner .5, a claim .3: a year, calendar or model (from August of the year before); a claim is left out beside a
///     registration, from which it will have been read
/// Those without a usable date are left out.
std::vector<DocumentLikelihood> document_likelihoods(const Tables& tables, const Inspection& inspection);

/// The build date that a document states: `built`, else the `date` of a build record or plate, which is of the build or delivery.
std::optional<Edge> build_said(const Document& document);

/// The product over documents, [build]; empty when there is none.
std::vector<double> document_weights(const std::vector<DocumentLikelihood>& documents, std::size_t builds);

}  // namespace exworks
