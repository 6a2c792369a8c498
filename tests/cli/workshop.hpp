#pragma once
#include <nlohmann/json.hpp>

#include "support.hpp"

namespace exworks::test {

/// A folder with a job book of its own, and the command run on it.
struct Workshop {
  TemporaryFolder folder;
  std::string book = (folder.path() / "book.db").string();

  Run run(const std::string& arguments) const { return exworks(arguments + " --book " + book); }
  void done(const std::string& arguments) const {
    const Run r = run(arguments);
    INFO(arguments << "\n" << r.out << r.err);
    REQUIRE(r.exit_code == 0);
  }
  nlohmann::json json(const std::string& arguments) const {
    const Run r = run(arguments + " --json");
    INFO(arguments << "\n" << r.out << r.err);
    CHECK(r.exit_code == 0);
    return nlohmann::json::parse(r.out);
  }
  std::string file(const std::string& name) const { return (folder.path() / name).string(); }
};

}  // namespace exworks::test
