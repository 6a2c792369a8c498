#pragma once
#include <filesystem>
#include <string>
#include <vector>

namespace exworks::serve_test {

struct Soak {
  std::size_t edits = 0, asked = 0, errors = 0;
  std::size_t lost = 0, twice = 0;        ///< acknowledged edits that are not in the history, or more than once
  std::vector<double> seconds;            ///< of each tap, from sending it to the updated odds, ascending
  std::string first_trouble;
  int exit_code = -1;                     ///< of the server, ended in order
};

/// Phones that each answer, look at what others answered, at the next checks and the review, for so long; a few share a job.
Soak run_soak(const std::string& program, const std::filesystem::path& book, const std::filesystem::path& rules, std::size_t phones, double for_seconds, std::size_t sharing);

}  // namespace exworks::serve_test
