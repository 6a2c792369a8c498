#pragma once
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "numbers/vin.hpp"

namespace exworks {

std::string text_vin(const VinReading& vin, bool colour);
nlohmann::ordered_json json_vin(const VinReading& vin);

}  // namespace exworks
