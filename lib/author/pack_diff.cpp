#include "author/pack_diff.hpp"

#include <algorithm>
#include <set>

#include "author/pack_items.hpp"
#include "engine/compile/axes.hpp"
#include "words/english/scopes.hpp"

namespace exworks {

namespace {

/// A fact in words, so that facts of two packs can be compared.
struct FactWords {
  std::string value, value_name, who, when, fitted, sources;
  /// The value's name aside: that it is called otherwise is said once, of the value.
  bool same_as(const FactWords& o) const { return value == o.value && who == o.who && when == o.when && fitted == o.fitted && sources == o.sources; }
};

std::string fitted_words(const Fact& f) {
  std::string out = f.fitted == Fitted::standard ? "standard" : f.fitted == Fitted::option ? "option" : "fitted by dealers";
  if (f.share) out += " on " + figure_words(100 * *f.share) + " %";
  return out;
}

FactWords words_of(const Pack& p, const Axes& axes, const Feature& feature, const Fact& f) {
  FactWords w;
  const bool other = f.value >= feature.values.size();  // the works fitted none of them
  w.value = other ? "other" : feature.values[f.value].id;
  w.value_name = other ? "none of these" : feature.values[f.value].name;
  w.who = scope_words(axes, f.scope);
  w.when = period_words(f.from, f.to, f.from_number, f.to_number);
  if (w.when.empty()) w.when = "as long as they were built";
  w.fitted = fitted_words(f);
  w.sources = cited_words(p, f.sources);
  return w;
}

class Differ {
 public:
  Differ(const Pack& before, const Pack& after) : a_(before), b_(after), a_axes_(axes_of(before)), b_axes_(axes_of(after)) {}

  std::vector<PackDifference> run() {
    if (a_.name != b_.name) add("changed", "pack", b_.id, "The family is called " + b_.name + ", was " + a_.name);
    sources();
    axes("market", a_.markets, b_.markets);
    axes("plant", a_.plants, b_.plants);
    axes("generation", a_.generations, b_.generations);
    axes("variant", a_.variants, b_.variants);
    axes("assembly", a_.assemblies, b_.assemblies);
    axes("feature", a_.features, b_.features);
    for (const Feature& f : b_.features) {
      if (const Feature* old = find(a_.features, f.id)) feature(*old, f);
    }
    axes("later change", a_.later_changes, b_.later_changes);
    axes("conversion", a_.conversions, b_.conversions);
    axes("number", a_.numbers, b_.numbers);
    for (const Number& n : b_.numbers) {
      if (const Number* old = find(a_.numbers, n.id)) ranges(*old, n);
    }
    return std::move(out_);
  }

 private:
  void add(const char* kind, const char* about, const std::string& id, std::string words) { out_.push_back({kind, about, id, std::move(words)}); }

  template <class Items>
  static auto find(const Items& items, const std::string& id) -> const typename Items::value_type* {
    const auto at = std::find_if(items.begin(), items.end(), [&](const auto& x) { return x.id == id; });
    return at == items.end() ? nullptr : &*at;
  }

  template <class Items>
  void axes(const char* about, const Items& before, const Items& after) {
    for (const auto& x : after) {
      const auto* old = find(before, x.id);
      if (old == nullptr) add("added", about, x.id, "New " + std::string(about) + ": " + x.name);
      else if (old->name != x.name) add("changed", about, x.id, "The " + std::string(about) + " " + x.id + " is called " + x.name + ", was " + old->name);
      if constexpr (requires { said_of(b_, x); }) {
        if (old != nullptr) said(about, x.id, x.name, said_of(a_, *old), said_of(b_, x));
      }
    }
    for (const auto& x : before) {
      if (find(after, x.id) == nullptr) add("removed", about, x.id, "No longer there: the " + std::string(about) + " " + x.name);
    }
  }

  /// By what they are: ids are the author's own affair.
  void sources() {
    std::set<std::string> before, after;
    for (const Source& x : a_.sources) before.insert(citation(x));
    for (const Source& x : b_.sources) after.insert(citation(x));
    for (const std::string& x : after) {
      if (before.count(x) == 0) add("added", "source", "", "New source: " + x);
    }
    for (const std::string& x : before) {
      if (after.count(x) == 0) add("removed", "source", "", "No longer a source: " + x);
    }
  }

  void said(const char* about, const std::string& id, const std::string& name, const std::vector<Said>& was, const std::vector<Said>& is) {
    for (std::size_t i = 0; i < is.size(); ++i) {
      if (was[i].words != is[i].words) add("changed", about, id, name + ": " + is[i].what + " " + or_nothing(is[i].words) + ", was " + or_nothing(was[i].words));
    }
  }

