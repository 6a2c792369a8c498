#pragma once
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

/// What programs outside may use of exworks: read a pack and an inspection, assess, and print the answer. Everything else of the
/// library is hidden and may change. Nothing here writes files, prints, or keeps state between calls; objects can be used from
/// several threads as long as nobody moves or destroys them meanwhile.
#define EXWORKS_PUBLIC __attribute__((visibility("default")))

namespace exworks::api {

/// The version of the library, such as "1.2.0".
EXWORKS_PUBLIC std::string version();

/// One thing that is wrong in a file, or worth knowing. Lines and columns count from 1; 0 means the whole file.
struct Problem {
  bool error = true;
  std::string file;
  int line = 0;
  int column = 0;
  std::string what;
  std::string remedy;
};

/// A file could not be read, or has mistakes: what() holds all of them, one a line, problems() each by itself.
class EXWORKS_PUBLIC Error : public std::runtime_error {
 public:
  explicit Error(std::vector<Problem> problems);
  ~Error() override;
  const std::vector<Problem>& problems() const { return problems_; }

 private:
  std::vector<Problem> problems_;
};

class Assessment;
class Inspection;

/// The rules for one family of vehicles, ready for use.
class EXWORKS_PUBLIC Pack {
 public:
  /// Reads and checks the folder that holds pack.xml. Throws Error.
  static Pack load(const std::string& folder);
  Pack(Pack&&) noexcept;
  Pack& operator=(Pack&&) noexcept;
  ~Pack();

  std::string id() const;
  std::string name() const;
  std::string edition() const;

 private:
  struct Impl;
  explicit Pack(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
  friend EXWORKS_PUBLIC Assessment assess(const Pack&, const Inspection&);
};

/// What somebody saw, measured and read off one vehicle.
class EXWORKS_PUBLIC Inspection {
 public:
  /// Reads an inspection file. Throws Error.
  static Inspection load(const std::string& file);
  /// The same from text; `name` stands for the file in messages. Throws Error.
  static Inspection parse(const std::string& xml, const std::string& name);
  Inspection(Inspection&&) noexcept;
  Inspection& operator=(Inspection&&) noexcept;
  ~Inspection();

  /// The pack that the inspection names, or "" when it names none.
  std::string family() const;

 private:
  struct Impl;
  explicit Inspection(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
  friend EXWORKS_PUBLIC Assessment assess(const Pack&, const Inspection&);
};

/// The answer. It keeps what it needs; the pack and the inspection may go.
class EXWORKS_PUBLIC Assessment {
 public:
  Assessment(Assessment&&) noexcept;
  Assessment& operator=(Assessment&&) noexcept;
  ~Assessment();

  /// The document that `exworks assess --json` prints; its fields are described in README.md.
  std::string json() const;
  /// The text that `exworks assess` prints; `full` adds the facts behind every line.
  std::string text(bool full = false) const;
  /// Entries of the inspection that were passed over, and why.
  const std::vector<Problem>& remarks() const;

 private:
  struct Impl;
  explicit Assessment(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
  friend EXWORKS_PUBLIC Assessment assess(const Pack&, const Inspection&);
};

/// Judges the inspected vehicle by the pack, whichever family the inspection names. Throws Error when the two don't fit together.
EXWORKS_PUBLIC Assessment assess(const Pack& pack, const Inspection& inspection);

}  // namespace exworks::api
