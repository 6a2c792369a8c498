#include "engine/infer/documents.hpp"

#include <algorithm>
#include <cmath>

namespace exworks {

namespace {

/// P(registered `lag` months after the build). Three parts: the usual delay, slow sellers and slow ships, and vehicles first
/// registered, or registered again, many years later. Judgement.
double registration_lag(int lag, bool home) {
  if (lag < 0) return 0;
  const double keep = home ? 0.7 : 0.85;  // share still unregistered after another month
  const double usual = 0.80 * (1 - keep) * std::pow(keep, lag);
  const double slow = lag < 60 ? 0.15 / 60 : 0;
  const double late = lag < 600 ? 0.05 / 600 : 0;
  return usual + slow + late;
}

/// Share of a span that lies on month `m`, the span widened by `before` and `after` months.
double on_month(const Edge& span, Month m, int before, int after) {
  if (m < span.first - before || m > span.last + after) return 0;
  return 1.0 / (span.months() + before + after);
}

class Papers {
 public:
  Papers(const Tables& tables, const Inspection& inspection) : t_(tables) {
    Month low = t_.routes.front().first, high = t_.routes.front().last;
    for (const RouteInfo& r : t_.routes) {
      low = std::min(low, r.first);
      high = std::max(high, r.last);
    }
    span_ = high - low + 1;
    for (const Document& d : inspection.documents) document(d);
    // A seller's year is read off the registration as a rule: the same word twice is not two.
    const bool registered = std::any_of(inspection.documents.begin(), inspection.documents.end(), [](const Document& d) { return d.kind == "registration" && (d.date || d.built); });
    for (const Claim& c : inspection.claims) {
      if (registered) break;
      if (c.built && !c.built->open) add("claim" + (c.by.empty() ? "" : " by " + c.by) + ", built " + to_words(*c.built), 0.3, [&](const RouteInfo&, Month m) { return claimed_year(*c.built, m); });
    }
  }

  std::vector<DocumentLikelihood> out;

 private:
  template <class Shows>
  void add(std::string words, double reliability, Shows shows) {
    DocumentLikelihood d;
    d.words = std::move(words);
    d.reliability = reliability;
    d.wrong = (1 - reliability) / span_;
    for (const RouteInfo& r : t_.routes) {
      for (std::size_t i = 0; i < r.builds(); ++i) d.right.push_back(reliability * shows(r, r.first + static_cast<int>(i)));
    }
    out.push_back(std::move(d));
  }

  /// A whole year may be meant as a model year, which began in the late summer before it.
  static double claimed_year(const Edge& built, Month m) {
    const bool year = built.months() == 12 && built.first.month() == 1;
    return on_month(built, m, year ? 5 : 0, 0);
  }

  void document(const Document& d) {
    const auto usable = [](const std::optional<Edge>& e) { return e && !e->open; };
    if (d.kind == "registration" && usable(d.date)) {
      const Edge date = *d.date;
      add("registration, dated " + to_words(date), 0.95, [this, date](const RouteInfo& r, Month m) {
        double p = 0;
        for (Month day = date.first; day <= date.last; day = day + 1) p += registration_lag(day - m, r.market == 0);
        return p / date.months();
      });
    } else if (d.kind == "invoice" && usable(d.date)) {
      const Edge date = *d.date;
      add("invoice, dated " + to_words(date), 0.9, [this, date](const RouteInfo&, Month m) { return m <= date.last ? 1.0 / span_ : 0.0; });
    } else if (d.kind == "handbook" && (usable(d.date) || usable(d.built))) {
      const Edge date = usable(d.date) ? *d.date : *d.built;
      add("handbook, printed " + to_words(date), 0.6, [date](const RouteInfo&, Month m) { return on_month(date, m, 12, 24); });
    } else if (const auto said = build_said(d)) {
      const Edge built = *said;
      const bool year = built.months() == 12 && built.first.month() == 1;
      const bool maker = d.kind == "build-record" || d.kind == "letter" || (d.kind == "plate" && !year);
      const double reliability = d.kind == "build-record" || d.kind == "letter" ? 0.97 : d.kind == "registration" ? 0.95 : d.kind == "plate" ? 0.9 : 0.5;
      add(d.kind + ", says built " + to_words(built), reliability, [built, maker](const RouteInfo&, Month m) { return maker ? on_month(built, m, 1, 1) : claimed_year(built, m); });
    }
  }

  const Tables& t_;
  double span_ = 1;
};

}  // namespace

std::optional<Edge> build_said(const Document& d) {
  const bool of_the_build = d.kind == "build-record" || d.kind == "plate";
  for (const auto& edge : {d.built, of_the_build ? d.date : std::nullopt}) {
    if (edge && !edge->open) return edge;
  }
  return std::nullopt;
}

std::vector<DocumentLikelihood> document_likelihoods(const Tables& tables, const Inspection& inspection) { return Papers(tables, inspection).out; }

std::vector<double> document_weights(const std::vector<DocumentLikelihood>& documents, std::size_t builds) {
  if (documents.empty()) return {};
  std::vector<double> weight(builds, 1.0);
  for (const DocumentLikelihood& d : documents) {
    for (std::size_t b = 0; b < builds; ++b) weight[b] *= d.right[b] + d.wrong;
  }
  return weight;
}

}  // namespace exworks