  static std::string or_nothing(const std::string& words) { return words.empty() ? "not said" : "'" + words + "'"; }

  void feature(const Feature& before, const Feature& after) {
    for (const Value& v : after.values) {
      const Value* old = find(before.values, v.id);
      if (old == nullptr) add("added", "value", after.id, after.name + ": new value, " + v.name);
      else said("value", after.id, after.name + ", " + v.id, said_of(before, *old), said_of(after, v));
    }
    for (const Value& v : before.values) {
      if (find(after.values, v.id) == nullptr) add("removed", "value", after.id, after.name + ": no longer a value, " + v.name);
    }
    std::vector<FactWords> old_facts, new_facts;
    for (const Fact& f : before.facts) old_facts.push_back(words_of(a_, a_axes_, before, f));
    for (const Fact& f : after.facts) new_facts.push_back(words_of(b_, b_axes_, after, f));
    match(old_facts, new_facts, [](const FactWords& x, const FactWords& y) { return x.same_as(y); }, nullptr);
    // What remains and speaks of the same vehicles has changed; what remains then is new or gone.
    match(old_facts, new_facts, [](const FactWords& x, const FactWords& y) { return x.value == y.value && x.who == y.who && x.fitted == y.fitted; }, &after);
    match(old_facts, new_facts, [](const FactWords& x, const FactWords& y) { return x.value == y.value && x.who == y.who; }, &after);
    match(old_facts, new_facts, [](const FactWords& x, const FactWords& y) { return x.value == y.value && x.when == y.when; }, &after);
    for (const FactWords& f : new_facts) add("added", "fact", after.id, "New: " + whole(after, f));
    for (const FactWords& f : old_facts) add("removed", "fact", after.id, "No longer said: " + whole(after, f));
  }

  static std::string subject(const FactWords& f) { return f.who.empty() ? "every variant and market" : f.who; }

  static std::string whole(const Feature& feature, const FactWords& f) {
    return feature.name + ", " + f.value_name + ": " + subject(f) + " " + f.when + " (" + f.fitted + "; " + f.sources + ")";
  }

  /// Takes out pairs that belong together; with a feature, says how they differ.
  template <class Same>
  void match(std::vector<FactWords>& before, std::vector<FactWords>& after, Same same, const Feature* feature) {
    for (auto n = after.begin(); n != after.end();) {
      const auto o = std::find_if(before.begin(), before.end(), [&](const FactWords& x) { return same(x, *n); });
      if (o == before.end()) {
        ++n;
        continue;
      }
      if (feature != nullptr) changed(*feature, *o, *n);
      before.erase(o);
      n = after.erase(n);
    }
  }

  void changed(const Feature& feature, const FactWords& was, const FactWords& is) {
    std::string words = feature.name + ", " + is.value_name + ": " + subject(is);
    if (was.who != is.who) words += " (was " + subject(was) + ")";
    words += " " + is.when;
    if (was.when != is.when) words += ", was " + was.when;
    if (was.fitted != is.fitted) words += "; " + is.fitted + ", was " + was.fitted;
    if (was.sources != is.sources) words += "; by " + is.sources + ", was by " + was.sources;
    add("changed", "fact", feature.id, words);
  }

  void ranges(const Number& before, const Number& after) {
    const auto words = [](const NumberRange& r) { return std::to_string(r.first) + " to " + std::to_string(r.last) + ": " + period_words(r.from, r.to); };
    std::vector<std::string> old_rows, new_rows;
    for (const NumberRange& r : before.ranges) old_rows.push_back(words(r) + " (" + scope_words(a_axes_, r.scope) + ")");
    for (const NumberRange& r : after.ranges) new_rows.push_back(words(r) + " (" + scope_words(b_axes_, r.scope) + ")");
    for (const std::string& r : new_rows) {
      if (std::find(old_rows.begin(), old_rows.end(), r) == old_rows.end()) add("added", "number", after.id, "New: " + after.name + ", " + r);
    }
    for (const std::string& r : old_rows) {
      if (std::find(new_rows.begin(), new_rows.end(), r) == new_rows.end()) add("removed", "number", after.id, "No longer said: " + after.name + ", " + r);
    }
  }

  const Pack& a_;
  const Pack& b_;
  Axes a_axes_, b_axes_;
  std::vector<PackDifference> out_;
};

}  // namespace

std::vector<PackDifference> pack_differences(const Pack& before, const Pack& after) { return Differ(before, after).run(); }

}  // namespace exworks
