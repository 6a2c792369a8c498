#include <algorithm>

#include "scheme/scheme.hpp"

namespace exworks {

namespace {

using Choice = std::vector<std::size_t>;  // [question]: the answer assumed

class Classifier {
 public:
  Classifier(const Scheme& scheme, const SchemeCase& vehicle) : s_(scheme), v_(vehicle) {}

  Classification run() {
    const std::set<std::size_t> all = outcomes_of(v_.possible, days());
    Classification out;
    out.outcomes.assign(all.begin(), all.end());
    if (!s_.points.empty()) points(out);
    if (all.size() < 2) return out;
    for (std::size_t q = 0; q < v_.possible.size(); ++q) {
      if (v_.possible[q].size() < 2) continue;
      const bool tells = std::any_of(v_.possible[q].begin(), v_.possible[q].end(), [&](std::size_t answer) {
        auto fixed = v_.possible;
        fixed[q] = {answer};
        return outcomes_of(fixed, days()).size() < all.size();
      });
      if (tells) out.open.push_back(q);
    }
    const std::vector<CalendarDay> tried = days();
    out.date_open = tried.size() > 1 && std::any_of(tried.begin(), tried.end(), [&](const CalendarDay& d) { return outcomes_of(v_.possible, {d}).size() < all.size(); });
    return out;
  }

 private:
  /// Conditions on dates hold over runs of days; months' ends are fine enough for months, and the given ends for days.
  std::vector<CalendarDay> days() const {
    const bool dated = std::any_of(s_.outcomes.begin(), s_.outcomes.end(), [](const SchemeOutcome& o) {
      return std::any_of(o.conditions.begin(), o.conditions.end(), [](const SchemeCondition& c) { return c.kind == SchemeCondition::Kind::age || c.kind == SchemeCondition::Kind::built; });
    });
    std::set<CalendarDay> out{v_.built_from};
    if (!dated) return {v_.built_from};
    out.insert(v_.built_to);
    for (Month m = v_.built_from.month; m <= v_.built_to.month; m = m + 1) {
      for (const CalendarDay& d : {first_day(m), last_day(m)}) {
        if (d >= v_.built_from && d <= v_.built_to) out.insert(d);
      }
    }
    return {out.begin(), out.end()};
  }

  std::set<std::size_t> outcomes_of(const std::vector<std::set<std::size_t>>& possible, const std::vector<CalendarDay>& tried) const {
    std::set<std::size_t> out;
    Choice choice(possible.size());
    for (const CalendarDay& day : tried) visit(possible, 0, choice, day, out);
    return out;
  }

  void visit(const std::vector<std::set<std::size_t>>& possible, std::size_t q, Choice& choice, const CalendarDay& day, std::set<std::size_t>& out) const {
    if (q == possible.size()) {
      out.insert(decide(choice, day));
      return;
    }
    for (const std::size_t answer : possible[q]) {
      choice[q] = answer;
      visit(possible, q + 1, choice, day, out);
    }
  }

  /// The first outcome whose conditions hold; the reader has made sure that the last has none.
  std::size_t decide(const Choice& choice, const CalendarDay& day) const {
    for (std::size_t o = 0; o < s_.outcomes.size(); ++o) {
      const auto& conditions = s_.outcomes[o].conditions;
      if (std::all_of(conditions.begin(), conditions.end(), [&](const SchemeCondition& c) { return holds(c, choice, day); })) return o;
    }
    return s_.outcomes.size() - 1;
  }

  bool holds(const SchemeCondition& c, const Choice& choice, const CalendarDay& day) const {
    const auto within = [&](double x) { return x >= c.at_least && x <= c.at_most; };
    std::size_t met = 0;
    for (std::size_t i = 0; i < c.questions.size(); ++i) met += c.answers[i].contains(choice[c.questions[i]]) ? 1 : 0;
    switch (c.kind) {
      case SchemeCondition::Kind::answer: return met == c.questions.size();
      case SchemeCondition::Kind::count: return within(static_cast<double>(met));
      case SchemeCondition::Kind::points: return within(sum(choice));
      case SchemeCondition::Kind::age: return within(years_between(c.year_end ? CalendarDay{Month::of(day.month.year(), 12), 31} : day, v_.today));
      case SchemeCondition::Kind::built: return (!c.from || day >= *c.from) && (!c.to || day <= *c.to);
    }
    return false;
  }

  double sum(const Choice& choice) const {
    double out = 0;
    for (const SchemePoints& p : s_.points) out += p.answers.contains(choice[p.question]) ? p.points : 0;
    return out;
  }

  /// Questions give points independently of each other, so the ends are sums of ends.
  void points(Classification& out) const {
    double low = 0, high = 0;
    for (std::size_t q = 0; q < v_.possible.size(); ++q) {
      double least = 1e9, most = -1e9;
      for (const std::size_t answer : v_.possible[q]) {
        double x = 0;
        for (const SchemePoints& p : s_.points) x += p.question == q && p.answers.contains(answer) ? p.points : 0;
        least = std::min(least, x);
        most = std::max(most, x);
      }
      low += least;
      high += most;
    }
    out.points_low = low;
    out.points_high = high;
  }

  const Scheme& s_;
  const SchemeCase& v_;
};

}  // namespace

Classification classify(const Scheme& scheme, const SchemeCase& vehicle) { return Classifier(scheme, vehicle).run(); }

std::optional<std::size_t> Scheme::question(const std::string& question_id) const {
  for (std::size_t q = 0; q < questions.size(); ++q) {
    if (questions[q].id == question_id) return q;
  }
  return std::nullopt;
}

}  // namespace exworks
