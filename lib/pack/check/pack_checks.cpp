#include "pack/check/pack_checks.hpp"

#include <algorithm>
#include <map>

#include "base/text.hpp"
#include "pack/model/limits.hpp"

namespace exworks {

namespace {

constexpr std::size_t most_tied = 10;  // conversions of one group: 1024 sets of them


std::string at(const Place& p) { return p.file + ":" + std::to_string(p.line) + ":" + std::to_string(p.column); }

/// A fact may say that the works fitted none of the feature's values.
std::string value_name(const Feature& f, std::size_t value) { return value < f.values.size() ? f.values[value].id : "other"; }

class Checker {
 public:
  Checker(const Pack& pack, Diagnostics& diagnostics) : pack_(pack), diagnostics_(diagnostics), routes_(routes(pack)) {}

  void run() {
    builds();
    volumes();
    assemblies();
    later_changes();
    conversions();
    for (std::size_t f = 0; f < pack_.features.size(); ++f) feature(f);
    numbers();
  }

 private:
  void builds() {
    std::vector<bool> reached(pack_.variants.size());
    for (const Route& r : routes_) reached[r.variant] = true;
    for (std::size_t v = 0; v < reached.size(); ++v) {
      if (reached[v]) continue;
      diagnostics_.error(pack_.variants[v].place, "no plant made variant '" + pack_.variants[v].id + "' for any of its markets in its window",
                         "check its plants and markets, and the plants' own markets and dates");
    }
  }

  bool meet(const Scope& a, const Scope& b) const {
    return std::any_of(routes_.begin(), routes_.end(), [&](const Route& r) {
      return a.covers(r.variant, r.market, r.plant) && b.covers(r.variant, r.market, r.plant);
    });
  }

  void volumes() {
    for (std::size_t i = 0; i < pack_.volumes.size(); ++i) {
      const Volume& a = pack_.volumes[i];
      for (std::size_t j = 0; j < i; ++j) {
        const Volume& b = pack_.volumes[j];
        const bool apart = (!a.to.open && !b.from.open && a.to.last < b.from.first) || (!b.to.open && !a.from.open && b.to.last < a.from.first);
        if (!apart && meet(a.scope, b.scope)) {
          diagnostics_.error(a.place, "this volume overlaps another in scope and period", "split the periods or the scopes; the other is at " + at(b.place));
        }
      }
    }
  }

  void assemblies() {
    for (std::size_t s = 0; s < pack_.assemblies.size(); ++s) {
      const Assembly& assembly = pack_.assemblies[s];
      const bool used = std::any_of(pack_.features.begin(), pack_.features.end(), [&](const Feature& f) { return f.assembly == s; }) ||
                        std::any_of(pack_.numbers.begin(), pack_.numbers.end(), [&](const Number& n) { return n.assembly == s; });
      if (!used) diagnostics_.error(assembly.place, "assembly '" + assembly.id + "' has no features", "give a feature assembly=\"" + assembly.id + "\", or delete it");
      for (std::size_t i = 0; i < assembly.interchange.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
          const AxisSet both = assembly.interchange[i].variants & assembly.interchange[j].variants;
          if (both.none()) continue;
          std::size_t v = 0;
          while (!both[v]) ++v;
          diagnostics_.error(assembly.interchange[i].place, "variant '" + pack_.variants[v].id + "' stands in two interchange rows",
                             "put all its donors into one row; the other is at " + at(assembly.interchange[j].place));
        }
      }
    }
  }

  void later_changes() {
    std::map<std::size_t, double> sums;
    for (const LaterChange& c : pack_.later_changes) {
      if (!c.assembly) continue;
      double& sum = sums[*c.assembly];
      sum += c.share;
      if (sum > 0.95) {
        diagnostics_.error(c.place, "the later changes of assembly '" + pack_.assemblies[*c.assembly].id + "' add up to more than 0.95", "share= is of all replaced ones; leave some for donors of the family");
      }
    }
  }

