#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/diagnostic.hpp"
#include "base/spelling.hpp"

/// An inspection as it was written, in words and with places; a pack gives the words their meaning later.
namespace exworks {

enum class HowSeen { seen, measured, read, photo, told };
enum class HowSure { sure, probable, guess };
/// What was found where no value was.
enum class LookState { not_seen, missing, cannot_tell };
/// Against the rest of the vehicle.
enum class Wear { consistent, fresher, older };
/// On the part.
enum class MakersMark { maker, other_maker, none };
/// What an expert found in the end.
enum class Confirmed { as_built, changed };
enum class DocumentKind { build_record, works_record, registration, plate, handbook, invoice, test_certificate, photograph, import_paper, letter, owner };

template <>
struct Spelling<HowSeen> {
  static constexpr std::string_view words[] = {"seen", "measured", "read", "photo", "told"};
};
template <>
struct Spelling<HowSure> {
  static constexpr std::string_view words[] = {"sure", "probable", "guess"};
};
template <>
struct Spelling<LookState> {
  static constexpr std::string_view words[] = {"not-seen", "missing", "cannot-tell"};
};
template <>
struct Spelling<Wear> {
  static constexpr std::string_view words[] = {"consistent", "fresher", "older"};
};
template <>
struct Spelling<MakersMark> {
  static constexpr std::string_view words[] = {"maker", "other-maker", "none"};
};
template <>
struct Spelling<Confirmed> {
  static constexpr std::string_view words[] = {"as-built", "changed"};
};
template <>
struct Spelling<DocumentKind> {
  static constexpr std::string_view words[] = {"build-record", "works-record", "registration", "plate", "handbook", "invoice", "test-certificate", "photograph", "import-paper", "letter", "owner"};
};

struct Observation {
  std::string feature;
  std::string value;               ///< ids of a value, of several that were left open, or of a named group; "other"; "" when there is something else
  std::string is_not;              ///< ids of the values that it is not; "" when there is something else
  std::optional<LookState> state;
  std::optional<double> measure, measure_to;  ///< one figure, or from and to
  std::string unit;
  HowSeen how = HowSeen::seen;
  HowSure sure = HowSure::sure;
  std::string note, photo;
  std::optional<Wear> wear;
  std::optional<MakersMark> mark;
  std::optional<Confirmed> confirmed;
  Place place, feature_place, value_place, unit_place;  ///< value_place: of the value or the measure
};

/// What can be seen of how a number came to where it is.
enum class NumberState { as_found, restamped, replaced_plate, copied };

template <>
struct Spelling<NumberState> {
  static constexpr std::string_view words[] = {"as-found", "restamped", "replaced-plate", "copied"};
};

struct NumberSeen {
  std::string id, text, note, photo;
  HowSeen how = HowSeen::read;
  HowSure sure = HowSure::sure;
  NumberState state = NumberState::as_found;
  Place place, id_place, text_place;
};

struct Claim {
  std::string by, generation, variant, body, market, plant, note;
  std::optional<Edge> built;
  Place place, generation_place, variant_place, body_place, market_place, plant_place;
};

struct Document {
  DocumentKind kind = DocumentKind::owner;
  std::optional<Edge> date, built;
  std::string note;
  Place place;
};

/// A date code on a part, as it stands there.
struct DateCode {
  std::string kind;     ///< tyre, triplex, us-casting, belt-label, sealed-beam, approval-mark, gb-registration, foundry-clock
  std::string text;     ///< not for triplex and foundry-clock
  std::string feature;  ///< the part that carries it, if it is one of the pack's; else ""
  bool triangle = false;             ///< after a tyre's three digits
  std::string word, dot, quarter;    ///< triplex: toughened or laminated; letter with the dot; letters of TRIPLEX with a dot
  std::string note;
  Place place, feature_place;
};

/// What a person says to a question of a classification (rules/scheme), which the vehicle's parts alone don't answer.
struct ClassificationAnswer {
  std::string scheme, question;   ///< scheme: "" for every scheme that has the question
  std::vector<std::string> is;    ///< the answers that remain
  std::optional<Edge> date;       ///< of the change that it speaks of
  std::string note;
  Place place;
};

/// What a published description lets one expect of the assessment (reference vehicles).
struct Expectation {
  std::string generation, variant, body, market, plant;
  std::optional<Edge> built, within;
  std::string feature, verdict, number, agrees, undecided;
  std::string source, note;
  Place place;
};

struct Inspection {
  std::string file, family, by;
  std::optional<Edge> date;
  std::string vehicle, reference, note;
  std::string country;             ///< where the vehicle stands: a code of ISO 3166-1 as the packs' markets use it; "" when not said
  std::vector<Claim> claims;
  std::vector<Document> documents;
  std::vector<NumberSeen> numbers;
  std::vector<DateCode> codes;
  std::vector<Observation> observations;
  std::vector<ClassificationAnswer> answers;
  std::vector<Expectation> expectations;
  Place place, family_place;
};

}  // namespace exworks
