#pragma once
#include <string>
#include <vector>

namespace exworks {

/// The main components that published classifications speak of (rules/FORMAT.md, "Schemes"). A pack says which of its assemblies and
/// features belong to which. "shell" is the frame, or the body that carries itself.
inline const std::vector<std::string>& vehicle_components() {
  static const std::vector<std::string> words{"shell", "body",  "engine", "transmission", "front-axle", "rear-axle", "steering", "front-suspension", "rear-suspension",
                                              "wheels", "brakes"};
  return words;
}

}  // namespace exworks