  /// Conversions that are tied to one another by what they set are summed over in all their sets: twice as many for each.
  void conversions() {
    const auto unit_of = [&](std::size_t f) { return pack_.features[f].assembly ? *pack_.features[f].assembly : pack_.assemblies.size() + f; };
    std::vector<std::size_t> first(pack_.conversions.size());  // [conversion]: the first that it is tied to
    for (std::size_t c = 0; c < first.size(); ++c) {
      first[c] = c;
      for (std::size_t d = 0; d < c; ++d) {
        const bool tied = std::any_of(pack_.conversions[c].sets.begin(), pack_.conversions[c].sets.end(), [&](const auto& s) {
          return std::any_of(pack_.conversions[d].sets.begin(), pack_.conversions[d].sets.end(), [&](const auto& t) { return unit_of(s.feature) == unit_of(t.feature); });
        });
        if (!tied) continue;
        const std::size_t from = std::max(first[c], first[d]), to = std::min(first[c], first[d]);
        for (std::size_t e = 0; e <= c; ++e) first[e] = first[e] == from ? to : first[e];
      }
      const auto tied = static_cast<std::size_t>(std::count(first.begin(), first.begin() + static_cast<std::ptrdiff_t>(c) + 1, first[c]));
      if (tied == most_tied + 1) {
        diagnostics_.error(pack_.conversions[c].place, "more than " + std::to_string(most_tied) + " conversions touch the same features and assemblies, one through another",
                           "write the rarest as later changes, or let each set fewer features");
      }
    }
  }

  void feature(std::size_t index) {
    const Feature& f = pack_.features[index];
    const std::size_t errors = diagnostics_.error_count();
    std::vector<bool> reached(f.values.size(), false);
    for (const Fact& fact : f.facts) {
      if (fact.value < reached.size()) reached[fact.value] = true;
      fact_meets_builds(f, fact);
    }
    for (const LaterChange& c : pack_.later_changes) {
      for (const auto& [feature, value] : c.sets) {
        if (feature == index && value < reached.size()) reached[value] = true;
      }
    }
    for (const Conversion& c : pack_.conversions) {
      for (const auto& s : c.sets) {
        if (s.feature == index && s.value < reached.size()) reached[s.value] = true;
      }
    }
    for (std::size_t v = 0; v < reached.size(); ++v) {
      if (!reached[v]) {
        diagnostics_.error(f.values[v].place, "nothing leads to value '" + f.values[v].id + "' of feature '" + f.id + "'",
                           "write a fact, a later change or a conversion that gives it, or delete it");
      }
    }
    overlaps(f);
    coverage(f, diagnostics_.error_count() > errors);
  }

  void fact_meets_builds(const Feature& f, const Fact& fact) {
    bool scope_met = false;
    Month first{1 << 30}, last{0};
    for (const Route& r : routes_) {
      if (!fact.scope.covers(r.variant, r.market, r.plant)) continue;
      if (!f.applies.covers(r.variant, r.market, r.plant)) continue;
      scope_met = true;
      first = std::min(first, r.first);
      last = std::max(last, r.last);
      for (Month m = r.first; m <= r.last; m = m + 1) {
        if (presence(fact.from, fact.to, m) > 0) return;
      }
    }
    if (!scope_met) {
      diagnostics_.error(fact.place, "this fact speaks only of vehicles on which feature '" + f.id + "' does not exist", "widen the feature's scope or correct the fact's");
    } else {
      diagnostics_.error(fact.place, "this fact's period is outside the window of its variants (" + span_words(first, last) + ")", "correct the dates or the scope");
    }
  }

  /// Two standard facts that are both in full force for the same build can't both be right.
  void overlaps(const Feature& f) {
    for (std::size_t i = 0; i < f.facts.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        const Fact& a = f.facts[i];
        const Fact& b = f.facts[j];
        if (a.value == b.value || a.fitted != Fitted::standard || b.fitted != Fitted::standard || a.share || b.share) continue;
        if (a.law || b.law) continue;  // law gives way to facts
        overlap(f, a, b);
      }
    }
  }

  void overlap(const Feature& f, const Fact& a, const Fact& b) {
    for (const Route& r : routes_) {
      if (!a.scope.covers(r.variant, r.market, r.plant) || !b.scope.covers(r.variant, r.market, r.plant)) continue;
      if (!f.applies.covers(r.variant, r.market, r.plant)) continue;
      for (Month m = r.first; m <= r.last; m = m + 1) {
        if (presence(a.from, a.to, m) + presence(b.from, b.to, m) < 1.75) continue;
        diagnostics_.error(a.place,
                           "standard facts '" + value_name(f, b.value) + "' and '" + value_name(f, a.value) + "' of feature '" + f.id + "' are both in force in " +
                               to_words(m) + " (" + pack_.variants[r.variant].id + ", " + pack_.markets[r.market].id + ")",
                           "end one with the edge that begins the other, narrow a scope, or give shares; the other is at " + at(b.place));
        return;
      }
    }
  }

