#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "log.hpp"
#include "verbs/book_options.hpp"

/// The verbs, each with what its command line said. `run` returns the exit code; what it throws is told by main.
namespace exworks::cli {

struct AssessArguments {
  std::vector<std::string> files;  ///< of inspections; with a book, jobs by number or reference
  std::string family, rules, rates;
  std::vector<std::string> given;
  bool json = false, full = false, jsonl = false, quick = false, all = false, of_book = false;
  BookOptions book;
  LogOptions log;
};
int run(const AssessArguments& arguments);

struct NumberArguments {
  std::string text, family, rules, number, made_for;
  bool json = false;
};
int run(const NumberArguments& arguments);

struct NextArguments {
  std::string file, family, rules, aim = "both";
  double minutes = 0;
  std::size_t most = 8;
  bool json = false;
};
int run(const NextArguments& arguments);

struct LearnArguments {
  std::vector<std::string> files;
  std::string family, rules, out;
  double prior = 20;
  bool overwrite = false;
};
int run(const LearnArguments& arguments);

struct TrialArguments {
  std::string family, rules, svg;
  std::size_t n = 1000, walk = 0;
  int months = 12;
  std::uint64_t seed = 1;
  double coverage = -1;
  bool json = false, overwrite = false;
};
int run(const TrialArguments& arguments);

struct ReportArguments {
  std::string subject, kind = "pre-purchase", output, family, paper, terms = "en-GB", date, sales;
  BookOptions book;
  bool of_book = false;
  std::vector<std::string> given, schemes, parts;
  int condition = 0;
  double trend = 0, rate = 0;
  bool redacted = false, overwrite = false;
};
int run(const ReportArguments& arguments);

struct SheetArguments {
  std::string family, begun, output, paper, terms = "en-GB", date;
  BookOptions book;
  bool of_book = false;
  double minutes = 0;
  bool overwrite = false;
};
int run(const SheetArguments& arguments);

struct SchemeArguments {
  std::string file, family, rules, date;
  std::vector<std::string> wanted;
  BookOptions book;
  bool of_book = false, list = false, json = false;
};
int run(const SchemeArguments& arguments);

struct ServeArguments : BookOptions {
  int port = 8080;
  bool lan = false;
  LogOptions log{.level = "", .json = false, .usual = LogLevel::info, .to_state_folder = true};
};
int run(const ServeArguments& arguments);

}  // namespace exworks::cli
