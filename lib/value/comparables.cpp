#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "base/text.hpp"
#include "value/valuation.hpp"

namespace exworks {

namespace {

constexpr std::array<std::string_view, 8> columns{"date", "price", "currency", "year", "variant", "condition", "originality", "note"};

struct Row {
  int line = 0;
  std::vector<std::string> cells;
};

/// RFC 4180: a cell in quotes may hold commas, line ends and doubled quotes.
std::vector<Row> rows_of(std::string_view text, const std::string& file, Diagnostics& diagnostics) {
  std::vector<Row> rows;
  std::size_t i = 0;
  int line = 1;
  while (i < text.size()) {
    Row row{line, {}};
    for (bool more = true; more;) {
      std::string cell;
      if (i < text.size() && text[i] == '"') {
        bool closed = false;
        for (++i; i < text.size() && !closed; ++i) {
          if (text[i] == '\n') ++line;
          if (text[i] != '"') cell += text[i];
          else if (i + 1 < text.size() && text[i + 1] == '"') cell += text[i++];
          else closed = true;
        }
        if (!closed) {
          diagnostics.error({file, row.line, 0}, "a quote is opened and never closed", "end the cell with a quote");
          return rows;
        }
        if (i < text.size() && text[i] != ',' && text[i] != '\n' && text[i] != '\r') {
          diagnostics.error({file, line, 0}, "text follows a closing quote", "double every quote that belongs to the text");
          return rows;
        }
      } else {
        while (i < text.size() && text[i] != ',' && text[i] != '\n' && text[i] != '\r') cell += text[i++];
      }
      row.cells.push_back(fold_space(cell));
      more = i < text.size() && text[i] == ',';
      if (more) ++i;
    }
    if (i < text.size() && text[i] == '\r') ++i;
    if (i < text.size() && text[i] == '\n') ++i;
    ++line;
    if (row.cells.size() > 1 || !row.cells[0].empty()) rows.push_back(std::move(row));
  }
  return rows;
}

std::optional<double> number_in(std::string_view text, double low, double high) {
  double v = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), v);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(v) || v < low || v > high) return std::nullopt;
  return v;
}

class Reader {
 public:
  Reader(const std::string& file, Diagnostics& diagnostics) : file_(file), diagnostics_(diagnostics) {}

  std::optional<Comparable> read(const Row& row) {
    const std::size_t before = diagnostics_.error_count();
    line_ = row.line;
    Comparable c;
    std::string why;
    const auto sold = parse_edge(row.cells[0], &why);
    if (!sold || sold->open || row.cells[0].size() < 7) fail("the date of sale '" + row.cells[0] + "' is not a month or a day", "write it 2026-05-14 or 2026-05");
    else c.sold = sold->first;
    c.sold_text = row.cells[0];
    c.price = needed(row.cells[1], "price", 0.01, 1e9, "write it as a plain number, such as 6500");
    c.currency = row.cells[2];
    if (c.currency.size() != 3 || upper(c.currency) != c.currency) fail("the currency '" + c.currency + "' is not three capital letters", "write GBP, USD, AUD, EUR ...");
    if (!row.cells[3].empty()) c.year = static_cast<int>(needed(row.cells[3], "year", 1880, 2100, "write the vehicle's year, such as 1950"));
    c.variant = row.cells[4];
    if (!row.cells[5].empty()) c.condition = static_cast<int>(needed(row.cells[5], "condition", 1, 5, "write 1 (best) to 5"));
    if (!row.cells[6].empty()) c.originality = needed(row.cells[6], "originality", 0, 100, "write 0 to 100");
    c.note = row.cells[7];
    if (diagnostics_.error_count() > before) return std::nullopt;
    return c;
  }

 private:
  void fail(std::string what, std::string remedy) { diagnostics_.error({file_, line_, 0}, std::move(what), std::move(remedy)); }

  double needed(const std::string& cell, const std::string& name, double low, double high, const std::string& remedy) {
    const auto v = number_in(cell, low, high);
    if (!v) fail("the " + name + " '" + cell + "' can't be used", remedy);
    return v.value_or(0);
  }

  const std::string& file_;
  Diagnostics& diagnostics_;
  int line_ = 0;
};

}  // namespace

std::vector<Comparable> read_comparables(std::string_view text, const std::string& file, Diagnostics& diagnostics) {
  std::size_t bad = 0;
  if (!is_clean_utf8(text, &bad)) {
    diagnostics.error({file, 0, 0}, "the file is not clean UTF-8 (byte " + std::to_string(bad) + ")", "save it as UTF-8");
    return {};
  }
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  const std::vector<Row> rows = rows_of(text, file, diagnostics);
  if (diagnostics.has_errors()) return {};
  const auto is_head = [](const Row& row) { return std::equal(row.cells.begin(), row.cells.end(), columns.begin(), columns.end()); };
  if (rows.empty() || !is_head(rows.front())) {
    diagnostics.error({file, 1, 0}, "the first line does not name the columns", "write date,price,currency,year,variant,condition,originality,note");
    return {};
  }
  std::vector<Comparable> out;
  Reader reader(file, diagnostics);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (rows[i].cells.size() != columns.size()) {
      diagnostics.error({file, rows[i].line, 0}, "the line has " + std::to_string(rows[i].cells.size()) + " cells, not " + std::to_string(columns.size()), "leave a cell empty rather than out, and put text that holds a comma into quotes");
      continue;
    }
    if (auto c = reader.read(rows[i])) out.push_back(std::move(*c));
  }
  for (const Comparable& c : out) {
    if (c.currency == out.front().currency) continue;
    diagnostics.error({file, 0, 0}, "the sales are in " + out.front().currency + " and in " + c.currency, "bring them to one currency, at the rate of the day of each sale, and say so in the note");
    break;
  }
  return out;
}

}  // namespace exworks
