#pragma once
#include <functional>
#include <string>
#include <vector>

#include "workshop/book_common.hpp"

/// Many inspections in one run: two threads, results in the order of the inputs, memory that doesn't grow with their number.
namespace exworks::cli {

struct BatchOptions {
  std::vector<std::string> files;  ///< of inspections; with a book, the numbers of jobs
  std::string family, rules;
  bool quick = false, jsonl = false, all = false;
};

/// Assesses files. One that fails is reported and the rest go on; bad_input when any failed.
int batch_of_files(const BatchOptions& options);

/// The same for jobs of a book; each assessment is kept in it.
int batch_of_book(const BatchOptions& options, const BookOptions& book);

}  // namespace exworks::cli
