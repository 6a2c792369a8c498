#include "base/text.hpp"
#include "report/render/page.hpp"
#include "report/render/source_list.hpp"
#include "report/render/render.hpp"

namespace exworks {

namespace {

class TextRenderer {
 public:
  TextRenderer(const Tables& tables, const Report& document, bool colour) : t_(tables), d_(document), page_(colour) {}

  std::string run() {
    page_.heading(d_.kind.empty() ? d_.title : d_.kind + ": " + d_.title);
    for (const std::string& line : d_.particulars) page_.paragraph(line);
    for (const Block& block : d_.blocks) std::visit([&](const auto& b) { put(b); }, block);
    return page_.text();
  }

 private:
  static Page::Tone tone(Mark mark) { return mark == Mark::original ? Page::Tone::good : mark == Mark::later ? Page::Tone::bad : mark == Mark::uncertain ? Page::Tone::doubt : Page::Tone::strong; }
  static Page::Tone tone(const Text& text) { return text.quiet ? Page::Tone::faint : text.strong ? Page::Tone::strong : Page::Tone::plain; }

  std::string words(const Text& text) {
    std::string out = text.mark == Mark::none ? "" : mark_sign(text.mark) + " ";
    out += text.words;
    const std::string refs = citations_.cite(text.sources);
    return refs.empty() ? out : out + " " + refs;
  }

  void put(const Heading& b) { page_.heading(b.words); }
  void put(const Paragraph& b) { page_.paragraph(words(b.text), 2, tone(b.text)); }

  void put(const Bullets& b) {
    for (const Text& item : b.items) page_.pair(b.boxes ? "[ ]" : "-", words(item), 2, b.boxes ? 6 : 4);
  }

  void put(const Table& b) {
    if (!b.caption.empty()) page_.paragraph(b.caption + ":");
    for (const auto& row : b.rows) {
      if (row.empty()) continue;
      page_.paragraph(words(row[0]), 2);
      for (std::size_t i = 1; i < row.size(); ++i) {
        if (!row[i].words.empty() || row[i].mark != Mark::none) page_.pair(i < b.head.size() ? b.head[i] : "", words(row[i]), 4, 24);
      }
    }
  }

  void put(const Figure& b) { page_.paragraph(b.says); }

  void put(const Answers& b) {
    for (const auto& [question, answer] : b.items) {
      page_.paragraph(question, 2);
      page_.paragraph(words(answer), 4);
    }
  }

  void put(const Pairs& b) {
    for (const auto& [name, text] : b.items) page_.pair(name, words(text), 2, 16, tone(text));
  }

  void put(const Finding& b) {
    page_.leader(words({b.title, b.sources, b.mark, false, false}), b.figure, 2, tone(b.mark));
    for (const auto& [name, is] : b.particulars) page_.pair(name, is, 4, 20);
    for (const Text& line : b.lines) page_.paragraph(words(line), 4, tone(line));
  }

  void put(const Blanks& b) {
    for (const std::string& label : b.labels) page_.paragraph(label + ": ______________________________");
  }

  void put(const Photo& b) { page_.paragraph("Photo: " + b.caption); }

  void put(const SheetItem& b) {
    page_.heading(b.title);
    if (!b.ask.empty()) page_.paragraph(b.ask);
    if (!b.caution.empty()) page_.paragraph("Take care: " + b.caution);
    for (const auto& [name, how] : b.values) page_.pair("[ ]", name + (how.empty() ? "" : ": " + how), 2, 6);
    page_.paragraph("Notes: ____________________________________________________________");
  }

  void put(const References&) { list_sources(t_, citations_, false, page_); }

  const Tables& t_;
  const Report& d_;
  Page page_;
  Citations citations_;
};

}  // namespace

std::string render_text(const Tables& tables, const Report& document, bool colour) { return TextRenderer(tables, document, colour).run(); }

}  // namespace exworks
