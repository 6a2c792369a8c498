#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "log.hpp"
#include "verbs/book_options.hpp"

/// The verbs of the group `job`, each with what its command line said.
namespace exworks::cli {

struct JobNewArguments : BookOptions {
  std::string family, name, reference, owner, purpose = "intake", date, note;
  std::int64_t vehicle_of = 0;
};
int run(const JobNewArguments& arguments);

struct JobCloseArguments : BookOptions {
  std::int64_t job = 0;
  bool reopen = false;
};
int run(const JobCloseArguments& arguments);

struct JobSetArguments : BookOptions {
  std::int64_t job = 0;
  std::vector<std::string> seen, numbers, claims, documents, codes, about, withdraw;
  std::string unit, how, sure, note, photo, wear, mark, number_state;
};
int run(const JobSetArguments& arguments);

struct JobListArguments : BookOptions {
  std::vector<std::string> where;
  std::string words;
  std::size_t most = 50;
};
int run(const JobListArguments& arguments);

struct JobShowArguments : BookOptions {
  std::int64_t job = 0;
  bool history = false;
};
int run(const JobShowArguments& arguments);

struct JobImportArguments : BookOptions {
  std::vector<std::string> files;
  std::int64_t into = 0;
  LogOptions log;
};
int run(const JobImportArguments& arguments);

struct JobExportArguments : BookOptions {
  std::int64_t job = 0;
  std::string bundle, output;
  bool overwrite = false;
};
int run(const JobExportArguments& arguments);

struct JobPhotoArguments : BookOptions {
  std::int64_t job = 0;
  std::vector<std::string> files;
  std::string feature, note;
};
int run(const JobPhotoArguments& arguments);

struct JobForgetArguments : BookOptions {
  std::int64_t job = 0;
};
int run(const JobForgetArguments& arguments);

struct JobCompareArguments : BookOptions {
  std::string a, b;
};
int run(const JobCompareArguments& arguments);

struct JobReassessArguments : BookOptions {
  std::int64_t job = 0;
};
int run(const JobReassessArguments& arguments);

}  // namespace exworks::cli
