#include <algorithm>

#include "words/english/citations.hpp"
#include "report/render/html_writer.hpp"
#include "report/render/render.hpp"
#include "report/render/style.hpp"

namespace exworks {

namespace {

constexpr std::size_t rows_kept_together = 14;  ///< a table up to this long is not broken over two pages

constexpr std::size_t tight_letters = 24;      ///< dates and verdicts, which stay on one line on paper

std::string mark_class(Mark mark) { return mark == Mark::original ? "original" : mark == Mark::later ? "later" : mark == Mark::uncertain ? "uncertain" : ""; }

bool capital(char c) { return c >= 'A' && c <= 'Z'; }
bool small_letter(char c) { return c >= 'a' && c <= 'z'; }
bool digit(char c) { return c >= '0' && c <= '9'; }

/// Three letters and a figure: a month and its year, a currency and its amount.
bool stays_together(std::string_view text, std::size_t space) {
  if (space < 3 || space + 1 >= text.size() || !digit(text[space + 1])) return false;
  if (space > 3 && (capital(text[space - 4]) || small_letter(text[space - 4]))) return false;
  const bool month = capital(text[space - 3]) && small_letter(text[space - 2]) && small_letter(text[space - 1]);
  const bool money = capital(text[space - 3]) && capital(text[space - 2]) && capital(text[space - 1]);
  return month || money;
}

/// A figure stays on one line with its sign, and a year with its month.
std::string unbroken(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool sign = text[i] == ' ' && ((i + 1 < text.size() && text[i + 1] == '%') || (i > 0 && (text[i - 1] == '>' || text[i - 1] == '<')));
    if (sign || (text[i] == ' ' && stays_together(text, i))) out += "\u00A0";
    else out += text[i];
  }
  return out;
}

class Renderer {
 public:
  Renderer(const Tables& tables, const Report& document) : t_(tables), d_(document) {}

  std::string run() {
    head();
    h_.open("body").line().element("a", "To the report", {{"class", "skip"}, {"href", "#report"}}).line();
    h_.open("main", {{"id", "report"}}).line();
    plate();
    if (d_.layout != Layout::report) h_.open("div", {{"class", "columns"}}).line();
    for (const Block& block : d_.blocks) {
      std::visit([&](const auto& b) { put(b); }, block);
      h_.line();
    }
    if (d_.layout != Layout::report) h_.close("div").line();
    h_.close("main").line().close("body").line().close("html").line();
    return "<!DOCTYPE html>\n" + h_.str();
  }

