#include <exworks/exworks.hpp>
#include <iostream>

/// A program outside the project: PACK-FOLDER INSPECTION-FILE; prints the assessment as JSON.
int main(int argc, char** argv) {
  if (argc != 3) return 2;
  try {
    const auto pack = exworks::api::Pack::load(argv[1]);
    const auto inspection = exworks::api::Inspection::load(argv[2]);
    std::cout << exworks::api::assess(pack, inspection).json() << '\n';
    return 0;
  } catch (const exworks::api::Error& e) {
    std::cerr << e.what() << '\n';
    return e.problems().front().line > 0 ? 3 : 4;
  }
}
