#include <algorithm>

#include "base/file.hpp"
#include "base/text.hpp"
#include "xml/common_lines.hpp"
#include "scheme/scheme.hpp"

namespace exworks {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t most_combinations = 100'000;

class Reader {
 public:
  Reader(Scheme& out, Diagnostics& diagnostics) : out_(out), d_(diagnostics) {}

  void read(const Element& root) {
    static const std::vector<std::string> order{"source", "question", "points", "outcome"};
    for (const std::string& name : order) {
      for (const Element& e : root.children()) {
        if (e.name() != name) continue;
        if (name == "source") source(e);
        else if (name == "question") question(e);
        else if (name == "points") points(e);
        else outcome(e);
      }
    }
    for (const Element& e : root.children()) {
      if (std::find(order.begin(), order.end(), e.name()) == order.end()) unknown_element(e, order, d_);
    }
    whole();
  }

 private:
  void source(const Element& e) {
    const Source s = read_source_line(e, d_);
    source_ids_.add(s.id, s.place, d_);
    std::string words = s.title;
    for (const std::string& more : {s.publisher, s.year}) words += more.empty() ? "" : ", " + more;
    out_.sources.push_back({s.id, word(s.kind), words, s.url});
  }

  void question(const Element& e) {
    const Attributes a(e, d_, {"id", "components", "lapses", "lapses-to"});
    SchemeQuestion q;
    q.place = e.place();
    q.id = a.id();
    q.components = component_words(a, "components", {"rest"});
    q.ask = e.text();
    if (q.ask.empty()) d_.error(q.place, "question '" + q.id + "' asks nothing", "write what is asked between the tags");
    Ids ids("answer");
    for (const Element& child : e.children()) {
      if (child.name() != "answer") {
        unknown_element(child, {"answer"}, d_);
        continue;
      }
      const Attributes b(child, d_, {"id", "name", "of"});
      SchemeAnswer answer{b.id(), b.text("name"), false, false};
      for (const std::string& word : split_words(b.text_or("of", ""))) {
        if (word == "original") answer.of_original = true;
        else if (word == "later-change") answer.of_later = true;
        else d_.error(child.place("of"), "an answer is not 'of' '" + word + "'", "write original, later-change or both");
      }
      ids.add(answer.id, child.place(), d_);
      q.answers.push_back(std::move(answer));
    }
    if (q.answers.size() < 2) d_.error(q.place, "question '" + q.id + "' has fewer than two answers", "give those that the rule tells apart");
    const auto some = [&](bool SchemeAnswer::*of) { return std::any_of(q.answers.begin(), q.answers.end(), [&](const SchemeAnswer& x) { return x.*of; }); };
    if (!q.components.empty() && (!some(&SchemeAnswer::of_original) || !some(&SchemeAnswer::of_later))) {
      d_.error(q.place, "question '" + q.id + "' is asked of components, but not each verdict has an answer", "give of=\"original\" and of=\"later-change\" to the answers that each allows");
    }
    if (const auto years = a.integer("lapses", 1, 200)) {
      q.lapses = static_cast<int>(*years);
      q.lapses_to = ids.resolve(a.text("lapses-to"), e.place("lapses-to"), d_).value_or(0);
    }
    question_ids_.add(q.id, q.place, d_);
    answer_ids_.push_back(std::move(ids));
    out_.questions.push_back(std::move(q));
  }

  /// Words of an attribute as answers of a question.
  std::set<std::size_t> answers(const Attributes& a, std::string_view name, std::size_t question) {
    std::set<std::size_t> out;
    for (const std::string& word : split_words(a.text(name))) {
      if (const auto i = answer_ids_[question].resolve(word, a.element().place(name), d_)) out.insert(*i);
    }
    return out;
  }

  void points(const Element& e) {
    const Attributes a(e, d_, {"question", "is", "points", "clause"});
    const auto q = question_ids_.resolve(a.text("question"), e.place("question"), d_);
    const auto p = a.number("points", 0, 1000);
    if (!a.has("points")) a.text("points");
    if (q) out_.points.push_back({*q, answers(a, "is", *q), p.value_or(0), a.text_or("clause", "")});
  }

  void outcome(const Element& e) {
    const Attributes a(e, d_, {"id", "name", "clause", "source"});
    SchemeOutcome o;
    o.id = a.id(true);
    o.name = a.text("name");
    o.clause = a.text_or("clause", "");
    o.advice = e.text();
    for (const std::string& id : split_words(a.text("source"))) {
      if (const auto s = source_ids_.resolve(id, e.place("source"), d_)) o.sources.push_back(*s);
    }
    for (const Element& child : e.children()) condition(child, o);
    out_.outcomes.push_back(std::move(o));
    last_ = e.place();
  }

