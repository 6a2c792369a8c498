#pragma once
#include <map>
#include <string>
#include <string_view>

#include "record/inspection.hpp"

namespace exworks::cli {

/// The photos that an inspection names, as data: addresses by name; "" for one that is not there, is no JPEG or PNG, lies
/// outside the inspection's folder or is over 12 MiB (said on standard error).
std::map<std::string, std::string> load_photos(const Inspection& inspection, const std::string& file);

/// A photo's bytes as a data: address; "" when they are neither JPEG nor PNG, or over 12 MiB.
std::string photo_address(std::string_view bytes);

}  // namespace exworks::cli
