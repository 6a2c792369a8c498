#include "assess/questions/recognise.hpp"

#include <algorithm>

namespace exworks {

namespace {

// Judgement, common practice, no source: a slip or an odd vehicle; a number that the family's forms can't read; and how often
// some other vehicle's number happens to look like one of the family's.
constexpr double named = 0.96, unread_number = 0.02, chance_number = 0.1;

const QuestionInfo* question_of(const Tables& t, const std::string& id) {
  const auto at = std::find_if(t.catalogue.questions.begin(), t.catalogue.questions.end(), [&](const QuestionInfo& q) { return q.id == id; });
  return at == t.catalogue.questions.end() ? nullptr : &*at;
}

/// P(answer | family), times the number of answers: 1 where nothing is said.
double weight_of(const QuestionInfo* q, std::size_t answers, const std::string& answer, FamilyGuess& out) {
  const auto right = q == nullptr ? 0 : std::count(q->right.begin(), q->right.end(), true);
  if (right == 0) return 1;
  const auto at = std::find_if(q->answers.begin(), q->answers.end(), [&](const Label& a) { return a.id == answer; });
  const bool fits = at != q->answers.end() && q->right[static_cast<std::size_t>(at - q->answers.begin())];
  if (at != q->answers.end()) (fits ? out.fits : out.against).push_back(at->name);
  const auto all = static_cast<double>(answers), k = static_cast<double>(right);
  if (all <= k) return 1;
  return all * (fits ? named / k : (1 - named) / (all - k));
}

double weight_of_number(const Tables& t, const std::string& text, FamilyGuess& out) {
  for (const NumberInfo& n : t.numbers) {
    if (!n.identity) continue;
    const auto readings = read_number(text, n.grammars());
    if (readings.empty()) continue;
    out.number = n.forms[readings.front().form].grammar.name;
    return 1;
  }
  return unread_number;
}

}  // namespace

std::vector<QuestionInfo> all_questions(const std::vector<const Tables*>& packs) {
  std::vector<QuestionInfo> out;
  for (const Tables* t : packs) {
    for (const QuestionInfo& q : t->catalogue.questions) {
      auto at = std::find_if(out.begin(), out.end(), [&](const QuestionInfo& o) { return o.id == q.id; });
      if (at == out.end()) at = out.insert(out.end(), {q.id, q.ask, {}, {}});
      for (const Label& a : q.answers) {
        if (std::none_of(at->answers.begin(), at->answers.end(), [&](const Label& o) { return o.id == a.id; })) at->answers.push_back(a);
      }
    }
  }
  return out;
}

std::vector<FamilyGuess> guess_family(const std::vector<const Tables*>& packs, const std::map<std::string, std::string>& answers, const std::string& number) {
  const auto questions = all_questions(packs);
  std::vector<FamilyGuess> out;
  double total = 0;
  for (std::size_t i = 0; i <= packs.size(); ++i) {
    FamilyGuess guess;
    guess.pack = i;
    guess.p = 1;
    const bool none = i == packs.size();
    for (const QuestionInfo& q : questions) {
      const auto answer = answers.find(q.id);
      if (answer != answers.end() && !none) guess.p *= weight_of(question_of(*packs[i], q.id), q.answers.size(), answer->second, guess);
    }
    if (!number.empty()) guess.p *= none ? chance_number : weight_of_number(*packs[i], number, guess);
    total += guess.p;
    out.push_back(std::move(guess));
  }
  for (FamilyGuess& g : out) g.p /= total;
  std::stable_sort(out.begin(), out.end(), [](const FamilyGuess& a, const FamilyGuess& b) { return a.p > b.p; });
  return out;
}

}  // namespace exworks
