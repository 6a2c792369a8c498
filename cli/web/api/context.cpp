#include "web/api/context.hpp"

#include "workshop/job_inspection.hpp"
#include "pack/read/pack_reader.hpp"

namespace exworks::cli::web {

std::vector<std::string> Context::load_packs() {
  std::vector<std::string> wrong;
  for (const auto& folder : pack_folders(packs_.rules().folders)) {
    try {
      families_.push_back(&tables_or_failed(packs_, folder.filename().string()));
    } catch (const Failed& f) {
      wrong.push_back(f.why);
    }
  }
  schemes_ = load_schemes(packs_.rules());
  return wrong;
}

const Tables& Context::family(const std::string& id) const {
  for (const Tables* t : families_) {
    if (t->family == id) return *t;
  }
  throw Refusal{404, "there is no family of this name; the first page lists those that there are"};
}

Job Context::job(std::int64_t id) {
  return with_book([&](Book& book) {
    if (!book.has_job(id)) throw Refusal{404, "the book has no such job; the first page lists those that it has"};
    return book.job(id);
  });
}

std::shared_ptr<const State> Context::state(std::int64_t job) {
  return lives_.state(job, [&] { return with_book([&](Book& book) { return xml_of_entries(book.entries(job), false); }); });
}

}  // namespace exworks::cli::web
