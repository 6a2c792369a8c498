#pragma once
#include <string>
#include <vector>

#include "base/diagnostic.hpp"
#include "engine/tables/tables.hpp"

/// The reference vehicles of a pack: inspections with what a published description says of the vehicle.
namespace exworks::cli {

/// One expectation of a reference vehicle, and whether the pack meets it.
struct ReferenceLine {
  Place place;
  std::string what, found, source, note;
  bool met = false;
};

struct ReferenceResult {
  std::string vehicle;
  std::vector<ReferenceLine> lines;
  bool met = true;
};

/// Judges a reference vehicle by the pack; throws BadInput after printing what is wrong with the file.
ReferenceResult run_reference(const Tables& tables, const std::string& file);

/// The `*.xml` files of FOLDER/reference.
std::vector<std::string> reference_vehicles(const std::string& folder);

}  // namespace exworks::cli