  /// One note per feature about builds that no standard fact covers, one about options that add up to too much. A fact at
  /// fault may leave gaps that its correction closes: they are not told.
  void coverage(const Feature& f, bool at_fault) {
    std::size_t builds = 0, silent = 0, lone_option = 0;
    std::string first_gap;
    bool too_much = false;
    for (const Route& r : routes_) {
      if (!f.applies.covers(r.variant, r.market, r.plant)) continue;
      Month gap_start{-1};
      for (Month m = r.first; m <= r.last; m = m + 1) {
        double standard = 0, option = 0;
        for (const Fact& fact : f.facts) {
          if (!fact.scope.covers(r.variant, r.market, r.plant)) continue;
          const double p = presence(fact.from, fact.to, m);
          (fact.fitted == Fitted::standard ? standard : option) += fact.fitted == Fitted::standard ? p : p * fact.share.value_or(0);
        }
        ++builds;
        too_much = too_much || option > 1.0 + 1e-9;
        if (standard > 0) continue;
        ++silent;
        if (option > 0) ++lone_option;
        if (gap_start.index < 0) gap_start = m;
        if (first_gap.empty() && (m == r.last)) first_gap = pack_.variants[r.variant].id + ", " + pack_.markets[r.market].id + ", " + span_words(gap_start, m);
      }
      if (first_gap.empty() && gap_start.index >= 0) first_gap = pack_.variants[r.variant].id + ", " + pack_.markets[r.market].id + ", from " + to_words(gap_start);
    }
    if (too_much) diagnostics_.error(f.place, "the option and dealer shares of feature '" + f.id + "' add up to more than 1 for some builds", "lower the shares");
    if (at_fault) return;
    if (lone_option > 0) {
      diagnostics_.warning(f.place, "feature '" + f.id + "' has an option with no standard fact beside it for " + std::to_string(lone_option) + " builds",
                           "say with a standard fact what the others have");
    }
    if (silent > 0 && builds > 0) {
      diagnostics_.note(f.place, "the pack is silent on feature '" + f.id + "' for " + std::to_string(silent * 100 / builds) + " % of the builds (" + first_gap + ")",
                        "nothing need be done; such builds are taken to be like their nearest relatives, and where they lead the verdict stays uncertain");
    }
  }

  void numbers() {
    int identities = 0;
    for (const Number& n : pack_.numbers) {
      if (n.identity && ++identities == 2) diagnostics_.error(n.place, "a second number is marked identity=\"yes\"", "a vehicle is known by one; make this one identity=\"no\"");
      for (std::size_t i = 0; i < n.ranges.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) range_overlap(n.ranges[i], n.ranges[j]);
      }
    }
    if (identities == 0) diagnostics_.note({pack_.folder, 0, 0}, "no number is marked identity=\"yes\"", "mark the one that the vehicle is known by, if the family has one");
  }

  void range_overlap(const NumberRange& a, const NumberRange& b) {
    if (a.last < b.first || b.last < a.first) return;
    const bool forms_meet = a.forms.empty() || b.forms.empty() ||
                            std::any_of(a.forms.begin(), a.forms.end(), [&](std::size_t f) { return std::find(b.forms.begin(), b.forms.end(), f) != b.forms.end(); });
    if (!forms_meet || !meet(a.scope, b.scope)) return;
    // One number shared as the end of one row and the start of the next is how published points are written.
    if (a.first == b.last || b.first == a.last) return;
    diagnostics_.error(a.place, "number range " + std::to_string(a.first) + " to " + std::to_string(a.last) + " overlaps " + std::to_string(b.first) + " to " + std::to_string(b.last),
                       "correct the numbers or narrow a scope; the other is at " + at(b.place));
  }

  const Pack& pack_;
  Diagnostics& diagnostics_;
  std::vector<Route> routes_;
};

}  // namespace

void check_pack(const Pack& pack, Diagnostics& diagnostics) {
  if (within_limits(pack, diagnostics)) Checker(pack, diagnostics).run();
}

}  // namespace exworks
