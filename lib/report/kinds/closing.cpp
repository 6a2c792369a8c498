#include "report/kinds/parts.hpp"
#include "words/english/scales.hpp"

namespace exworks::parts {

namespace {

Text plain(std::string words) { return {std::move(words), {}, Mark::none, false, false}; }

/// Both scales from the functions that the verdicts use, so that the legend can't drift from them.
Table support_scale() {
  Table table{"Strength of evidence: how many times more likely the observation is on one side than on the other", {"Ratio", "In words"}, {}, false};
  for (const auto& [from, range] : {std::pair{1.0, "below 2"}, {2.0, "2 to 10"}, {10.0, "10 to 100"}, {100.0, "100 to 1 000"}, {1000.0, "1 000 and more (words are capped here)"}}) {
    table.rows.push_back({plain(range), plain(support_words(from))});
  }
  return table;
}

Table probability_scale() {
  Table table{"Probability in words", {"Probability", "In words"}, {}, false};
  for (const auto& [from, range] : {std::pair{0.02, "1 to 5 %"}, {0.1, "5 to 20 %"}, {0.3, "20 to 45 %"}, {0.5, "45 to 55 %"}, {0.7, "55 to 80 %"}, {0.9, "80 to 95 %"}, {0.97, "95 to 99 %"}}) {
    table.rows.push_back({plain(range), plain(probability_words(from))});
  }
  return table;
}

}  // namespace

void closing(Report& d, const ReportInput& in, const ReportOptions& options) {
  const Assessment& a = in.assessment;
  d.heading(2, "How to read this");
  d.paragraph("Two different things are said of a part. Type: is it the kind of part that the works fitted to this build? Part: is it the very one fitted when new? Only evidence of its own shows the second.");
  d.paragraph("The figure beside a feature is the probability that it is now of the type with which this vehicle left the works, given everything observed and the pack. As built: " +
              percent(a.settings.original_from) + " or more; later change: " + percent(a.settings.later_to) + " or less; between them, uncertain.");
  d.paragraph("Strength of evidence is another thing: a likelihood ratio says how much more likely this observation is if the part is of the type as built than if it was changed. It is not the probability that the part is as built. "
              "The words are those of the scale usually given as ENFSI 2015; they are capped at “strong” because the rates of change are judgement (common practice, no source). Probability words: ICD 203 (2015).");
  d.blocks.push_back(support_scale());
  d.blocks.push_back(probability_scale());
  d.paragraph("✓ as built, ✕ later change, ~ uncertain. Nothing here is proof of identity, of condition or of value. Inspection: not accredited; of the independent kind (ISO/IEC 17020 type A) only where the inspector has no interest in the sale or in the repair.");
  d.blocks.push_back(References{});
  d.heading(2, "What this rests on");
  d.paragraph("Pack " + in.tables.edition() + (in.tables.invented ? " (an invented family, for practice)" : "") + ", digest " + in.tables.digest + "; " + options.program + ".", true);
}

}  // namespace exworks::parts
