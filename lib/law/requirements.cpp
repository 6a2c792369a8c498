#include "law/requirements.hpp"

#include <algorithm>

#include "base/file.hpp"
#include "base/sha256.hpp"
#include "base/text.hpp"
#include "xml/common_lines.hpp"
#include "xml/tabs.hpp"

namespace exworks {

namespace fs = std::filesystem;

namespace {

/// Reads the elements of one file into `out`.
class Reader {
 public:
  Reader(Requirements& out, Diagnostics& diagnostics) : out_(out), diagnostics_(diagnostics) {}

  void read(const Element& root) {
    for (const Element& child : root.children()) {
      if (child.name() == "source") source(child);
    }
    for (const Element& child : root.children()) {
      if (child.name() == "requirement") requirement(child);
      else if (child.name() != "source") unknown_element(child, {"source", "requirement"}, diagnostics_);
    }
    for (std::size_t s = 0; s < out_.sources.size(); ++s) {
      const bool used = std::any_of(out_.rows.begin(), out_.rows.end(), [&](const Requirement& r) { return std::find(r.sources.begin(), r.sources.end(), s) != r.sources.end(); });
      if (!used) diagnostics_.note(out_.sources[s].place, "source '" + out_.sources[s].id + "' is cited nowhere", "cite it, or take it out");
    }
  }

 private:
  void source(const Element& e) {
    Source s = read_source_line(e, diagnostics_);
    ids_.add(s.id, s.place, diagnostics_);
    out_.sources.push_back(std::move(s));
  }

  /// A required attribute that is one of `words`; the first of them after a mistake.
  std::string word(const Attributes& a, std::string_view name, const std::vector<std::string>& words) {
    if (!a.has(name)) a.text(name);
    return a.choice(name, words, words.front());
  }

  template <class Enum>
  Enum one_of(const Attributes& a, std::string_view name, const std::vector<std::string>& words) {
    const std::string chosen = word(a, name, words);
    return static_cast<Enum>(std::find(words.begin(), words.end(), chosen) - words.begin());
  }

  std::vector<std::string> classes(const Attributes& a) {
    const Place place = a.element().place("class");
    std::vector<std::string> named, without;
    for (std::string w : split_words(a.text("class"))) {
      if (w == "all") {
        named = vehicle_classes();
        continue;
      }
      const bool take_away = w.front() == '!';
      if (take_away) w.erase(0, 1);
      const auto& known = vehicle_classes();
      if (std::find(known.begin(), known.end(), w) == known.end()) {
        diagnostics_.error(place, "there is no class '" + w + "'", did_you_mean(w, known, "known are all, " + join_and(known)));
      }
      (take_away ? without : named).push_back(w);
    }
    std::vector<std::string> out = named.empty() && !without.empty() ? vehicle_classes() : named;
    out.erase(std::remove_if(out.begin(), out.end(), [&](const std::string& w) { return std::find(without.begin(), without.end(), w) != without.end(); }), out.end());
    return out;
  }

  void cite(const Attributes& a, Requirement& r) {
    bool remembered = false;
    for (const std::string& id : split_words(a.text("source"))) {
      const auto s = ids_.resolve(id, a.element().place("source"), diagnostics_);
      if (!s) continue;
      r.sources.push_back(*s);
      remembered = remembered || out_.sources[*s].kind == SourceKind::memory;
    }
    if (r.certainty == Certainty::memory && !remembered) {
      diagnostics_.error(r.place, "requirement '" + r.id + "' is only remembered, but cites no source of kind memory", "add 'memory' to its source");
    }
  }

