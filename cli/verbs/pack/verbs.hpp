#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

/// The verbs of the group `pack`, each with what its command line said. Packs are meant by name or folder.
namespace exworks::cli {

struct PackShowArguments {
  std::string folder, rules;
  bool json = false;
};
int run(const PackShowArguments& arguments);

/// A pack for others is tried on at least so many vehicles with a published description.
inline constexpr std::size_t enough_reference_vehicles = 5;

struct PackCheckArguments {
  std::string folder, rules, since;
  bool json = false, quiet = false, all = false, strict = false;
};
int run(const PackCheckArguments& arguments);

struct PackTestArguments {
  std::string folder, rules;
  bool json = false;
};
int run(const PackTestArguments& arguments);

struct PackCoverageArguments {
  std::string family, rules;
  std::size_t n = 300, n_year = 20;
  std::uint64_t seed = 1;
  bool all = false, json = false, markdown = false;
};
int run(const PackCoverageArguments& arguments);

struct PackExplainArguments {
  std::string feature, family, rules, market, variant;
  int year = 0;
  bool json = false;
};
int run(const PackExplainArguments& arguments);

struct PackTimelineArguments {
  std::string family, rules, file;
  int columns = 0;
  bool json = false, overwrite = false;
};
int run(const PackTimelineArguments& arguments);

struct PackFromTableArguments {
  std::string input, output, name;
  bool overwrite = false, json = false;
};
int run(const PackFromTableArguments& arguments);

struct PackToTableArguments {
  std::string input, output, rules;
  bool overwrite = false, json = false;
};
int run(const PackToTableArguments& arguments);

struct PackUpgradeArguments {
  std::string folder, rules;
  bool json = false;
};
int run(const PackUpgradeArguments& arguments);

struct PackNewArguments {
  std::string id, name, folder;
  std::vector<std::string> markets, variants;
  bool overwrite = false, json = false;
};
int run(PackNewArguments arguments);

struct PackDiffArguments {
  std::string before, after, rules;
  std::vector<std::string> vehicles;
  bool json = false;
};
int run(const PackDiffArguments& arguments);

}  // namespace exworks::cli
