#include <algorithm>

#include "base/text.hpp"
#include "report/kinds/report_kinds.hpp"
#include "report/kinds/parts.hpp"
#include "words/claims.hpp"
#include "words/english/english.hpp"
#include "words/english/scales.hpp"
#include "words/summary.hpp"

namespace exworks {

namespace {

using namespace parts;

constexpr std::size_t words_an_answer = 26;

/// As many of the items as fit into the words of one answer, and how many more there are.
std::string short_list(const std::vector<std::string>& items, std::size_t budget) {
  std::vector<std::string> shown;
  std::size_t used = 0;
  for (const std::string& item : items) {
    std::vector<std::string> words = split_words(item);
    if (!shown.empty() && used + words.size() > budget) break;
    if (words.size() > budget) words.resize(budget);
    std::string cut;
    for (const std::string& w : words) cut += (cut.empty() ? "" : " ") + w.substr(0, 80);
    used += words.size();
    shown.push_back(cut);
  }
  std::string out;
  for (const std::string& s : shown) out += (out.empty() ? "" : "; ") + s;
  const std::size_t more = items.size() - shown.size();
  return more == 0 ? out : out + "; and " + std::to_string(more) + " more";
}

Text plain(std::string words) { return {std::move(words), {}, Mark::none, false, false}; }

Text what_is_it(const ReportInput& in) {
  const Assessment& a = in.assessment;
  std::string words = upper_first(with_article(build_words(in.tables, a))) + ": " + percent(a.variants.front().p) + " for the variant, " + percent(a.date.level) + " for the dates.";
  if (a.fit.bad()) words += " It fits this pack badly.";
  return plain(words);
}

/// Never accuses: says what the observations show.
Text as_claimed(const ReportInput& in) {
  if (in.inspection.claims.empty()) return plain("Nothing was claimed.");
  if (in.assessment.claims.empty()) return plain("The claim names nothing that the pack can weigh.");
  const Settings& settings = in.assessment.settings;
  const ClaimVerdict& first = in.assessment.claims.front();
  const Claim& claim = in.inspection.claims[first.claim];
  const ClaimPoint& worst = *std::min_element(first.points.begin(), first.points.end(), [](const ClaimPoint& x, const ClaimPoint& y) { return x.p < y.p; });
  const std::string weakest = short_list({point_words(in.tables, claim, worst.of)}, 10);
  const std::string more = in.inspection.claims.size() > 1 ? " (" + counted(in.inspection.claims.size(), "claim") + "; see below.)" : "";
  if (first.p > settings.later_to && first.support == ClaimSupport::says_nothing)
    return {"Nothing seen speaks of it: " + percent(first.p) + ", as before looking." + more, {}, Mark::uncertain, false, false};
  if (first.p >= settings.original_from) return {"The observations agree with it: " + percent(first.p) + "." + more, {}, Mark::original, false, false};
  if (first.p > settings.later_to) return {"Open: the odds of the whole claim are " + percent(first.p) + ". Weakest point: " + weakest + "." + more, {}, Mark::uncertain, false, false};
  return {"Not by what was seen. " + weakest + ": " + percent(worst.p) + "; seen: " + short_list({found_words(in.tables, in.assessment, worst.of)}, 10) + "." + more, {}, Mark::later, false, false};
}

Text what_is_wrong(const ReportInput& in) {
  std::vector<std::string> names;
  for (const auto& group : change_groups(in.tables, in.assessment)) names.push_back(group_name(in.tables, in.assessment, group));
  if (names.empty()) return plain("Nothing that was observed is a later change.");
  return {short_list(names, words_an_answer) + ".", {}, Mark::later, false, false};
}

Text what_to_check(const ReportInput& in) {
  const Assessment& a = in.assessment;
  std::vector<std::string> items;
  for (const NumberVerdict& n : a.numbers) {
    if (n.agrees == Agreement::no && n.p_own) items.push_back("the " + in.tables.numbers[n.number].name + ", with the registering authority");
  }
  const bool identity_read = std::any_of(a.numbers.begin(), a.numbers.end(), [&](const NumberVerdict& n) { return in.tables.numbers[n.number].identity; });
  for (const NumberInfo& n : in.tables.numbers) {
    if (n.identity && !identity_read) items.push_back("the " + n.name + ", not yet read");
  }
  items.push_back("the structure from underneath");
  items.push_back("the age of the tyres");
  if (!a.missing.empty()) items.push_back(counted(a.missing.size(), "missing item"));
  std::vector<std::string> unseen;
  for (const Check& c : in.next.checks) {
    if (unseen.size() < 2) unseen.push_back(in.tables.features[c.feature].name);
  }
  if (!unseen.empty()) items.push_back("not yet seen: " + join_and(unseen));
  return plain(upper_first(short_list(items, words_an_answer)) + ".");
}

}  // namespace

Report purchase_report(const ReportInput& in, const ReportOptions& options) {
  Report d = blank_report(in, options, "Pre-purchase report");
  d.blocks.push_back(Answers{{{"What is it?", what_is_it(in)},
                              {"Is it what is claimed?", as_claimed(in)},
                              {"What is wrong for its year?", what_is_wrong(in)},
                              {"What must be checked before money changes hands?", what_to_check(in)}}});
  d.paragraph(counts_words(in.assessment) + " The evidence follows; one can stop reading after any section.", true);
  claims_section(d, in);
  later_section(d, in);
  build_section(d, in);
  score_section(d, in);
  numbers_section(d, in);
  codes_section(d, in);
  papers_section(d, in);
  readings_section(d, in);
  uncertain_section(d, in);
  not_judged_section(d, in);
  original_section(d, in, options.region);
  next_section(d, in);
  schemes_section(d, in, true);
  photos_section(d, in, options.region);
  cautions_section(d, in);
  closing(d, in, options);
  return d;
}

}  // namespace exworks