  void requirement(const Element& e) {
    const Attributes a(e, diagnostics_, {"id", "class", "bound", "region", "basis", "from", "to", "strength", "counts", "proof", "source", "certainty", "feature"});
    Requirement r;
    r.place = e.place();
    r.id = a.id(true);
    r.feature = a.text("feature");
    r.text = e.text();
    r.classes = classes(a);
    r.bound = a.text_or("bound", "");
    r.region = a.text_or("region", "");
    r.basis = one_of<Basis>(a, "basis", {"first-used", "manufactured", "model-year"});
    r.strength = one_of<Strength>(a, "strength", {"must", "must-in-service", "must-retrofit", "must-not", "permitted", "mark-new"});
    r.certainty = one_of<Certainty>(a, "certainty", {"published", "one-source", "conflicting", "memory"});
    r.counts_in_use = a.choice("counts", {"in-use"}, "") == "in-use";
    r.proof = a.choice("proof", {"no"}, "") != "no";
    r.from = a.day("from");
    r.to = a.day("to");
    if (r.text.empty()) diagnostics_.error(r.place, "requirement '" + r.id + "' says nothing", "write what it asks between the tags");
    if (r.from && r.to && *r.to < *r.from) {
      diagnostics_.error(e.place("to"), "requirement '" + r.id + "' ends before it begins", "swap or correct the dates");
    }
    cite(a, r);
    rows_.add(r.id, r.place, diagnostics_);
    out_.rows.push_back(std::move(r));
  }

  Requirements& out_;
  Diagnostics& diagnostics_;
  Ids ids_{"source"}, rows_{"requirement"};
};

}  // namespace

const std::vector<std::string>& vehicle_classes() {
  static const std::vector<std::string> words{"car",           "car-derivative", "dual-purpose", "mpv",     "light-goods", "heavy-goods", "minibus", "bus",
                                              "motor-caravan", "three-wheeler",  "motorcycle",   "tractor", "forces",      "part"};
  return words;
}

std::optional<Element> open_requirements(std::string text, const std::string& file, Requirements& out, Diagnostics& diagnostics) {
  const std::size_t errors = diagnostics.error_count();
  out.digest = sha256(text);
  warn_of_tabs(text, file, diagnostics);
  const auto root = XmlFile::parse(std::move(text), file, diagnostics);
  if (!root) return std::nullopt;
  if (root->name() != "requirements") {
    diagnostics.error(root->place(), "the root element is '" + root->name() + "'", "a file of requirements begins with <requirements format=\"1\">");
    return std::nullopt;
  }
  const Attributes a(*root, diagnostics, {"format", "id", "name", "country"});
  const std::string format = a.text("format");
  if (format != std::to_string(requirements_format)) {
    if (!format.empty()) {
      diagnostics.error(root->place("format"), "the file has format '" + format + "'; this program reads format " + std::to_string(requirements_format), "update the program");
    }
    return std::nullopt;
  }
  out.id = a.id();
  out.name = a.text("name");
  out.country = a.text("country");
  return diagnostics.error_count() == errors ? root : std::nullopt;
}

bool read_rows(const Element& root, Requirements& out, Diagnostics& diagnostics) {
  const std::size_t errors = diagnostics.error_count();
  Reader(out, diagnostics).read(root);
  return diagnostics.error_count() == errors;
}

std::optional<Requirements> read_requirements(std::string text, const std::string& file, Diagnostics& diagnostics) {
  Requirements out;
  const auto root = open_requirements(std::move(text), file, out, diagnostics);
  if (!root || !read_rows(*root, out, diagnostics)) return std::nullopt;
  return out;
}

std::vector<fs::path> requirement_files_in(const fs::path& folder) {
  std::error_code failed;
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(folder, failed)) {
    if (entry.path().extension() == ".xml" && !is_special(entry)) files.push_back(entry.path());
  }
  if (failed) throw FileError{"folder '" + folder.string() + "' can't be listed: " + failed.message(), "check the name and that you may read it"};
  std::sort(files.begin(), files.end());
  return files;
}

std::vector<Requirements> read_requirements_folder(const fs::path& folder, Diagnostics& diagnostics) {
  std::vector<Requirements> out;
  for (const fs::path& file : requirement_files_in(folder)) {
    if (auto one = read_requirements(read_file(file), file.lexically_normal().string(), diagnostics)) out.push_back(std::move(*one));
  }
  return out;
}

}  // namespace exworks