 private:
  void head() {
    h_.open("html", {{"lang", d_.language}}).line().open("head").line();
    h_.empty("meta", {{"charset", "utf-8"}}).line();
    h_.empty("meta", {{"http-equiv", "Content-Security-Policy"}, {"content", "default-src 'none'; style-src 'unsafe-inline'; img-src data:"}}).line();
    h_.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}}).line();
    h_.element("title", d_.kind + ": " + d_.title).line();
    h_.open("style").markup(style_sheet(d_.paper, d_.layout)).close("style").line().close("head").line();
  }

  void plate() {
    h_.open("header", {{"class", "plate"}});
    for (const char* corner : {"r1", "r2", "r3", "r4"}) h_.open("i", {{"class", corner}}).close("i");
    h_.element("p", d_.kind, {{"class", "kind"}}).element("h1", d_.title);
    for (const std::string& line : d_.particulars) h_.element("p", line, {{"class", "small"}});
    h_.close("header").line();
  }

  void words(const Text& text) {
    if (text.mark != Mark::none) h_.element("strong", mark_sign(text.mark), {{"class", "m-" + mark_class(text.mark)}}).text(text.words.empty() ? "" : " ");
    if (text.strong) h_.element("strong", unbroken(text.words));
    else h_.text(unbroken(text.words));
    const std::vector<std::size_t> numbers = citations_.numbers(text.sources);
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      const std::string n = std::to_string(numbers[i]);
      h_.text(i == 0 ? " [" : ", ").element("a", n, {{"href", "#source-" + n}});
    }
    if (!numbers.empty()) h_.text("]");
  }

  void put(const Heading& b) { h_.element(b.level <= 2 ? "h2" : "h3", b.words); }

  void put(const Paragraph& b) {
    h_.open("p", {{"class", b.text.quiet ? "quiet" : ""}});
    words(b.text);
    h_.close("p");
  }

  void put(const Bullets& b) {
    const bool marked = !b.items.empty() && b.items.front().mark != Mark::none;
    h_.open("ul", {{"class", b.boxes ? "boxes" : marked ? "marked" : ""}}).line();
    for (const Text& item : b.items) {
      h_.open("li");
      if (b.boxes) box();
      words(item);
      h_.close("li").line();
    }
    h_.close("ul");
  }

  void box() { h_.open("span", {{"class", "box"}}).close("span"); }

  void put(const Table& b) {
    h_.open("table", {{"class", table_class(b)}}).line();
    if (!b.caption.empty()) h_.element("caption", b.caption).line();
    h_.open("thead").open("tr");
    for (std::size_t i = 0; i < b.head.size(); ++i) h_.element("th", b.head[i], {{"scope", "col"}, {"class", figure_column(b, i) ? "num" : ""}});
    h_.close("tr").close("thead").line().open("tbody").line();
    for (const auto& row : b.rows) {
      h_.open("tr");
      for (std::size_t i = 0; i < row.size(); ++i) {
        if (i == 0) h_.open("th", {{"scope", "row"}});
        else h_.open("td", {{"class", figure_column(b, i) ? "num" : many(b) && i > 1 && row[i].words.size() <= tight_letters ? "tight" : ""}, {"data-head", many(b) && !row[i].words.empty() && i < b.head.size() ? b.head[i] + (b.head[i].ends_with('?') ? "" : ":") : ""}});
        words(row[i]);
        h_.close(i == 0 ? "th" : "td");
      }
      h_.close("tr").line();
    }
    h_.close("tbody").close("table");
  }

  /// On a phone a row of four columns or more is told line by line, each with its column's head.
  static bool many(const Table& b) { return b.head.size() >= 4; }

  static std::string table_class(const Table& b) {
    std::string out = many(b) ? "many" : "";
    if (b.even) out += out.empty() ? "even" : " even";
    if (!b.even && b.rows.size() <= rows_kept_together) out += out.empty() ? "short" : " short";
    return out;
  }

  static bool figure_column(const Table& b, std::size_t i) { return b.figures_last && i + 1 == b.head.size(); }

  void put(const Figure& b) {
    h_.open("figure", {{"class", b.small ? "draw plan" : "draw"}}).markup(b.svg);
    h_.element("figcaption", b.caption).close("figure");
  }

  void put(const Answers& b) {
    h_.open("dl", {{"class", "answers"}}).line();
    for (const auto& [question, answer] : b.items) {
      h_.element("dt", question).open("dd");
      words(answer);
      h_.close("dd").line();
    }
    h_.close("dl");
  }

  void put(const Pairs& b) {
    h_.open("dl", {{"class", "pairs"}}).line();
    for (const auto& [name, text] : b.items) {
      h_.element("dt", name).open("dd");
      words(text);
      h_.close("dd").line();
    }
    h_.close("dl");
  }

  void put(const Finding& b) {
    h_.open("section", {{"class", "finding f-" + mark_class(b.mark)}}).line();
    if (!b.figure.empty()) h_.element("span", b.figure, {{"class", "figure m-" + mark_class(b.mark)}});
    h_.open("h3");
    words({b.title, b.sources, b.mark, false, false});
    h_.close("h3").line();
    if (!b.particulars.empty()) {
      Pairs pairs;
      for (const auto& [name, is] : b.particulars) pairs.items.emplace_back(name, Text{is, {}, Mark::none, false, false});
      put(pairs);
    }
    for (const Text& line : b.lines) {
      put(Paragraph{line});
      h_.line();
    }
    h_.close("section");
  }

  void put(const Blanks& b) {
    for (const std::string& label : b.labels) h_.open("div", {{"class", "blank"}}).element("span", label).close("div").line();
  }

  void put(const Photo& b) {
    h_.open("figure");
    h_.empty("img", {{"src", b.data_uri}, {"alt", b.alternative}});
    h_.element("figcaption", b.caption).close("figure");
  }

  void put(const SheetItem& b) {
    h_.open("section", {{"class", "item"}}).element("h3", b.title);
    if (!b.ask.empty()) h_.element("p", b.ask);
    if (!b.caution.empty()) h_.open("p").element("strong", "Take care: ").text(b.caution).close("p");
    h_.open("ul", {{"class", b.brief ? "flow" : ""}});
    for (const auto& [name, how] : b.values) {
      h_.open("li", {{"class", how.empty() ? "bare" : ""}});
      box();
      h_.text(name);
      if (!how.empty()) h_.element("span", " — " + how, {{"class", "small"}});
      h_.close("li");
    }
    h_.close("ul").open("div", {{"class", "notes"}}).close("div").close("section");
  }

  void put(const References&) {
    if (citations_.cited().empty()) return;
    h_.element("h2", "Sources").line().open("ol", {{"class", "sources"}}).line();
    std::size_t n = 0;
    for (std::size_t s : citations_.cited()) {
      const SourceInfo& source = t_.catalogue.sources[s];
      h_.open("li", {{"id", "source-" + std::to_string(++n)}}).text(source_words(source));
      if (!source.url.empty()) {
        h_.text(". ");
        if (may_link(source.url)) h_.element("a", source.url, {{"href", source.url}});
        else h_.text(source.url);
      }
      h_.close("li").line();
    }
    h_.close("ol");
  }

  const Tables& t_;
  const Report& d_;
  HtmlWriter h_;
  Citations citations_;
};

}  // namespace

std::string render_html(const Tables& tables, const Report& document) { return Renderer(tables, document).run(); }

std::string mark_sign(Mark mark) { return mark == Mark::original ? "✓" : mark == Mark::later ? "✕" : mark == Mark::uncertain ? "~" : ""; }

std::string mark_word(Mark mark) { return mark == Mark::original ? "as built" : mark == Mark::later ? "later change" : mark == Mark::uncertain ? "uncertain" : ""; }

}  // namespace exworks
