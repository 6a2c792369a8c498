#include <algorithm>
#include <cstdlib>

#include "author/csv.hpp"
#include "author/fact_table.hpp"
#include "base/text.hpp"

namespace exworks {

namespace {

enum Column : std::size_t { feature, value, variants, markets, from, to, fitted, source };

std::string escaped(std::string_view text) {
  std::string out;
  for (char c : text) {
    if (c == '&') out += "&amp;";
    else if (c == '<') out += "&lt;";
    else if (c == '"') out += "&quot;";
    else out += c == '\n' || c == '\r' || c == '\t' ? ' ' : c;
  }
  return out;
}

struct Named {
  std::string id, name;
  bool operator==(const Named&) const = default;
};

struct TableFeature {
  Named named;
  Place place;
  std::vector<Named> values;
  std::vector<const Row*> rows;
};

class Reader {
 public:
  Reader(const std::string& file, const std::string& id, const std::string& name, Diagnostics& diagnostics) : file_(file), id_(id), name_(name), d_(diagnostics) {}

  TablePack run(std::string_view csv) {
    const std::vector<Row> rows = read_csv(csv, file_, d_);
    if (d_.has_errors() || !head(rows)) return {};
    for (std::size_t i = 1; i < rows.size(); ++i) sort(rows[i]);
    if (variants_.empty()) d_.error({file_, 1, 1}, "the table names no variant", "add a row such as: variant,Series 1 van,,,1951-03,1955-06,,Parts list | Works | 1957");
    if (features_.empty()) d_.error({file_, 1, 1}, "the table has no fact", "add a row such as: Grille,mesh,,,,,standard,trade");
    if (d_.has_errors()) return {};
    write();
    return std::move(out_);
  }

 private:
  bool head(const std::vector<Row>& rows) {
    std::string all;
    for (const char* c : table_columns) all += (all.empty() ? "" : ",") + std::string(c);
    if (rows.empty()) {
      d_.error({file_, 1, 1}, "the table is empty", "begin it with the line " + all);
      return false;
    }
    const Row& row = rows.front();
    for (std::size_t i = 0; i < std::size(table_columns); ++i) {
      if (i < row.size() && fold_space(row[i].text) == table_columns[i]) continue;
      const char* divider = row.size() > 1 ? nullptr : row[0].text.find(';') != std::string::npos ? "semicolons" : row[0].text.find('\t') != std::string::npos ? "tabs" : nullptr;
      if (divider != nullptr) d_.error(row[0].place, std::string("the cells are divided by ") + divider, "save the table as CSV with commas");
      else d_.error(i < row.size() ? row[i].place : row.back().place, "the head of column " + std::to_string(i + 1) + " is not '" + table_columns[i] + "'", "the first line must be " + all);
      return false;
    }
    if (row.size() > std::size(table_columns)) d_.error(row[std::size(table_columns)].place, "a column too many", "the first line must be " + all);
    return !d_.has_errors();
  }

  std::optional<Named> named(const Cell& cell, const char* what) {
    const std::string text = fold_space(cell.text);
    const std::size_t colon = text.find(": ");
    Named n{id_from_name(text), text};
    if (colon != std::string::npos && id_from_name(text.substr(0, colon)) == text.substr(0, colon)) n = {text.substr(0, colon), text.substr(colon + 2)};
    if (n.id.empty()) {
      d_.error(cell.place, text.empty() ? std::string("the ") + what + " is empty" : "'" + text + "' has no letter or digit to make an id from", std::string("write the name of the ") + what);
      return std::nullopt;
    }
    return n;
  }

  void sort(const Row& row) {
    if (row.size() != std::size(table_columns)) {
      d_.error(row.front().place, "this row has " + std::to_string(row.size()) + " cells instead of " + std::to_string(std::size(table_columns)), "write one cell for each column of the first line; text with a comma stands in quotes");
      return;
    }
    date(row[from]);
    date(row[to]);
    const std::string kind = fold_space(row[feature].text);
    if (kind == "market" || kind == "variant") {
      const auto n = named(row[value], kind.c_str());
      if (n) axis(kind == "market" ? markets_ : variants_, kind, *n, row);
      return;
    }
    const std::string lower = id_from_name(kind);
    if (lower == "market" || lower == "variant" || lower == "markets" || lower == "variants") {
      d_.error(row[feature].place, "'" + kind + "' would be a feature here", "write market or variant, in small letters, in the row that names one");
      return;
    }
    fact(row);
  }

  void axis(std::vector<std::pair<Named, const Row*>>& items, const std::string& kind, const Named& n, const Row& row) {
    for (const auto& [other, at] : items) {
      if (other.id == n.id) d_.error(row[value].place, kind + " '" + n.id + "' has a row already, in line " + std::to_string(at->front().place.line), "give this one another name");
    }
    // What an axis can't say would be lost without a word.
    for (std::size_t i = variants; i < std::size(table_columns); ++i) {
      const bool used = kind == "variant" && (i == markets || i == from || i == to || i == source);
      if (!used && !fold_space(row[i].text).empty()) d_.error(row[i].place, "the row of a " + kind + " says nothing under '" + table_columns[i] + "'", "leave this cell empty");
    }
    if (kind == "variant" && (fold_space(row[from].text).empty() || fold_space(row[to].text).empty())) {
      d_.error(row[fold_space(row[from].text).empty() ? from : to].place, "variant '" + n.id + "' has no window", "write its first and last month in from and to");
    }
    items.emplace_back(n, &row);
    if (kind == "variant") sources(row[source]);
  }

