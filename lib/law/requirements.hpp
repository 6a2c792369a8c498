#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/source.hpp"
#include "xml/xml_file.hpp"

/// Dated requirements of law, one file a market (rules/market/*.xml; format: rules/schema/requirements.rng). They say what
/// a vehicle of a date must, may or can't have had when new there.
namespace exworks {

inline constexpr int requirements_format = 1;

/// What the dates of a requirement count.
enum class Basis { first_used, manufactured, model_year };

enum class Strength { must, must_in_service, must_retrofit, must_not, permitted, mark_new };

enum class Certainty { published, one_source, conflicting, memory };

/// One rule and what it leaves to be seen.
struct Requirement {
  std::string id, feature, text;
  std::vector<std::string> classes;  ///< of vehicle_classes(), all those bound
  std::string bound;                 ///< the class in the words of the source, where that is narrower; may be empty
  std::string region;                ///< the one state it was read for; empty for the whole country
  Basis basis = Basis::manufactured;
  std::optional<CalendarDay> from, to;  ///< both included; nothing: no limit
  Strength strength = Strength::must;
  bool proof = true;           ///< no: its breach is never held against a part (exemptions, dates by state ...)
  bool counts_in_use = false;  ///< `from` is when the rule began for vehicles on the road, whatever their age
  Certainty certainty = Certainty::published;
  std::vector<std::size_t> sources;  ///< into Requirements::sources
  Place place;
};

/// The requirements of one market.
struct Requirements {
  std::string id, name, country;
  std::string digest;  ///< SHA-256 of the file
  std::vector<Source> sources;
  std::vector<Requirement> rows;
};

/// The words that a requirement's class may be, each with nothing more to it: "car", "light-goods" ...
const std::vector<std::string>& vehicle_classes();

/// Reads one file given as text. All mistakes are reported; nothing is returned when there is an error.
std::optional<Requirements> read_requirements(std::string text, const std::string& file, Diagnostics& diagnostics);

/// The same in two steps: the head into `out`, whose root element is returned; then its rows and sources. False when they have a mistake.
std::optional<Element> open_requirements(std::string text, const std::string& file, Requirements& out, Diagnostics& diagnostics);
bool read_rows(const Element& root, Requirements& out, Diagnostics& diagnostics);

/// The *.xml files of a folder, by name. Throws FileError when it can't be listed.
std::vector<std::filesystem::path> requirement_files_in(const std::filesystem::path& folder);

/// Reads every one of them. Throws FileError when the folder or a file can't be read.
std::vector<Requirements> read_requirements_folder(const std::filesystem::path& folder, Diagnostics& diagnostics);

/// The edges of the build months that a requirement bound: a window where first use, the model year or the day of the month
/// decides. Nothing: no limit.
struct BoundMonths {
  std::optional<Edge> from, to;
};
BoundMonths bound_months(const Requirement& requirement);

/// How a requirement stands to a build.
enum class Standing {
  in_force,         ///< it bound a vehicle built in that month
  may_be_in_force,  ///< it may have: the day of first use, the model year or the day of the month decides
  in_use            ///< it binds the vehicle on the road and says nothing of what it had when new
};

/// A requirement that meets a build, and the care with which to use it.
struct Applicable {
  const Requirement* requirement = nullptr;
  Standing standing = Standing::in_force;
  std::string caution;
  /// May its breach be held against a part: in force, a must or must-not, published, and no narrower than our classes?
  bool hard = false;
};

/// The requirements of a country ("US", or "US-CA" for those of that region as well as the national ones) that meet a vehicle
/// of this class built in this month. The pointers lead into `requirements`.
std::vector<Applicable> applicable(const std::vector<Requirements>& requirements, std::string_view country, std::string_view vehicle_class, Month built);

}  // namespace exworks
