#include "engine/evidence/documents.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

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

/// A whole year may be meant as a model year, which began in the late summer before it.
bool whole_year(const Edge& built) { return built.months() == 12 && built.first.month() == 1; }

double claimed_year(const Edge& built, Month m) { return on_month(built, m, whole_year(built) ? 5 : 0, 0); }

/// How closely a paper that says when the vehicle was built says it.
enum class Says {
  nothing,
  to_the_month,          ///< from the maker's own books: give or take a month
  month_or_model_year,   ///< the same, but a whole year may be a model year
  year                   ///< a year, calendar or model
};

/// What a paper of each kind weighs: its own date first, unless that is of the build; then what it says under `built`.
struct PaperRule {
  DocumentKind kind;
  DateMeans date_means;
  double date_reliability;  ///< 0: its own date says nothing of the build
  Says built_says;
  double built_reliability;
};

/// The table of rules/FORMAT.md, "What papers and numbers weigh". Judgement: common practice, no source.
constexpr PaperRule rules[] = {
    {DocumentKind::build_record, DateMeans::built, 0.99, Says::to_the_month, 0.99},
    {DocumentKind::works_record, DateMeans::built, 0.97, Says::to_the_month, 0.97},
    {DocumentKind::registration, DateMeans::registered, 0.95, Says::year, 0.95},
    {DocumentKind::plate, DateMeans::built, 0.9, Says::month_or_model_year, 0.9},
    {DocumentKind::handbook, DateMeans::printed, 0.6, Says::nothing, 0},  // `built` counts as its printing
    {DocumentKind::invoice, DateMeans::existed, 0.9, Says::year, 0.5},
    {DocumentKind::test_certificate, DateMeans::existed, 0.97, Says::year, 0.7},
    {DocumentKind::photograph, DateMeans::existed, 0.9, Says::year, 0.5},
    {DocumentKind::import_paper, DateMeans::existed, 0.97, Says::year, 0.7},
    {DocumentKind::letter, DateMeans::built, 0, Says::to_the_month, 0.97},
    {DocumentKind::owner, DateMeans::built, 0, Says::year, 0.5},
};
constexpr double claim_reliability = 0.3;

constexpr const PaperRule& rule_of(DocumentKind kind) { return rules[static_cast<std::size_t>(kind)]; }
static_assert(std::all_of(std::begin(rules), std::end(rules), [](const PaperRule& r) { return &rule_of(r.kind) == &r; }));

/// A paper's date as it is weighed.
struct Weighed {
  DateMeans means;
  Edge date;
  Says says;
  double reliability;
};

std::optional<Weighed> weighed(const Document& d) {
  const PaperRule& rule = rule_of(d.kind);
  const auto usable = [](const std::optional<Edge>& e) { return e && !e->open; };
  const bool by_date = usable(d.date) && rule.date_reliability > 0;
  if (by_date && rule.date_means != DateMeans::built) return Weighed{rule.date_means, *d.date, Says::nothing, rule.date_reliability};
  if (usable(d.built) && rule.built_reliability > 0) return Weighed{DateMeans::built, *d.built, rule.built_says, rule.built_reliability};
  if (usable(d.built)) return Weighed{rule.date_means, *d.built, Says::nothing, rule.date_reliability};
  if (by_date) return Weighed{DateMeans::built, *d.date, rule.built_says, rule.date_reliability};
  return std::nullopt;
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
    for (std::size_t i = 0; i < inspection.documents.size(); ++i) {
      if (const auto w = weighed(inspection.documents[i])) add(Paper::document, i, *w);
    }
    // A seller's year is read off the registration as a rule: the same word twice is not two.
    const bool registered = std::any_of(inspection.documents.begin(), inspection.documents.end(),
                                        [](const Document& d) { return d.kind == DocumentKind::registration && (d.date || d.built); });
    for (std::size_t i = 0; i < inspection.claims.size() && !registered; ++i) {
      const auto& built = inspection.claims[i].built;
      if (built && !built->open) add(Paper::claim, i, {DateMeans::built, *built, Says::year, claim_reliability});
    }
  }

  std::vector<DocumentLikelihood> out;

 private:
  void add(Paper paper, std::size_t index, const Weighed& w) {
    DocumentLikelihood d{paper, index, w.means, w.date, w.reliability, {}, (1 - w.reliability) / span_};
    for (const RouteInfo& r : t_.routes) {
      for (std::size_t i = 0; i < r.builds(); ++i) d.right.push_back(w.reliability * shows(w, r, r.first + static_cast<int>(i)));
    }
    out.push_back(std::move(d));
  }

  double shows(const Weighed& w, const RouteInfo& route, Month m) const {
    switch (w.means) {
      case DateMeans::registered: return registered(w.date, m, route.market == 0);
      case DateMeans::existed: return m <= w.date.last ? 1.0 / span_ : 0.0;
      case DateMeans::printed: return on_month(w.date, m, 12, 24);
      case DateMeans::built: break;
    }
    const bool exact = w.says == Says::to_the_month || (w.says == Says::month_or_model_year && !whole_year(w.date));
    return exact ? on_month(w.date, m, 1, 1) : claimed_year(w.date, m);
  }

  static double registered(const Edge& date, Month m, bool home) {
    double p = 0;
    for (Month day = date.first; day <= date.last; day = day + 1) p += registration_lag(day - m, home);
    return p / date.months();
  }

  const Tables& t_;
  double span_ = 1;
};

}  // namespace

std::optional<Edge> date_weighed(const Document& d) {
  const auto w = weighed(d);
  return w ? std::optional(w->date) : std::nullopt;
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