  void fact(const Row& row) {
    const auto f = named(row[feature], "feature");
    const auto v = named(row[value], "value");
    fitted_of(row[fitted]);
    sources(row[source]);
    if (!f || !v) return;
    auto at = std::find_if(features_.begin(), features_.end(), [&](const TableFeature& x) { return x.named.id == f->id; });
    if (at == features_.end()) at = features_.insert(at, {*f, row[feature].place, {}, {}});
    if (at->named != *f) d_.error(row[feature].place, "feature '" + f->id + "' is called '" + at->named.name + "' in line " + std::to_string(at->place.line), "write the same name in every row");
    const auto same = std::find_if(at->values.begin(), at->values.end(), [&](const Named& x) { return x.id == v->id; });
    if (same == at->values.end()) at->values.push_back(*v);
    else if (*same != *v) d_.error(row[value].place, "'" + v->name + "' is written '" + same->name + "' above", "write the same name in every row");
    at->rows.push_back(&row);
  }

  void date(const Cell& cell) {
    std::string why;
    const std::string text = fold_space(cell.text);
    if (!text.empty() && !parse_edge(text, &why)) d_.error(cell.place, "'" + text + "' is no date", why);
  }

  /// The attributes of a fact that say how it was fitted.
  std::string fitted_of(const Cell& cell) {
    const auto words = split_words(cell.text);
    if (words.empty()) return {};
    const std::vector<std::string> kinds{"standard", "option", "dealer"};
    if (std::find(kinds.begin(), kinds.end(), words[0]) == kinds.end() || words.size() > 2) {
      d_.error(cell.place, "'" + fold_space(cell.text) + "' doesn't say how it was fitted", "write standard, option 0.2 or dealer 0.1");
      return {};
    }
    std::string out = words[0] == "standard" ? "" : " fitted=\"" + words[0] + "\"";
    if (words.size() == 2) {
      char* end = nullptr;
      const double share = std::strtod(words[1].c_str(), &end);
      if (*end != '\0' || !(share >= 0.0001 && share <= 1)) d_.error(cell.place, "'" + words[1] + "' is no share", "write a figure above 0 and up to 1, such as 0.2 for one vehicle in five");
      out += " share=\"" + words[1] + "\"";
    } else if (words[0] != "standard") {
      d_.error(cell.place, "how many had this " + words[0] + " is missing", "write " + words[0] + " 0.2 for one vehicle in five");
    }
    return out;
  }

  /// The ids of a cell's sources; new ones are remembered.
  std::string sources(const Cell& cell) {
    std::string ids;
    for (const std::string& text : parts(cell.text, ';')) {
      if (text.empty()) continue;
      ids += (ids.empty() ? "" : " ") + source_id(text, cell.place);
    }
    if (ids.empty()) d_.error(cell.place, "the source is empty", "write title | publisher | year, or trade, or memory");
    return ids;
  }

  static std::vector<std::string> parts(const std::string& text, char divider) {
    std::vector<std::string> out{""};
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (text[i] == '\\' && i + 1 < text.size() && (text[i + 1] == ';' || text[i + 1] == '|' || text[i + 1] == '\\')) {
        if (divider == ';') out.back() += text[i];
        out.back() += text[++i];
      } else if (text[i] == divider) {
        out.emplace_back();
      } else {
        out.back() += text[i];
      }
    }
    for (std::string& s : out) s = fold_space(s);
    return out;
  }

  std::string source_id(const std::string& text, const Place& place) {
    const auto known = source_ids_.find(text);
    if (known != source_ids_.end()) return known->second;
    const auto p = parts(text, '|');
    std::string id, element;
    if (p[0] == "trade" || p[0] == "memory") {
      const bool trade = p[0] == "trade";
      id = p.size() == 1 ? p[0] : p[0] + "-" + std::to_string(source_ids_.size() + 1);
      const std::string title = p.size() > 1 ? p[1] : trade ? "common practice, no source" : "from memory, not found in a source";
      element = "kind=\"" + std::string(trade ? "common-practice" : "memory") + "\" title=\"" + escaped(title) + "\"";
    } else {
      id = "s" + std::to_string(source_ids_.size() + 1);
      if (p.size() < 3 || p.size() > 4 || p[1].empty() || p[2].empty()) {
        d_.error(place, "'" + text + "' doesn't say who published it and when", "write title | publisher | year or URL; or trade, or memory");
        return id;
      }
      element = "kind=\"published\" title=\"" + escaped(p[0]) + "\" publisher=\"" + escaped(p[1]) + "\"";
      for (std::size_t i = 2; i < p.size(); ++i) element += (p[i].starts_with("http") ? " url=\"" : " year=\"") + escaped(p[i]) + "\"";
    }
    source_ids_.emplace(text, id);
    source_lines_.push_back({"  <source id=\"" + id + "\" " + element + "/>", place});
    return id;
  }

