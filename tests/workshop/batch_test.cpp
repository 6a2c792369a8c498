#include "workshop/batch.hpp"

#include <nlohmann/json.hpp>

#include "mistakes.hpp"
#include "workshop/job_inspection.hpp"

/// Many inspections at once, without a process around them.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::string van = R"(<inspection format="1" family="aldermoor-carrier"><observed feature="headlamp-position" value="high"/></inspection>)";

struct Batch {
  TemporaryFolder folder;
  Packs packs{Rules{{rules_dir()}, {}}};

  std::vector<BatchResult> run(const std::vector<std::string>& files, bool jsonl) {
    std::vector<BatchResult> out;
    batch_of_files(packs, files, {"", true, jsonl}, [&](const std::vector<BatchResult>& some, std::size_t delivered) {
      out.insert(out.end(), some.begin(), some.end());
      CHECK(out.size() == delivered);
    });
    return out;
  }
};

}  // namespace

TEST_CASE("A batch delivers in the order of the files, some at a time", "[batch]") {
  Batch batch;
  std::vector<std::string> files;
  for (int i = 0; i < 150; ++i) files.push_back(batch.folder.write("van-" + std::to_string(i) + ".xml", i == 77 ? "<inspection" : van).string());
  const auto results = batch.run(files, true);
  REQUIRE(results.size() == files.size());
  for (std::size_t i = 0; i < files.size(); ++i) {
    const auto line = nlohmann::json::parse(results[i].line);
    CHECK(line.at("file") == files[i]);
    CHECK(line.contains("error") == (i == 77));
    CHECK(results[i].error.empty() == (i != 77));
  }
}

TEST_CASE("A file's name that is no UTF-8 ends no batch", "[batch]") {
  Batch batch;
  const std::string good = batch.folder.write("caf\xE9.xml", van).string(), missing = (batch.folder.path() / "caf\xE9-2.xml").string();
  for (const bool jsonl : {true, false}) {
    const auto results = batch.run({good, missing}, jsonl);
    REQUIRE(results.size() == 2);
    CHECK(results[0].error.empty());
    CHECK(results[0].line.find(jsonl ? "caf\xEF\xBF\xBD.xml" : "caf") != std::string::npos);
    CHECK(results[1].error.find("caf\xE9-2.xml") != std::string::npos);
    if (jsonl) CHECK(nlohmann::json::parse(results[1].line).contains("error"));
    else CHECK(results[1].line.empty());
  }
}

TEST_CASE("An inspection of a family that no pack has names the nearest, and the batch goes on", "[batch]") {
  Batch batch;
  const std::string wrong = batch.folder.write("wrong.xml", with_edit(van, "aldermoor-carrier", "aldermor-carrier")).string(), right = batch.folder.write("right.xml", van).string();
  const auto results = batch.run({wrong, right}, false);
  REQUIRE(results.size() == 2);
  CHECK(results[0].error == wrong + ": there is no pack 'aldermor-carrier' in " + rules_dir().string() + "; did you mean 'aldermoor-carrier'?");
  CHECK(results[1].error.empty());
}

TEST_CASE("What a batch of jobs worked out is in the book before it is delivered, in the order that was asked for", "[batch][book]") {
  TemporaryFolder folder;
  Book book(folder.path() / "book.db", system_environment());
  Diagnostics remarks;
  std::vector<std::int64_t> jobs;
  for (int i = 0; i < 5; ++i) jobs.push_back(book.new_job(entries_of_xml(van, "van.xml", remarks), "ab", std::nullopt));
  std::reverse(jobs.begin(), jobs.end());
  Packs packs(Rules{{rules_dir()}, {}});
  std::size_t lines = 0;
  batch_of_jobs(packs, book, jobs, "cd", {"", true, true}, [&](const std::vector<BatchResult>& results, std::size_t) {
    for (const BatchResult& r : results) {
      CHECK(nlohmann::json::parse(r.line).at("job") == jobs[lines++]);
    }
    std::int64_t last = 0;
    for (const std::int64_t job : jobs) {
      REQUIRE(book.assessments(job).size() == 1);
      CHECK(book.assessments(job).front().by == "cd");
      CHECK(book.assessments(job).front().id > last);
      last = book.assessments(job).front().id;
    }
  });
  CHECK(lines == 5);
}
