#include "words/remarks.hpp"

#include <algorithm>
#include <cmath>

#include "words/english/scales.hpp"

namespace exworks {

namespace {

std::string measure_noted_words(const MeasureNoted& m, const std::string& unit) {
  std::string out = trimmed(m.noted, 2) + " " + m.unit;
  if (m.unit != unit) out += " (" + trimmed(m.amount, 2) + " " + unit + ")";
  return m.matches ? out : out + " matches no value of the pack within its tolerance";
}

std::string said_by_number(const Tables& t, const Assessment& a, std::size_t number) {
  const auto read = std::find_if(a.numbers.begin(), a.numbers.end(), [&](const NumberVerdict& n) { return n.number == number; });
  return "from " + t.numbers[number].name + (read == a.numbers.end() ? "" : " " + read->text);
}

}  // namespace

std::string fit_words(const Assessment& a) {
  const std::string share = percent(std::max(a.fit.p, 1.0 / std::max(1, a.settings.fit_draws)));
  switch (a.fit.kind) {
    case FitKind::nothing_observed: return "Nothing was observed, so there is nothing to fit.";
    case FitKind::impossible: return "Nothing in this pack allows what was given.";
    case FitKind::not_computed: return "Not computed.";
    case FitKind::contradictory: return "Hardly any vehicle simulated from this pack looks as unlikely as this one: the observations contradict each other, or it is of another family.";
    case FitKind::unusual: return "Only " + share + " of the vehicles simulated from this pack look as unlikely as this one: an unusual vehicle, or slips in what was noted.";
    case FitKind::usual: return share + " of the vehicles simulated from this pack look at least as unlikely as this one.";
  }
  return {};
}

std::string remark_words(const Inspection& in, const Remark& r) {
  if (r.kind == RemarkKind::nothing_observed) return "Nothing was observed: the odds below are those before looking, by production alone.";
  if (r.kind == RemarkKind::invented_family) return "The family of this pack is invented; it serves for practice.";
  const Document& d = in.documents[*r.document];
  return "Document recorded: " + word(d.kind) + (d.note.empty() ? "" : " (" + d.note + ")") +
         (r.kind == RemarkKind::document_without_build ? ". It states no build date (built), so it is shown, not weighed." : ". It has no date, so it is shown, not weighed.");
}

std::string paper_words(const Inspection& in, const WeighedPaper& paper) {
  const std::string date = to_words(paper.date);
  if (paper.paper == Paper::claim) {
    const std::string& by = in.claims[paper.index].by;
    return "claim" + (by.empty() ? "" : " by " + by) + ", built " + date;
  }
  const char* of = paper.means == DateMeans::printed ? ", printed " : paper.means == DateMeans::built ? ", says built " : ", dated ";
  return word(in.documents[paper.index].kind) + of + date;
}

std::string vehicle_name(const Inspection& in) { return in.vehicle.empty() ? in.file : in.vehicle; }

std::string noted_words(const Case& of, const FeatureVerdict& f) {
  const std::string out = f.measure ? measure_noted_words(*f.measure, of.tables.features[f.finding.feature].unit) : f.number ? said_by_number(of.tables, of.assessment, *f.number) : "";
  const std::string note = f.observation ? of.inspection.observations[*f.observation].note : "";
  return out + (out.empty() || note.empty() ? "" : "; ") + note;
}

}  // namespace exworks
