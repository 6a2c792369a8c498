#include "words/english/scales.hpp"

#include <cstdio>

namespace exworks {

bool supports_neither(double ratio) { return ratio < 2; }

std::string support_words(double ratio) {
  if (supports_neither(ratio)) return "supports neither";
  if (ratio < 10) return "weak support";
  if (ratio < 100) return "moderate support";
  if (ratio < 1'000) return "moderately strong support";
  if (ratio < 10'000) return "strong support";
  if (ratio < 1'000'000) return "very strong support";
  return "extremely strong support";
}

std::string probability_words(double p) {
  if (p < 0.01 || p > 0.99) return "";
  if (p < 0.05) return "almost no chance";
  if (p < 0.20) return "very unlikely";
  if (p < 0.45) return "unlikely";
  if (p < 0.55) return "roughly even chance";
  if (p < 0.80) return "likely";
  if (p < 0.95) return "very likely";
  return "almost certain";
}

std::string percent(double p) {
  if (p > 0.999) return "> 99.9 %";
  if (p < 0.001) return "< 0.1 %";
  char buffer[16];
  const bool near_end = p > 0.985 || p < 0.015;
  std::snprintf(buffer, sizeof buffer, near_end ? "%.1f %%" : "%.0f %%", 100 * p);
  return buffer;
}

std::string odds_words(double p) {
  const std::string words = probability_words(p);
  return percent(p) + (words.empty() ? "" : " (" + words + ")");
}

std::string ratio_words(double ratio) {
  const double r = ratio >= 1 ? ratio : 1 / ratio;
  char buffer[32];
  if (!(r < 10'000)) return "over 10 000";
  std::snprintf(buffer, sizeof buffer, r < 10 ? "%.1f" : "%.0f", r);
  return buffer;
}

std::string trimmed(double v, int decimals) {
  char buffer[48];
  std::snprintf(buffer, sizeof buffer, "%.*f", decimals, v);
  std::string out = buffer;
  if (out.find('.') != std::string::npos) {
    while (out.back() == '0') out.pop_back();
    if (out.back() == '.') out.pop_back();
  }
  return out;
}

std::string hours_words(double h) { return trimmed(h, 1) + (h == 1 ? " hour" : " hours"); }

}  // namespace exworks
