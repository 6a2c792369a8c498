#include <set>

#include "base/file.hpp"
#include "base/text.hpp"
#include "book/sql.hpp"

/// The part of Book that finds jobs.
namespace exworks {

namespace {

constexpr const char* job_columns = "j.id, j.vehicle, j.uid, j.family, j.name, j.reference, j.owner, j.date, j.purpose, j.state, j.updated, j.assessment";

Job job_of(SQLite::Statement& row) {
  const auto text = [&](int i) { return row.getColumn(i).getString(); };
  Job j{row.getColumn(0).getInt64(), row.getColumn(1).getInt64(), text(2), text(3), text(4), text(5), text(6), text(7), text(8), text(9), text(10), std::nullopt};
  if (!row.getColumn(11).isNull()) j.assessment = row.getColumn(11).getInt64();
  return j;
}

/// Words for FTS5, each quoted, so that no character of theirs is an operator.
std::string quoted_words(const std::string& text) {
  std::string out;
  for (const std::string& word : split_words(text)) {
    out += (out.empty() ? "\"" : " \"");
    for (char c : word) out += c == '"' ? std::string("\"\"") : std::string(1, c);
    out += '"';
  }
  return out;
}

/// Words and verdicts are walked from their own index, the latest first, and stop when enough are found: a list of all that
/// match would be made in vain.
struct Query {
  std::string from = "job j", order = "j.id", where;
  std::vector<std::string> values;

  void add(const std::string& condition, const std::string& value) {
    where += (where.empty() ? " WHERE " : " AND ") + condition;
    values.push_back(value);
  }
};

Query query_of(const Filter& f) {
  Query q;
  if (!f.family.empty()) q.add("j.family = ?", f.family);
  if (!f.reference.empty()) q.add("j.reference = ?", f.reference);
  if (!f.owner.empty()) q.add("j.owner = ?", f.owner);
  if (!f.state.empty()) q.add("j.state = ?", f.state);
  // A date cut to the month or year begins and ends that month or year: '~' sorts after every digit.
  if (!f.date_from.empty()) q.add("j.date >= ?", f.date_from);
  if (!f.date_to.empty()) q.add("j.date <= ?", f.date_to + "~");
  if (!f.number.empty()) {
    // By its beginning: '~' sorts after every letter.
    q.add("j.id IN (SELECT job FROM number_now WHERE plain >= ? AND plain < ?)", plain_number(f.number));
    q.values.push_back(plain_number(f.number) + "~");
  }
  for (const auto& [part, verdict] : f.parts) {
    const bool leads = q.order == "j.id" && f.words.empty();
    if (leads) q.from = "verdict lead CROSS JOIN job j ON j.id = lead.job", q.order = "lead.job";
    q.add(leads ? "lead.part = ?" : "EXISTS (SELECT 1 FROM verdict v WHERE v.job = j.id AND v.part = ?", part);
    q.where += leads ? " AND lead.verdict = ?" : " AND v.verdict = ?)";
    q.values.push_back(verdict);
  }
  if (!f.words.empty()) {
    q.from = "note CROSS JOIN job j ON j.id = note.job";
    q.order = "note.rowid";
    q.add("note MATCH ?", quoted_words(f.words));
  }
  return q;
}

}  // namespace

Job Book::job(std::int64_t id) {
  return guarded(path_, [&] {
    vehicle_of(*db_, id);
    SQLite::Statement find(*db_, std::string("SELECT ") + job_columns + " FROM job j WHERE j.id = ?");
    find.bind(1, id);
    find.executeStep();
    return job_of(find);
  });
}

std::vector<Job> Book::find(const Filter& filter) {
  return guarded(path_, [&] {
    const Query q = query_of(filter);
    SQLite::Statement find(*db_, std::string("SELECT ") + job_columns + " FROM " + q.from + q.where + " ORDER BY " + q.order + " DESC");
    for (std::size_t i = 0; i < q.values.size(); ++i) find.bind(static_cast<int>(i) + 1, q.values[i]);
    std::vector<Job> out;
    std::set<std::int64_t> seen;  // several notes can be of one job
    while (out.size() < filter.most && find.executeStep()) {
      if (seen.insert(find.getColumn(0).getInt64()).second) out.push_back(job_of(find));
    }
    return out;
  });
}

std::vector<std::int64_t> Book::all_jobs() {
  return guarded(path_, [&] {
    std::vector<std::int64_t> out;
    SQLite::Statement find(*db_, "SELECT id FROM job ORDER BY id");
    while (find.executeStep()) out.push_back(find.getColumn(0).getInt64());
    return out;
  });
}

}  // namespace exworks
