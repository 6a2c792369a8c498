#pragma once
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "workshop/packs.hpp"

/// Many inspections in one run, on all cores: results in the order of the inputs, memory that doesn't grow with their number.
namespace exworks {

struct BatchWanted {
  std::string family;              ///< in place of the inspections' own, unless it is ""
  bool quick = false;              ///< see batch_settings
  bool jsonl = false;              ///< a line of JSON for each, in place of a line of text
};

/// What became of one of them.
struct BatchResult {
  std::string line;   ///< to be printed, with its end; "" for one that failed, unless a line of JSON says so
  std::string error;  ///< what is wrong with it; "" when it could be assessed
};

/// Called with some results at a time, and with how many there have been.
using Deliver = std::function<void(const std::vector<BatchResult>& results, std::size_t delivered)>;

void batch_of_files(Packs& packs, const std::vector<std::string>& files, const BatchWanted& wanted, const Deliver& deliver);

/// Jobs of a book; each assessment is kept in it, as said by `by`, before it is delivered: what a reader has seen is in the book.
void batch_of_jobs(Packs& packs, Book& book, const std::vector<std::int64_t>& jobs, const std::string& by, const BatchWanted& wanted, const Deliver& deliver);

}  // namespace exworks
