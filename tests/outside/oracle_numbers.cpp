#include <algorithm>
#include <cmath>

#include "oracle.hpp"
#include "oracle_noted.hpp"

/// lib/handbook/papers-and-numbers.md: the identity number's two branches, and the looks that other numbers are.
namespace exworks::test::oracle {

namespace {

Real count(std::size_t n) {
  return static_cast<Real>(n);
}

Serial months_of(const Range& range) {
  return range.to.last - range.from.first + 1;
}

Serial size_of(const Range& range) {
  return range.last - range.first + 1;
}

Real below(Real x) {
  return 0.5L * std::erfc(-x / std::sqrt(Real{2}));
}

/// The range's numbers that were issued in a month: those of each of its months lie at its middle.
Real issued(const Range& range, int month) {
  Real out = 0;
  for (int i = 0; i < months_of(range); ++i) out += issued_in(range, static_cast<Real>(range.from.first + i) + 0.5L, month);
  return out * static_cast<Real>(size_of(range)) / static_cast<Real>(months_of(range));
}

/// 1 over the size of all ranges.
Real any_serial(const Number& number) {
  Serial total = 0;
  for (const Range& range : number.ranges) total += size_of(range);
  return Real{1} / static_cast<Real>(total > 0 ? total : 1'000'000);
}

Real for_slips(int slips) {
  Real out = 1;
  for (int i = 0; i < slips; ++i) out *= 0.1L;
  return out;
}

Real presence(const Form& form, int month) {
  return ramp(form.from, month, 1) * (1 - ramp(form.to, month, 0));
}

}  // namespace

Real issued_in(const Range& range, Real x, int month) {
  const Real begin = static_cast<Real>(range.from.first), months = static_cast<Real>(months_of(range)), m = static_cast<Real>(month);
  const Real bridge = 0.35L * std::sqrt(std::max(Real{0}, (x - begin) * (begin + months - x) / months));
  const Real sd = std::max({0.7L, static_cast<Real>(range.spread) / std::sqrt(Real{3}), bridge});
  const Real tail = std::max(Real{0}, std::min(m + 1, x + 12) - std::max(m, x - 12)) / 24;
  return 0.9L * (below((m + 1 - x) / sd) - below((m - x) / sd)) + 0.1L * tail;
}

const NumberText* Model::identity_text() const {
  for (const NumberText& text : visit_.numbers) {
    if (!pack().numbers[text.number].assembly) return &text;
  }
  return nullptr;
}

Real Model::form_share(const Number& number, std::size_t form, const Build& build) const {
  Real all = 0;
  for (const Form& other : number.forms) all += covers(other.scope, build) ? presence(other, build.month) : 0;
  if (all <= 0) return 1 / count(number.forms.size());
  const Form& own = number.forms[form];
  return covers(own.scope, build) ? presence(own, build.month) / all : 0;
}

Real Model::code_share(const Part& part, std::size_t read, const Build& build) const {
  const auto borne = [&](const Code& code) { return !code.scope || covers(*code.scope, build); };
  const auto could = std::count_if(part.codes.begin(), part.codes.end(), borne);
  if (could == 0) return 1 / count(part.codes.size());
  return borne(part.codes[read]) ? Real{1} / static_cast<Real>(could) : 0;
}

Real Model::serial_share(const Number& number, const Reading& reading, const Build& build) const {
  if (!reading.serial) return 1;
  Real all = 0, own = 0, pace = 0;
  bool held = false, issuing = false;
  const std::vector<std::size_t> holding = ranges_holding(number, reading);
  for (std::size_t r = 0; r < number.ranges.size(); ++r) {
    const Range& range = number.ranges[r];
    const bool of_form =
        range.forms.empty() || std::find(range.forms.begin(), range.forms.end(), reading.form) != range.forms.end();
    if (!of_form || !covers(range.scope, build)) continue;
    all += issued(range, build.month);
    issuing = issuing || (build.month >= range.from.first && build.month <= range.to.last);
    if (std::find(holding.begin(), holding.end(), r) == holding.end()) continue;
    held = true;
    const Real size = static_cast<Real>(size_of(range)), months = static_cast<Real>(months_of(range));
    pace = std::max(pace, size / months);
    const Real point = static_cast<Real>(range.from.first) + months * (static_cast<Real>(*reading.serial - range.first) + 0.5L) / size;
    own += issued_in(range, point, build.month);
  }
  if (held) return 0.99L * own / std::max(all, pace) + 0.01L * any_serial(number);
  return (issuing ? 0.01L : 1) * any_serial(number);
}

/// P(the text, read in this way | it is the build's own)
Real Model::own_share(const Number& number, const Reading& reading, const Build& build) const {
  Real out = for_slips(reading.slips) * form_share(number, reading.form, build) * serial_share(number, reading, build);
  for (std::size_t p = 0; p < reading.codes.size(); ++p) {
    if (reading.codes[p]) out *= code_share(number.forms[reading.form].parts[p], *reading.codes[p], build);
  }
  return out;
}

/// P(the text, read in this way | it is not the vehicle's own)
Real Model::stranger_share(const Number& number, const Reading& reading) const {
  Real out = for_slips(reading.slips) / count(number.forms.size()) * (reading.serial ? any_serial(number) : 1);
  for (std::size_t p = 0; p < reading.codes.size(); ++p) {
    if (reading.codes[p]) out /= count(number.forms[reading.form].parts[p].codes.size());
  }
  return out;
}

/// By how sure the reading is; a plate or stamp that is not the works' own is no better than probable, or than a guess.
Real Model::not_own(const NumberText& text) const {
  const BySureness& error = pack().rates.number_error;
  double out = error[doubt(text.how, text.sure)];
  if (text.state == "replaced-plate" || text.state == "copied") out = std::max(out, error[1]);
  if (text.state == "restamped") out = std::max(out, error[2]);
  return out;
}

/// One world for each way of reading the identity number as the vehicle's own, one for all in which it is not.
std::vector<World> Model::worlds_by_number() const {
  Reals prior = where_it_stands(pack(), tables_->builds(), visit_.country);
  const Reals papers = papers_weight();
  for (std::size_t b = 0; b < prior.size(); ++b) prior[b] *= papers[b];
  const NumberText* text = identity_text();
  const std::vector<Reading> readings = text ? readings_of(pack().numbers[text->number], text->text) : std::vector<Reading>{};
  if (readings.empty()) return {{false, prior, tables_->works(), tables_->changed(), {}}};
  const Number& number = pack().numbers[text->number];
  const Real error = not_own(*text);
  std::vector<World> out;
  Real stranger = 0;
  for (const Reading& reading : readings) {
    stranger += stranger_share(number, reading);
    World world{true, prior, {}, {}, {}};
    for (std::size_t b = 0; b < prior.size(); ++b) world.weight[b] *= (1 - error) * own_share(number, reading, builds()[b]);
    for (std::size_t f = 0; f < features().size(); ++f) {
      world.works.push_back(tables_->works_by_number(f, reading.serial));
      world.changed.push_back(tables_->changed_by(f, world.works.back()));
    }
    if (visit_.given_own.value_or(true)) out.push_back(std::move(world));
  }
  for (Real& p : prior) p *= error * stranger;
  if (!visit_.given_own.value_or(false)) out.push_back({false, prior, tables_->works(), tables_->changed(), {}});
  return out;
}

Reals Model::months_by_number() const {
  const NumberText* text = identity_text();
  if (text == nullptr) return {};
  const Number& number = pack().numbers[text->number];
  const std::vector<Reading> readings = readings_of(number, text->text);
  Reals out;
  Real all = 0;
  bool placed = false;
  for (const Reading& reading : readings) {
    for (std::size_t b = 0; b < builds().size(); ++b) {
      const auto month = static_cast<std::size_t>(builds()[b].month);
      if (month >= out.size()) out.resize(month + 1, 0);
      const Real p = tables_->builds().p[b] * own_share(number, reading, builds()[b]);
      out[month] += p;
      all += p;
      for (const std::size_t r : ranges_holding(number, reading)) placed = placed || (p > 0 && covers(number.ranges[r].scope, builds()[b]));
    }
  }
  // A serial that no range of such a vehicle holds says nothing of the month, where there are ranges that could.
  const auto of_form = [&](const Range& r) {
    return r.forms.empty() || std::find(r.forms.begin(), r.forms.end(), readings.front().form) != r.forms.end();
  };
  const bool could = !readings.empty() && readings.front().serial && std::any_of(number.ranges.begin(), number.ranges.end(), of_form);
  if (all <= 0 || (could && !placed)) return {};
  for (Real& p : out) p /= all;
  return out;
}

/// Codes with a value and serials in a range are looks like any other. Of several ways of reading the first counts.
void Model::look_at_numbers() {
  const auto looked_at = [&](std::size_t feature) {
    return std::any_of(looks_.begin(), looks_.end(), [&](const Look& look) { return look.feature == feature; });
  };
  for (const NumberText& text : visit_.numbers) {
    const Number& number = pack().numbers[text.number];
    const std::vector<Reading> readings = readings_of(number, text.text);
    if (readings.empty()) continue;
    const Reading& reading = readings.front();
    for (std::size_t p = 0; p < reading.codes.size(); ++p) {
      if (!reading.codes[p]) continue;
      const auto& sets = number.forms[reading.form].parts[p].codes[*reading.codes[p]].sets;
      if (sets && !looked_at(sets->first)) looks_.push_back({sets->first, {sets->second}, text.how, text.sure});
    }
    const std::vector<std::size_t> holding = ranges_holding(number, reading);
    const auto serial = tables_->serial_feature(text.number);
    if (serial && !holding.empty()) looks_.push_back({*serial, {holding.front()}, text.how, text.sure});
  }
}

}  // namespace exworks::test::oracle