  void put(const std::string& text, const Place& place = {}) {
    out_.xml += text + "\n";
    ++line_;
    if (place.line > 0) out_.places[line_] = place;
  }

  /// Of the line just put: each attribute is the cell of its column.
  void cells_of(const Row& row) {
    auto& cells = out_.cells[line_];
    for (std::size_t i = value; i < std::size(table_columns); ++i) cells[table_columns[i]] = row[i].place;
    cells["share"] = row[fitted].place;
  }

  static std::string attribute(const char* name, const Cell& cell) {
    const std::string text = fold_space(cell.text);
    return text.empty() ? "" : " " + std::string(name) + "=\"" + escaped(text) + "\"";
  }

  void write() {
    put("<?xml version=\"1.0\" encoding=\"UTF-8\"?>");
    put("<!-- Made from a table of facts by `exworks pack from-table`. What the table can't say has the plainest value here: one");
    put("     generation, one body, one works, one place to stand. rules/FORMAT.md tells what else a pack can hold. -->");
    put("<pack format=\"2\" id=\"" + id_ + "\" name=\"" + escaped(name_) + "\" version=\"1\" status=\"real\">");
    put("");
    for (const auto& [text, place] : source_lines_) put(text, place);
    put("");
    put("  <place id=\"vehicle\" name=\"At the vehicle\"/>");
    if (markets_.empty()) put("  <market id=\"all\" name=\"All markets\"/>");
    for (const auto& [n, row] : markets_) put("  <market id=\"" + n.id + "\" name=\"" + escaped(n.name) + "\"/>", (*row)[value].place);
    put("  <plant id=\"works\" name=\"Works\" kit=\"no\" markets=\"*\"/>");
    put("  <generation id=\"all\" name=\"" + escaped(name_) + "\"/>");
    put("  <body id=\"any\" name=\"any body\"/>");
    for (const auto& [n, row] : variants_) {
      const std::string cited = sources((*row)[source]);
      const std::string sold = fold_space((*row)[markets].text);
      put("  <variant id=\"" + n.id + "\" name=\"" + escaped(n.name) + "\" generation=\"all\" body=\"any\" markets=\"" + escaped(sold.empty() ? "*" : sold) + "\" plants=\"*\"" +
              attribute("from", (*row)[from]) + attribute("to", (*row)[to]) + " source=\"" + cited + "\"/>",
          (*row)[value].place);
      cells_of(*row);
    }
    for (const TableFeature& f : features_) write(f);
    put("</pack>");
  }

  void write(const TableFeature& f) {
    put("");
    put("  <feature id=\"" + f.named.id + "\" name=\"" + escaped(f.named.name) + "\" place=\"vehicle\">", f.place);
    for (const Named& v : f.values) {
      const auto first = std::find_if(f.rows.begin(), f.rows.end(), [&](const Row* r) { return named((*r)[value], "value") == v; });
      put("    <value id=\"" + v.id + "\" name=\"" + escaped(v.name) + "\"/>", (**first)[value].place);
    }
    for (const Row* r : f.rows) {
      const Row& row = *r;
      put("    <fact value=\"" + named(row[value], "value")->id + "\"" + attribute("variants", row[variants]) + attribute("markets", row[markets]) + attribute("from", row[from]) + attribute("to", row[to]) +
              fitted_of(row[fitted]) + " source=\"" + sources(row[source]) + "\"/>",
          row[feature].place);
      cells_of(row);
    }
    put("  </feature>");
  }

  const std::string& file_;
  const std::string& id_;
  const std::string& name_;
  Diagnostics& d_;
  std::vector<std::pair<Named, const Row*>> markets_, variants_;
  std::vector<TableFeature> features_;
  std::map<std::string, std::string> source_ids_;
  std::vector<std::pair<std::string, Place>> source_lines_;
  TablePack out_;
  int line_ = 0;
};

}  // namespace

std::optional<Place> TablePack::at_table(int line, int column) const {
  const auto row = places.find(line);
  if (row == places.end()) return std::nullopt;
  const auto of_line = cells.find(line);
  if (of_line == cells.end()) return row->second;
  std::size_t start = 0;
  for (int i = 1; i < line; ++i) start = xml.find('\n', start) + 1;
  // Columns count characters; what stands before an attribute of these lines may hold others than ASCII.
  for (int i = 1; i < column; ++i) {
    do ++start;
    while (start < xml.size() && (static_cast<unsigned char>(xml[start]) & 0xC0u) == 0x80u);
  }
  const std::size_t end = xml.find_first_of("= \n", start);
  const auto cell = of_line->second.find(end == std::string::npos || start >= xml.size() ? "" : xml.substr(start, end - start));
  return cell == of_line->second.end() ? row->second : cell->second;
}

TablePack pack_from_table(std::string_view csv, const std::string& file, const std::string& id, const std::string& name, Diagnostics& diagnostics) {
  return Reader(file, id, name, diagnostics).run(csv);
}

}  // namespace exworks
