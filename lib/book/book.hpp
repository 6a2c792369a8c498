#pragma once
#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace SQLite {
class Database;
}

/// The job book: one SQLite file that keeps every vehicle, job and entry, and all that was thought before. It sees text and
/// digests; what the words mean is known elsewhere. Throws FileError when the file can't be used.
namespace exworks {

/// What the book takes from outside, so that a test can set it.
struct Environment {
  std::function<std::string()> now;  ///< the time in UTC, "2026-11-20T10:15:00Z"
  std::function<std::string()> uid;  ///< a new random name, the same nowhere else
};
Environment system_environment();

using Fields = std::map<std::string, std::string>;

/// One thing said of a job. kind: about (name: family, name, reference, owner, date, by, note, purpose, state), observed
/// (name: the feature), number (its id), claimed, document (a digest of what they say), photo (the SHA-256).
struct Entry {
  std::string kind, name;
  std::optional<Fields> fields;  ///< nothing: taken back
  std::string at, by;            ///< set by the book
  bool current = false, forgotten = false;
  std::int64_t change = 0;
  std::string uid{};  ///< the row's own name, the same nowhere else; set by the book, unless it came from a phone (record_edits)
};

/// What became of an answer that came with a name of its own.
struct EditResult {
  bool again = false;             ///< it had been kept before: nothing was written
  std::optional<Entry> replaced;  ///< what held until then, when the phone had not seen it and it says something else
};

/// An answer as a phone sends it: `seen` is the change that it knew of this entry, 0 for none.
struct Edit {
  Entry entry;
  std::int64_t seen = 0;
};

struct Job {
  std::int64_t id = 0, vehicle = 0;
  std::string uid, family, name, reference, owner, date, purpose, state, updated;
  std::optional<std::int64_t> assessment;  ///< the latest
};

struct StoredAssessment {
  std::int64_t id = 0, job = 0;
  std::string uid, at, by, family, pack_version, pack_digest, engine;
  std::string settings, inspection, result;  ///< JSON, XML, JSON
};

/// A feature's or an assembly's verdict, for search.
struct PartVerdict {
  std::string part, verdict;
};

struct Filter {
  std::string family, reference, owner, state, number, words;
  std::string date_from, date_to;                         ///< of the inspection, compared as text
  std::vector<std::pair<std::string, std::string>> parts; ///< part, verdict
  std::size_t most = 50;
};

/// The name of a tap belongs to another entry already.
struct EditMisused {
  std::string uid;
};

struct Conflict {
  std::int64_t job = 0;
  std::string kind, name;
  Entry ours, theirs;
};

class Book {
 public:
  /// Opens the book, made when it is not there (mode 0600) and brought up to date when it is older.
  Book(const std::filesystem::path& path, Environment environment);
  /// Opens one that must be there, for reading alone; it is not brought up to date.
  static Book read_only(const std::filesystem::path& path);
  ~Book();
  Book(Book&&) noexcept;
  Book& operator=(Book&&) = delete;

  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path photo_folder() const;
  SQLite::Database& database() { return *db_; }

  /// A new job with its first entries, on a vehicle of its own or that of another job.
  std::int64_t new_job(const std::vector<Entry>& entries, const std::string& by, std::optional<std::int64_t> same_vehicle_as);
  /// Adds what differs from what holds now; all or nothing. Returns how many entries changed.
  std::size_t record(std::int64_t job, const std::vector<Entry>& entries, const std::string& by);
  /// Adds each answer under its own name (Entry::uid), once however often it comes; all or nothing. Throws EditMisused.
  std::vector<EditResult> record_edits(std::int64_t job, const std::vector<Edit>& edits, const std::string& by);
  /// The job that a first entry of this name began, so that asking twice makes one job.
  std::optional<std::int64_t> job_begun_by(const std::string& uid);
  /// The number of the job's latest change.
  std::int64_t last_change(std::int64_t job);
  /// Has some job a photo of this name?
  bool has_photo(const std::string& hash);
  bool has_job(std::int64_t id);
  Job job(std::int64_t id);
  std::vector<Job> find(const Filter& filter);
  std::vector<std::int64_t> all_jobs();
  std::vector<Entry> entries(std::int64_t job);   ///< those that hold now
  /// Those that hold and were changed after `change`; taken back ones too.
  std::vector<Entry> entries_since(std::int64_t job, std::int64_t change);
  std::vector<Entry> history(std::int64_t job);   ///< all, oldest first
  std::vector<Conflict> conflicts(std::optional<std::int64_t> job);

  /// Keeps an assessment and its verdicts for search; several in one transaction.
  void add_assessments(const std::vector<std::pair<StoredAssessment, std::vector<PartVerdict>>>& assessments, const std::string& by);
  std::vector<StoredAssessment> assessments(std::int64_t job);  ///< oldest first, without the texts
  StoredAssessment assessment(std::int64_t id);

 private:
  Book() = default;
  std::filesystem::path path_;
  Environment environment_;
  std::unique_ptr<SQLite::Database> db_;
};

}  // namespace exworks
