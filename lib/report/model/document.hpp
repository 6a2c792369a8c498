#pragma once
#include <string>
#include <utility>
#include <variant>
#include <vector>

/// A report before it is dressed: blocks of plain words, from which the HTML, the PDF and the plain text are made alike.
namespace exworks {

/// What a line says of a feature; shown as a sign and a word, and only then as a colour.
enum class Mark { none, original, later, uncertain };

struct Text {
  std::string words;
  std::vector<std::size_t> sources;  ///< indices into Tables::sources, cited after the words
  Mark mark = Mark::none;
  bool strong = false, quiet = false;
};

struct Heading {
  int level = 2;
  std::string words;
};

struct Paragraph {
  Text text;
};

struct Bullets {
  std::vector<Text> items;
  bool boxes = false;  ///< a box to tick before each
};

struct Table {
  std::string caption;
  std::vector<std::string> head;
  std::vector<std::vector<Text>> rows;
  bool figures_last = false;  ///< the last column holds figures
  bool even = false;          ///< one of several whose columns stand under each other
};

/// A drawing of ours; `says` is what it shows, in words, for those who can't see it and for the plain text.
struct Figure {
  std::string svg, caption, says;
  bool small = false;  ///< as wide on paper as its detail needs
};

/// The first page's questions and their answers.
struct Answers {
  std::vector<std::pair<std::string, Text>> items;
};

/// Names, and what each is: a label in its column with words beside it.
struct Pairs {
  std::vector<std::pair<std::string, Text>> items;
};

/// One finding: what it is about, its figure, the particulars that it has (name, what it is), and the lines behind it.
struct Finding {
  std::string title, figure;
  Mark mark = Mark::none;
  std::vector<Text> lines;
  std::vector<std::pair<std::string, std::string>> particulars = {};
  std::vector<std::size_t> sources = {};  ///< cited after the title
};

/// Room to write by hand, a ruled line after each label.
struct Blanks {
  std::vector<std::string> labels;
};

struct Photo {
  std::string data_uri, caption, alternative;
};

/// One feature of an inspection sheet: boxes to tick and lines to write on.
struct SheetItem {
  std::string title, ask, caution;
  std::vector<std::pair<std::string, std::string>> values;  ///< name, how to recognise it
  bool brief = false;                                       ///< names of the values only
  std::string feature;                                      ///< its id
};

struct References {};  ///< the sources cited so far, numbered

using Block = std::variant<Heading, Paragraph, Bullets, Table, Figure, Answers, Pairs, Finding, Blanks, Photo, SheetItem, References>;

/// How it is set on paper: sheets to tick have two columns; the short one fits on one side.
enum class Layout { report, sheet, short_sheet };

struct Report {
  std::string language = "en-GB";
  std::string paper = "A4";  ///< A4 or letter
  std::string kind;          ///< "Pre-purchase report"
  std::string title;         ///< what the page is about
  std::vector<std::string> particulars;  ///< short lines under the title
  std::vector<Block> blocks;
  Layout layout = Layout::report;

  void heading(int level, std::string words) { blocks.push_back(Heading{level, std::move(words)}); }
  void paragraph(std::string words, bool quiet = false) { blocks.push_back(Paragraph{{std::move(words), {}, Mark::none, false, quiet}}); }
};

}  // namespace exworks
