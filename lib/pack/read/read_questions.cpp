#include "pack/read/reader_context.hpp"

namespace exworks {

void read_question(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, {"id", "ask"});
  Question q{a.id(), a.text("ask"), {}, element.place()};
  Ids answers("answer to '" + q.id + "'");
  for (const Element& child : element.children()) {
    if (child.name() != "answer") {
      unknown_element(child, {"answer"}, context.diagnostics);
      continue;
    }
    const Attributes b(child, context.diagnostics, {"id", "name"});
    const std::string id = b.id();
    answers.add(id, child.place(), context.diagnostics);
    q.answers.emplace_back(id, b.text("name"));
  }
  if (q.answers.size() < 2) context.diagnostics.error(q.place, "question '" + q.id + "' has fewer than two answers", "write an <answer id=\"...\" name=\"...\"/> for each");
  context.questions.add(q.id, q.place, context.diagnostics);
  context.answers.push_back(std::move(answers));
  context.pack.questions.push_back(std::move(q));
}

void read_hallmark(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, {"question", "answer", "source"});
  const auto question = context.reference(a, "question", context.questions, true);
  Hallmark h;
  h.sources = context.cited(a, true);
  h.place = element.place();
  if (!question) return;
  const auto answer = context.reference(a, "answer", context.answers[*question], true);
  if (!answer) return;
  h.question = *question;
  h.answer = *answer;
  for (const Hallmark& other : context.pack.hallmarks) {
    if (other.question != h.question || other.answer != h.answer) continue;
    context.diagnostics.error(h.place, "this answer is given twice; first in line " + std::to_string(other.place.line), "keep one of the two");
  }
  context.pack.hallmarks.push_back(std::move(h));
}

}  // namespace exworks
