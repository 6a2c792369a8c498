#include "pack/check/publish_checks.hpp"

#include <algorithm>
#include <filesystem>

namespace exworks {

namespace {

namespace fs = std::filesystem;

class PublishChecker {
 public:
  PublishChecker(const Pack& pack, Diagnostics& diagnostics) : pack_(pack), diagnostics_(diagnostics), folder_(fs::path(pack.folder).lexically_normal()) {}

  void run(const std::vector<std::string>& cited_elsewhere) {
    for (const Feature& f : pack_.features) feature(f);
    for (const LaterChange& c : pack_.later_changes) named_change("later change", c);
    for (const Conversion& c : pack_.conversions) named_change("conversion", c);
    for (const Number& n : pack_.numbers) {
      for (const NumberForm& f : n.forms) {
        if (own(f.place) && f.example.empty()) warn(f.place, "form '" + f.grammar.id + "' has no example", "write example=\"...\": it is read as a check, and shows people what to look for");
      }
    }
    for (const Source& s : pack_.sources) {
      const bool cited = s.cited || std::find(cited_elsewhere.begin(), cited_elsewhere.end(), s.id) != cited_elsewhere.end();
      if (own(s.place) && !cited) warn(s.place, "nothing cites source '" + s.id + "'", "cite it, or delete it");
    }
  }

 private:
  /// Shared parts and the pack that this one extends are for their own authors to mend.
  bool own(const Place& place) const { return fs::path(place.file).parent_path() == folder_; }

  void warn(const Place& place, const std::string& what, const std::string& remedy) { diagnostics_.warning(place, what, remedy); }

  void feature(const Feature& f) {
    if (own(f.place) && f.ask == f.name + "?") warn(f.place, "feature '" + f.id + "' asks nothing", "write <ask>what the inspector should look for</ask>");
    for (const Value& v : f.values) {
      if (own(v.place) && v.recognise.empty()) warn(v.place, "value '" + v.id + "' of feature '" + f.id + "' does not say how to recognise it", "write it between the tags, for someone new to the family");
    }
    for (const Fact& fact : f.facts) {
      if (own(fact.place) && fact.disputed && fact.sources.size() < 2) warn(fact.place, "this fact is disputed but has one source", "cite the source that says otherwise too");
    }
  }

  template <class Change>
  void named_change(const std::string& kind, const Change& c) {
    if (!own(c.place)) return;
    if (c.spot.empty()) warn(c.place, kind + " '" + c.id + "' does not say how to spot it", "write it between the tags");
    if (c.hours <= 0) warn(c.place, kind + " '" + c.id + "' does not say how long it takes to put back", "write hours=\"...\"");
  }

  const Pack& pack_;
  Diagnostics& diagnostics_;
  fs::path folder_;
};

}  // namespace

void check_for_publishing(const Pack& pack, const std::vector<std::string>& cited_elsewhere, Diagnostics& diagnostics) {
  PublishChecker(pack, diagnostics).run(cited_elsewhere);
}

void check_version(const Pack& pack, const Pack& since, Diagnostics& diagnostics) {
  if (pack.digest == since.digest || pack.version != since.version) return;
  diagnostics.warning({(fs::path(pack.folder) / "pack.xml").lexically_normal().string(), 1, 1},
                      "the files differ from the edition before, and both have version '" + pack.version + "'", "raise version=\"...\", so that reports tell the two apart");
}

}  // namespace exworks
