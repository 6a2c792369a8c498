#include <cstdio>

#include "author/csv.hpp"
#include "author/fact_table.hpp"
#include "base/text.hpp"

namespace exworks {

std::string id_from_name(std::string_view name) {
  std::string out;
  for (char c : name) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (plain || (c == '.' && !out.empty())) out += c;
    else if (c != '\'' && !out.empty() && out.back() != '-') out += '-';
  }
  while (!out.empty() && (out.back() == '-' || out.back() == '.')) out.pop_back();
  return out;
}

std::string edge_text(const Edge& e) {
  if (e.open) return "..";
  if (e.first == e.last) return to_iso(e.first);
  const bool january = e.first.month() == 1;
  char buffer[16];
  if (january && e.months() == 12) {
    std::snprintf(buffer, sizeof buffer, "%04d", e.first.year());
    return buffer;
  }
  if (january && e.months() == 120 && e.first.year() % 10 == 0) {
    std::snprintf(buffer, sizeof buffer, "%03dX", e.first.year() / 10);
    return buffer;
  }
  if (e.months() == 3 && e.first.month() % 3 == 0) {
    // A winter is written with the year in which it began.
    const int season = e.first.month() == 12 ? 24 : 20 + e.first.month() / 3;
    std::snprintf(buffer, sizeof buffer, "%04d-%02d", e.first.year(), season);
    return buffer;
  }
  return "[" + to_iso(e.first) + ".." + to_iso(e.last) + "]";
}

namespace {

class Writer {
 public:
  Writer(const Pack& pack, std::vector<std::string>* lost) : p_(pack), lost_(lost) {}

  std::string run() {
    for (const char* c : table_columns) out_ += (out_.empty() ? "" : ",") + std::string(c);
    out_ += '\n';
    // A table that names no market makes a pack with this one.
    const bool unnamed = p_.markets.size() == 1 && p_.markets[0].id == "all" && p_.markets[0].name == "All markets";
    for (const Market& m : p_.markets) {
      if (!unnamed) row({"market", cell(m.id, m.name), "", "", "", "", "", ""});
    }
    for (const Variant& v : p_.variants) {
      row({"variant", cell(v.id, v.name), "", ids(p_.markets, v.markets), edge_text(v.from), edge_text(v.to), "", sources(v.sources)});
    }
    for (const Feature& f : p_.features) {
      for (const Fact& fact : f.facts) write(f, fact);
    }
    count(plants_, "limited to some plants: left out");
    count(unlisted_, "of a kind that the pack doesn't list: left out");
    count(numbered_, "tied to an identity number: by date only");
    count(disputed_, "marked as disputed: without the mark");
    count(notes_, "with a note: without it");
    return std::move(out_);
  }

 private:
  void count(std::size_t n, const char* what) {
    if (n > 0 && lost_ != nullptr) lost_->push_back(std::to_string(n) + (n == 1 ? " fact " : " facts ") + what);
  }

  static std::string cell(const std::string& id, const std::string& name) {
    // A name with a colon could be taken for an id before it.
    return id_from_name(name) == id && name.find(": ") == std::string::npos ? name : id + ": " + name;
  }

  template <class Items>
  static std::string ids(const Items& items, const AxisSet& set) {
    std::string out;
    bool all = true;
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (set[i]) out += (out.empty() ? "" : " ") + items[i].id;
      else all = false;
    }
    return all ? "" : out;
  }

  static std::string part(const std::string& text) {
    std::string out;
    for (char c : text) {
      if (c == ';' || c == '|' || c == '\\') out += '\\';
      out += c;
    }
    return out;
  }

  std::string sources(const std::vector<std::size_t>& list) const {
    std::string out;
    for (std::size_t i : list) {
      const Source& s = p_.sources[i];
      std::string one;
      if (s.kind == SourceKind::published) {
        one = part(s.title) + " | " + part(s.publisher);
        if (!s.year.empty()) one += " | " + part(s.year);
        if (!s.url.empty()) one += " | " + part(s.url);
      } else {
        const bool trade = s.kind == SourceKind::common_practice;
        const bool usual = s.title == (trade ? "common practice, no source" : "from memory, not found in a source");
        one = (trade ? "trade" : "memory") + (usual ? "" : " | " + part(s.title));
      }
      out += (out.empty() ? "" : "; ") + one;
    }
    return out;
  }

  void write(const Feature& f, const Fact& fact) {
    AxisSet all_plants;
    for (std::size_t i = 0; i < p_.plants.size(); ++i) all_plants.set(i);
    // Without its plants the fact would say something else of the other vehicles.
    if ((fact.scope.plants & all_plants) != all_plants) {
      ++plants_;
      return;
    }
    if (fact.value >= f.values.size()) {
      ++unlisted_;
      return;
    }
    numbered_ += fact.from_number || fact.to_number;
    disputed_ += fact.disputed;
    notes_ += !fact.note.empty();
    std::string fitted = word(fact.fitted);
    if (fact.share) {
      char buffer[32];
      std::snprintf(buffer, sizeof buffer, " %g", *fact.share);
      fitted += buffer;
    }
    const Value& v = f.values[fact.value];
    row({cell(f.id, f.name), cell(v.id, v.name), ids(p_.variants, fact.scope.variants), ids(p_.markets, fact.scope.markets), fact.from ? edge_text(*fact.from) : "", fact.to ? edge_text(*fact.to) : "",
         fitted, sources(fact.sources)});
  }

  void row(const std::vector<std::string>& cells) {
    for (std::size_t i = 0; i < cells.size(); ++i) out_ += (i == 0 ? "" : ",") + csv_cell(cells[i]);
    out_ += '\n';
  }

  const Pack& p_;
  std::vector<std::string>* lost_;
  std::string out_;
  std::size_t plants_ = 0, unlisted_ = 0, numbered_ = 0, disputed_ = 0, notes_ = 0;
};

}  // namespace

std::string table_from_pack(const Pack& pack, std::vector<std::string>* lost) { return Writer(pack, lost).run(); }

}  // namespace exworks
