#include "workshop/batch.hpp"

#include <algorithm>
#include <map>
#include <mutex>
#include <nlohmann/json.hpp>

#include "assess/summary.hpp"
#include "base/file.hpp"
#include "base/parallel.hpp"
#include "report/json/assessment_json.hpp"
#include "report/render/page.hpp"
#include "words/english/scales.hpp"
#include "workshop/job_assessment.hpp"
#include "workshop/job_inspection.hpp"

namespace exworks {

namespace {

using Json = nlohmann::ordered_json;
using Stored = std::pair<StoredAssessment, std::vector<PartVerdict>>;

constexpr std::size_t block_size = 128;

/// A name from the file system need not be UTF-8, and JSON must.
std::string json_line(const Json& line) { return line.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n"; }

std::string summary(const std::string& name, const Assessed& a) {
  const VerdictCounts n = verdict_counts(a.assessment);
  const Tables& t = *a.tables;
  const RouteInfo& leading = t.routes[a.assessment.routes.front().route];
  return name + ": " + percent(a.assessment.variants.front().p) + " " + t.axes.variants[leading.variant].name + ", " + to_words(a.assessment.date.from) + " to " +
         to_words(a.assessment.date.to) + "; " + std::to_string(n.original) + " original, " + std::to_string(n.later) + " later, " + std::to_string(n.uncertain) + " uncertain";
}

/// One of a batch: as JSON names it, and as a person does.
struct Item {
  const char* key;
  Json id;
  std::string name;
};

std::string line_of(const Item& item, const Assessed& a, bool jsonl) {
  if (!jsonl) return harmless(summary(item.name, a)) + "\n";
  Json line = {{item.key, item.id}};
  line.update(json_report(a.of()));
  return json_line(line);
}

/// The line of what `work` returns; what it throws becomes the result's error.
template <class Work>
BatchResult result_of(const Item& item, bool jsonl, const Work& work) {
  BatchResult out;
  try {
    out.line = line_of(item, work(), jsonl);
    return out;
  } catch (const Failed& f) {
    out.error = f.why;
  } catch (const FileError& e) {
    out.error = e.what + "; " + e.remedy;
  } catch (const std::exception& e) {
    out.error = item.name + ": " + e.what() + "; this is a fault of the program: please report it with this input";
  }
  if (jsonl) out.line = json_line({{item.key, item.id}, {"error", out.error}});
  return out;
}

/// Works through 0..count-1 a block at a time: `work` fills a block on all cores, then `finish` takes it, in order.
template <class Work, class Finish>
void in_blocks(std::size_t count, const Work& work, const Finish& finish) {
  for (std::size_t begin = 0; begin < count; begin += block_size) {
    std::vector<BatchResult> block(std::min(block_size, count - begin));
    in_parallel(block.size(), [&](std::size_t i) { block[i] = work(begin + i); });
    finish(block, begin + block.size());
  }
}

}  // namespace

void batch_of_files(Packs& packs, const std::vector<std::string>& files, const BatchWanted& wanted, const Deliver& deliver) {
  const Settings settings = batch_settings(wanted.quick);
  const auto work = [&](std::size_t i) {
    const std::string& file = files[i];
    return result_of({"file", file, file}, wanted.jsonl, [&] { return assess_xml(packs, read_file(file), file, wanted.family, settings); });
  };
  in_blocks(files.size(), work, deliver);
}

void batch_of_jobs(Packs& packs, Book& book, const std::vector<std::int64_t>& jobs, const std::string& by, const BatchWanted& wanted, const Deliver& deliver) {
  const Settings settings = batch_settings(wanted.quick);
  std::mutex one_at_a_time;  // the book's connection, and what is to be kept
  std::map<std::size_t, Stored> keep;
  const auto assess_job = [&](std::size_t i, const std::string& name) {
    std::string xml;
    {
      const std::lock_guard lock(one_at_a_time);
      xml = xml_of_entries(book.entries(jobs[i]), false);
    }
    Assessed a = assess_xml(packs, xml, name, wanted.family, settings);
    auto stored = to_store(jobs[i], xml, a);
    const std::lock_guard lock(one_at_a_time);
    keep.emplace(i, std::move(stored));
    return a;
  };
  const auto work = [&](std::size_t i) {
    const std::string name = "job " + std::to_string(jobs[i]);
    return result_of({"job", jobs[i], name}, wanted.jsonl, [&] { return assess_job(i, name); });
  };
  in_blocks(jobs.size(), work, [&](const std::vector<BatchResult>& block, std::size_t done) {
    std::vector<Stored> in_order;
    for (auto& [i, stored] : keep) in_order.push_back(std::move(stored));
    keep.clear();
    if (!in_order.empty()) book.add_assessments(in_order, by);
    deliver(block, done);
  });
}

}  // namespace exworks
