#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/diagnostic.hpp"

/// An inspection as it was written, in words and with places; a pack gives the words their meaning later.
namespace exworks {

struct Observation {
  std::string feature;
  std::string value;               ///< a value's id, "other", or "" when there is a measure or a state
  std::string state;               ///< "", not-seen, missing, cannot-tell
  std::optional<double> measure;
  std::string unit;
  std::string how = "seen";        ///< seen, measured, read, photo, told
  std::string sure = "sure";       ///< sure, probable, guess
  std::string note, photo;
  std::string wear;                ///< "", consistent, fresher, older
  std::string mark;                ///< "", maker, other-maker, none
  std::string confirmed;           ///< "", as-built, changed: what an expert found in the end
  Place place, feature_place, value_place, unit_place;  ///< value_place: of the value or the measure
};

struct NumberSeen {
  std::string id, text, how = "read", sure = "sure", note, photo;
  Place place, id_place, text_place;
};

struct Claim {
  std::string by, generation, variant, body, market, plant, note;
  std::optional<Edge> built;
  Place place, generation_place, variant_place, body_place, market_place, plant_place;
};

struct Document {
  std::string kind;  ///< build-record, registration, plate, handbook, invoice, letter, owner
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
