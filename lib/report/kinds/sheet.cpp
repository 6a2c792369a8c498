#include "report/kinds/sheet.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "report/render/page.hpp"
#include "report/kinds/parts.hpp"

namespace exworks {

namespace {

// Of one side of A4 in two columns at the short sheet's type: measured on printed sheets, with some to spare.
constexpr double letters_a_line = 58, lines_a_side = 100, lines_a_heading = 2;

bool noted(const Inspection& in, const FeatureInfo& f) {
  return std::any_of(in.observations.begin(), in.observations.end(), [&](const Observation& o) { return o.feature == f.id && o.state != LookState::not_seen; });
}

constexpr std::size_t years_to_write = 12;  // more boxes of years than this take longer to search than the year takes to write

/// The year that a value's name is, as of a date stamp; 0 for any other name.
int year_of(const ValueInfo& v) {
  const bool year = v.name.size() == 4 && std::all_of(v.name.begin(), v.name.end(), [](char c) { return c >= '0' && c <= '9'; });
  return year ? std::stoi(v.name) : 0;
}

/// The values to tick; of many years one line to write on.
std::vector<std::pair<std::string, std::string>> boxes(const FeatureInfo& f, bool brief) {
  std::vector<std::pair<std::string, std::string>> out;
  std::vector<int> years;
  for (const ValueInfo& v : f.values) {
    if (year_of(v) > 0) years.push_back(year_of(v));
  }
  const bool write = years.size() > years_to_write;
  if (write) {
    const auto [first, last] = std::minmax_element(years.begin(), years.end());
    out.push_back({"year: ________ (" + std::to_string(*first) + " to " + std::to_string(*last) + ")", ""});
  }
  for (const ValueInfo& v : f.values) {
    if (!write || year_of(v) == 0) out.push_back({v.name, brief ? "" : v.recognise});
  }
  return out;
}

SheetItem item(const Tables& t, std::size_t index, bool brief) {
  const FeatureInfo& f = t.features[index];
  SheetItem out{f.name, brief ? "" : f.ask, "", {}, brief, f.id};
  if (!f.tool.empty()) out.ask += (out.ask.empty() ? "" : " ") + std::string("(") + f.tool + ")";
  for (std::size_t c : f.cautions) out.caution += (out.caution.empty() ? "" : " ") + (brief ? t.catalogue.cautions[c].name + "." : t.catalogue.cautions[c].text);
  out.values = boxes(f, brief);
  for (const ValueGroup& g : f.groups) out.values.push_back({(brief ? "only: " : "I can only see: ") + g.name, ""});
  out.values.push_back({brief ? "other" : "none of these", ""});
  out.values.push_back({"missing", ""});
  out.values.push_back({brief ? "?" : "cannot tell", ""});
  if (!f.unit.empty() && f.unit != "none") out.values.push_back({"measured: ________ " + f.unit, ""});
  return out;
}

/// Lines that an item takes on the short sheet, at the usual width of a column.
double lines_of(const SheetItem& item) {
  std::size_t letters = columns_of(item.title) + columns_of(item.ask) + columns_of(item.caution);
  for (const auto& [name, how] : item.values) letters += columns_of(name) + 5;
  return std::ceil(static_cast<double>(letters) / letters_a_line) + 0.6;
}

/// What is worth most comes first, and what no longer fits into the time or onto the page is left out.
std::vector<std::size_t> short_order(const Tables& t, const NextChecks& next, double minutes) {
  std::vector<std::size_t> out;
  double used = 0, lines = 0;
  std::vector<bool> place(t.catalogue.places.size(), false);
  for (const Check& c : next.checks) {
    const std::size_t at = t.features[c.feature].place;
    const double more = lines_of(item(t, c.feature, true)) + (at < place.size() && !place[at] ? lines_a_heading : 0);
    if (used + c.minutes > minutes || lines + more > lines_a_side) continue;
    if (at < place.size()) place[at] = true;
    used += c.minutes;
    lines += more;
    out.push_back(c.feature);
  }
  return out;
}

/// The best first, then whatever else is still open as the pack has it; the sheet groups them by place.
std::vector<std::size_t> full_order(const Tables& t, const Inspection& in, const NextChecks& next) {
  std::vector<std::size_t> out;
  for (const Check& c : next.checks) out.push_back(c.feature);
  for (std::size_t f = 0; f < t.features.size(); ++f) {
    if (!t.features[f].of_number && !noted(in, t.features[f]) && std::find(out.begin(), out.end(), f) == out.end()) out.push_back(f);
  }
  return out;
}

}  // namespace

Report inspection_sheet(const Tables& t, const Inspection& in, const NextChecks& next, const SheetOptions& options) {
  const bool brief = options.minutes > 0;
  Report d;
  d.language = language_of(options.region);
  d.paper = options.paper;
  d.layout = brief ? Layout::short_sheet : Layout::sheet;
  d.kind = brief ? "Inspection sheet, short" : "Inspection sheet";
  d.title = in.vehicle.empty() ? t.name : t.name + ": " + in.vehicle;
  d.particulars.push_back("Tick what is there, not what should be there. Nothing ticked means not looked at. Printed " + long_date(options.date, options.region) + "; pack " + t.edition() + ".");
  d.blocks.push_back(Blanks{{"Vehicle, place and date", "Inspector"}});
  d.heading(2, "Numbers: copy them exactly as stamped, with a ? for each doubtful sign");
  Blanks numbers;
  for (const NumberInfo& n : t.numbers) {
    const bool read = std::any_of(in.numbers.begin(), in.numbers.end(), [&](const NumberSeen& s) { return s.id == n.id; });
    if (!read && (!brief || n.identity)) numbers.labels.push_back(n.name + (n.where.empty() || brief ? "" : " (" + n.where + ")"));
  }
  d.blocks.push_back(std::move(numbers));
  const std::vector<std::size_t> features = brief ? short_order(t, next, options.minutes) : full_order(t, in, next);
  for (std::size_t place = 0; place < t.catalogue.places.size(); ++place) {
    bool begun = false;
    for (std::size_t f : features) {
      if (t.features[f].place != place) continue;
      if (!begun) d.heading(2, t.catalogue.places[place].name);
      begun = true;
      d.blocks.push_back(item(t, f, brief));
    }
  }
  Bullets always;
  for (const CautionInfo& c : t.catalogue.cautions) {
    if (c.always) always.items.push_back({brief ? c.text : c.name + ": " + c.text, {}, Mark::none, false, false});
  }
  if (!always.items.empty()) {
    d.heading(2, "Take care");
    d.blocks.push_back(std::move(always));
  }
  return d;
}

}  // namespace exworks
