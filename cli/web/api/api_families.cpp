#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "assess/questions/recognise.hpp"
#include "web/api/api.hpp"
#include "web/api/edits.hpp"
#include "web/api/words.hpp"

/// Which family is it: by a few questions, or by a number.
namespace exworks::cli::web {

Json Api::families(const Call&) {
  Json families = Json::array(), questions = Json::array();
  for (const Tables* t : context_.families()) families.push_back({{"id", t->family}, {"name", t->name}, {"status", t->invented ? "invented" : "real"}, {"features", t->feature_index.size()}});
  for (const QuestionInfo& q : all_questions(context_.families())) {
    Json answers = Json::array();
    for (const Label& a : q.answers) answers.push_back({{"id", a.id}, {"name", a.name}});
    questions.push_back({{"id", q.id}, {"ask", q.ask}, {"answers", std::move(answers)}});
  }
  return {{"families", std::move(families)}, {"questions", std::move(questions)}};
}

namespace {

std::string reasons(const FamilyGuess& g, bool number) {
  std::vector<std::string> out;
  if (!g.fits.empty()) out.push_back("fits: " + join_and(g.fits));
  if (!g.against.empty()) out.push_back("against it: " + join_and(g.against));
  if (number) out.push_back(g.number.empty() ? "the number is in none of its forms" : "the number reads as: " + g.number);
  std::string all;
  for (const std::string& one : out) all += (all.empty() ? "" : "; ") + one;
  return all;
}

}  // namespace

Json Api::guess(const Call& call) {
  const Json body = call.body();
  std::map<std::string, std::string> answers;
  const auto given = body.find("answers");
  if (given != body.end() && given->is_object()) {
    for (const auto& [question, ignored] : given->items()) {
      if (const std::string answer = text_of(*given, question.c_str(), 64); !answer.empty()) answers[question] = answer;
    }
  }
  const std::string number = text_of(body, "number", 60);
  Json families = Json::array();
  double none = 0;
  for (const FamilyGuess& g : guess_family(context_.families(), answers, number)) {
    if (g.pack == context_.families().size()) none = g.p;
    else families.push_back({{"id", context_.families()[g.pack]->family}, {"name", context_.families()[g.pack]->name}, {"p", g.p}, {"why", reasons(g, !number.empty())}});
  }
  return {{"families", std::move(families)}, {"none", none}};
}

}  // namespace exworks::cli::web
