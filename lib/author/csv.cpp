#include "author/csv.hpp"

#include <utility>

#include "base/text.hpp"

namespace exworks {

namespace {

class Reader {
 public:
  Reader(std::string_view text, const std::string& file, Diagnostics& diagnostics) : text_(text), file_(file), d_(diagnostics) {}

  std::vector<Row> run() {
    if (text_.starts_with("\xEF\xBB\xBF")) text_.remove_prefix(3);
    if (!clean()) return {};
    std::vector<Row> rows;
    while (at_ < text_.size()) {
      Row row = this->row();
      if (row.size() > 1 || !row.front().text.empty()) rows.push_back(std::move(row));
    }
    return rows;
  }

 private:
  Place here() const { return {file_, line_, column_}; }

  bool clean() {
    std::size_t bad = 0;
    if (is_clean_utf8(text_, &bad)) return true;
    while (at_ < bad) step();
    d_.error(here(), "this byte is no UTF-8 text", "save the table as CSV in UTF-8");
    return false;
  }

  char step() {
    const char c = text_[at_++];
    if (c == '\n') ++line_, column_ = 1;
    else if ((static_cast<unsigned char>(c) & 0xC0u) != 0x80u) ++column_;
    return c;
  }

  bool at_line_end() const { return at_ >= text_.size() || text_[at_] == '\n' || text_.substr(at_, 2) == "\r\n"; }

  Row row() {
    Row row;
    while (true) {
      row.push_back(cell());
      if (at_ < text_.size() && text_[at_] == ',') {
        step();
        continue;
      }
      if (at_ < text_.size() && text_[at_] == '\r') step();
      if (at_ < text_.size()) step();
      return row;
    }
  }

  Cell cell() {
    Cell cell{"", here()};
    if (at_ < text_.size() && text_[at_] == '"') {
      quoted(cell);
      return cell;
    }
    while (!at_line_end() && text_[at_] != ',') {
      if (text_[at_] == '"') d_.error(here(), "a quote inside a cell that doesn't begin with one", "put the whole cell in quotes and double this one");
      if (text_[at_] == '\r' && !std::exchange(old_line_ends_, true)) d_.error(here(), "a line ends in the old Macintosh way", "save the table as CSV with LF or CR LF line ends");
      cell.text += step();
    }
    return cell;
  }

  void quoted(Cell& cell) {
    step();
    while (at_ < text_.size()) {
      const char c = step();
      if (c != '"') {
        cell.text += c;
      } else if (at_ < text_.size() && text_[at_] == '"') {
        cell.text += step();
      } else {
        if (!at_line_end() && text_[at_] != ',') d_.error(here(), "text follows the closing quote of a cell", "double the quotes inside a cell, or put a comma here");
        while (!at_line_end() && text_[at_] != ',') step();
        return;
      }
    }
    d_.error(cell.place, "this cell's quote is never closed", "add a quote at the end of the cell");
  }

  std::string_view text_;
  const std::string& file_;
  Diagnostics& d_;
  std::size_t at_ = 0;
  int line_ = 1, column_ = 1;
  bool old_line_ends_ = false;  ///< told once, not of every line
};

}  // namespace

std::vector<Row> read_csv(std::string_view text, const std::string& file, Diagnostics& diagnostics) { return Reader(text, file, diagnostics).run(); }

std::string csv_cell(std::string_view text) {
  if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
  std::string out = "\"";
  for (char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

}  // namespace exworks
