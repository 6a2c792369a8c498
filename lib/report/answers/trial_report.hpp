#pragma once
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "study/trial.hpp"

namespace exworks {

std::string text_trial(const Trial& trial, bool colour);
nlohmann::ordered_json json_trial(const Trial& trial);
/// Stated odds against what came true, in the right world and where all is wrong together; our own drawing, Okabe and Ito's colours, labels beside the lines.
std::string svg_reliability(const Trial& trial);

}  // namespace exworks