  void condition(const Element& e, SchemeOutcome& o) {
    using Kind = SchemeCondition::Kind;
    static const std::vector<std::string> names{"when", "count", "sum", "age", "built"};
    const auto at = std::find(names.begin(), names.end(), e.name());
    if (at == names.end()) return unknown_element(e, names, d_);
    SchemeCondition c;
    c.kind = static_cast<Kind>(at - names.begin());
    const Attributes a(e, d_, allowed(c.kind));
    if (c.kind == Kind::answer || c.kind == Kind::count) {
      for (const std::string& id : split_words(a.text(c.kind == Kind::answer ? "question" : "questions"))) {
        const auto q = question_ids_.resolve(id, e.place(c.kind == Kind::answer ? "question" : "questions"), d_);
        if (!q) continue;
        c.questions.push_back(*q);
        c.answers.push_back(answers(a, "is", *q));
      }
    }
    if (c.kind == Kind::built) {
      c.from = a.day("from");
      c.to = a.day("to");
    } else if (c.kind != Kind::answer) {
      c.at_least = a.number("at-least", 0, 10'000).value_or(0);
      c.at_most = a.number("at-most", 0, 10'000).value_or(1e9);
      if (!a.has("at-least") && !a.has("at-most")) d_.error(e.place(), "'" + e.name() + "' sets no limit", "write at-least=, at-most= or both");
    }
    c.year_end = c.kind == Kind::age && a.choice("counted-from", {"day", "year-end"}, "day") == "year-end";
    o.conditions.push_back(std::move(c));
  }

  static std::vector<std::string_view> allowed(SchemeCondition::Kind kind) {
    switch (kind) {
      case SchemeCondition::Kind::answer: return {"question", "is"};
      case SchemeCondition::Kind::count: return {"questions", "is", "at-least", "at-most"};
      case SchemeCondition::Kind::points: return {"at-least", "at-most"};
      case SchemeCondition::Kind::age: return {"at-least", "at-most", "counted-from"};
      case SchemeCondition::Kind::built: return {"from", "to"};
    }
    return {};
  }

  void whole() {
    if (out_.outcomes.empty()) {
      d_.error(out_.place, "the scheme has no outcomes", "write one <outcome> for each thing that the rule can say");
    } else if (!out_.outcomes.back().conditions.empty()) {
      d_.error(last_, "the last outcome has conditions, so that a vehicle may have none", "end with an outcome without conditions: what holds otherwise");
    }
    std::size_t combinations = 1;
    for (const SchemeQuestion& q : out_.questions) combinations *= std::max<std::size_t>(1, q.answers.size());
    if (combinations > most_combinations) d_.error(out_.place, "the questions have " + std::to_string(combinations) + " combinations of answers", "merge questions or answers: 100,000 are the most");
  }

  Scheme& out_;
  Diagnostics& d_;
  Place last_;
  Ids source_ids_{"source"}, question_ids_{"question"};
  std::vector<Ids> answer_ids_;
};

}  // namespace

std::optional<Scheme> read_scheme(std::string text, const std::string& file, Diagnostics& d) {
  const std::size_t errors = d.error_count();
  const auto root = XmlFile::parse(std::move(text), file, d);
  if (!root) return std::nullopt;
  if (root->name() != "scheme") {
    d.error(root->place(), "the root element is '" + root->name() + "'", "a classification begins with <scheme format=\"1\" id=\"...\">");
    return std::nullopt;
  }
  const Attributes a(*root, d, {"format", "id", "name", "group", "edition", "decides", "assume", "note", "country", "from", "to"});
  if (a.text("format") != std::to_string(scheme_format)) {
    d.error(root->place("format"), "this program reads format " + std::to_string(scheme_format), "write format=\"1\", or update the program");
    return std::nullopt;
  }
  Scheme s;
  s.place = root->place();
  s.id = a.id();
  s.name = a.text("name");
  s.group = a.text("group");
  s.edition = a.text_or("edition", "");
  s.decides = a.text("decides");
  s.assume = a.text_or("assume", "");
  s.note = a.text_or("note", "");
  s.country = a.text_or("country", "");
  s.from = a.day("from");
  s.to = a.day("to");
  Reader(s, d).read(*root);
  if (d.error_count() > errors) return std::nullopt;
  return s;
}

std::vector<Scheme> read_schemes(const fs::path& folder, Diagnostics& d) {
  std::vector<fs::path> files;
  std::error_code code;
  for (const auto& entry : fs::directory_iterator(folder, code)) {
    if (entry.path().extension() == ".xml") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  std::vector<Scheme> out;
  for (const fs::path& f : files) {
    if (auto s = read_scheme(read_file(f), f.string(), d)) out.push_back(std::move(*s));
  }
  return out;
}

}  // namespace exworks
