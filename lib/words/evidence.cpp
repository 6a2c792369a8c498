#include "words/evidence.hpp"

#include <cmath>

namespace exworks {

namespace {

std::string plain(double x) {
  std::string s = std::to_string(std::round(x * 100) / 100);
  while (s.back() == '0') s.pop_back();
  if (s.back() == '.') s.pop_back();
  return s;
}

std::string measure_noted_words(const MeasureNoted& m, const std::string& unit) {
  std::string out = plain(m.noted) + " " + m.unit;
  if (m.unit != unit) out += " (" + plain(m.amount) + " " + unit + ")";
  return m.matches ? out : out + " matches no value of the pack within its tolerance";
}

}  // namespace

std::string how_noted_words(const Tables& t, const Evidence& evidence, const Seen& seen) {
  if (seen.measure) return measure_noted_words(*seen.measure, t.features[seen.feature].unit);
  if (!seen.number) return {};
  const NumberRead* read = evidence.find_number(*seen.number);
  return "from " + t.numbers[*seen.number].name + (read == nullptr ? "" : " " + read->text);
}

std::string unread_words(const Tables& t, const NumberRead& read) {
  if (!read.unread) return {};
  const NumberInfo& info = t.numbers[read.number];
  return "no form of " + info.name + " reads '" + read.text + "': read as " + info.forms[read.unread->form].grammar.name + ", " + failure_words(read);
}

std::string failure_words(const NumberRead& read) {
  const NumberFailure& why = *read.unread;
  return (why.offset < read.text.size() ? "at '" + read.text.substr(why.offset) + "'" : std::string("at its end")) + " it wants " + why.expected;
}

std::string paper_words(const Inspection& inspection, const DocumentLikelihood& paper) {
  const std::string date = to_words(paper.date);
  if (paper.paper == Paper::claim) {
    const std::string& by = inspection.claims[paper.index].by;
    return "claim" + (by.empty() ? "" : " by " + by) + ", built " + date;
  }
  const char* of = paper.means == DateMeans::printed ? ", printed " : paper.means == DateMeans::built ? ", says built " : ", dated ";
  return word(inspection.documents[paper.index].kind) + of + date;
}

}  // namespace exworks
