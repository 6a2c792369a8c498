#include "report/answers/vin_report.hpp"

#include <nlohmann/json.hpp>

#include "report/render/page.hpp"

namespace exworks {

std::string text_vin(const VinReading& vin, bool colour) {
  Page page(colour);
  page.heading("17 characters (ISO 3779; 49 CFR 565 where made for the United States)");
  page.paragraph(vin.standard_words);
  for (const VinPart& p : vin.parts) page.pair(p.name, p.text + (p.means.empty() ? "" : ": " + p.means), 2, 26);
  if (!vin.check_words.empty()) page.pair("Check digit", vin.check_words, 2, 26);
  for (const ModelYear& y : vin.model_years) page.pair("Model year", std::to_string(y.year) + ", built " + to_words(y.first) + " to " + to_words(y.last) + (y.why.empty() ? "" : ": " + y.why), 2, 26);
  if (!vin.year_words.empty()) page.paragraph(vin.year_words);
  for (const VinFault& f : vin.faults) page.pair(f.position > 0 ? "Position " + std::to_string(f.position) : "Whole number", f.what + "; " + f.remedy, 2, 26, Page::Tone::doubt);
  return page.text();
}

nlohmann::ordered_json json_vin(const VinReading& vin) {
  const auto binding = [](Binding b) { return b == Binding::binds ? "binds" : b == Binding::does_not_bind ? "does not bind" : "cannot tell"; };
  nlohmann::ordered_json out = {{"standard", "ISO 3779"}, {"text", vin.text}, {"standard_binds", binding(vin.standard)}, {"standard_words", vin.standard_words},
                                {"check_digit", vin.check == CheckDigit::matches ? "matches" : vin.check == CheckDigit::differs ? "differs" : "not computed"},
                                {"check_binds", binding(vin.check_binds)}, {"check_words", vin.check_words}, {"year_words", vin.year_words}};
  out["parts"] = nlohmann::ordered_json::array();
  for (const VinPart& p : vin.parts) out["parts"].push_back({{"name", p.name}, {"text", p.text}, {"means", p.means}, {"first", p.first}, {"last", p.last}});
  out["model_years"] = nlohmann::ordered_json::array();
  for (const ModelYear& y : vin.model_years) out["model_years"].push_back({{"year", y.year}, {"from", to_iso(y.first)}, {"to", to_iso(y.last)}, {"why", y.why}});
  out["faults"] = nlohmann::ordered_json::array();
  for (const VinFault& f : vin.faults) out["faults"].push_back({{"position", f.position}, {"what", f.what}, {"remedy", f.remedy}});
  return out;
}

}  // namespace exworks
