#include "words/english/terms.hpp"

#include <algorithm>

namespace exworks {

namespace {

bool word_char(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || (static_cast<unsigned char>(c) & 0x80u) != 0; }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; }

bool same(std::string_view text, std::string_view word) {
  return text.size() == word.size() && std::equal(text.begin(), text.end(), word.begin(), [](char a, char b) { return lower(a) == lower(b); });
}

}  // namespace

Terms::Terms(const std::vector<TermInfo>& terms, Region region) {
  if (region == Region::en_GB) return;
  for (const TermInfo& t : terms) {
    const std::string& with = region == Region::en_US ? t.en_us : t.en_au;
    if (!with.empty() && !t.word.empty()) swaps_.push_back({t.word, with});
  }
  std::stable_sort(swaps_.begin(), swaps_.end(), [](const auto& a, const auto& b) { return a.first.size() > b.first.size(); });
}

std::string Terms::operator()(std::string_view text) const {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const bool at_start = i == 0 || !word_char(text[i - 1]);
    bool swapped = false;
    for (std::size_t k = 0; at_start && k < swaps_.size() && !swapped; ++k) {
      const auto& [word, with] = swaps_[k];
      if (!same(text.substr(i, word.size()), word)) continue;
      std::size_t end = i + word.size();
      const bool plural = end < text.size() && lower(text[end]) == 's' && (end + 1 == text.size() || !word_char(text[end + 1]));
      if (end < text.size() && word_char(text[end]) && !plural) continue;
      std::string replaced = with;
      if (text[i] >= 'A' && text[i] <= 'Z' && replaced[0] >= 'a' && replaced[0] <= 'z') replaced[0] = static_cast<char>(replaced[0] - 32);
      out += replaced + (plural ? "s" : "");
      i = end + (plural ? 1 : 0);
      swapped = true;
    }
    if (!swapped) out += text[i++];
  }
  return out;
}

Tables in_terms(Tables t, Region region) {
  if (region == Region::en_GB) return t;
  const Terms swap(t.catalogue.terms, region);
  const auto all = [&](auto&... texts) { ((texts = swap(texts)), ...); };
  for (auto* list : {&t.catalogue.places, &t.axes.generations, &t.axes.bodies}) {
    for (Label& l : *list) all(l.name);
  }
  for (VariantInfo& v : t.axes.variants) all(v.name);
  for (CautionInfo& c : t.catalogue.cautions) all(c.name, c.text);
  for (FeatureInfo& f : t.features) {
    all(f.name, f.ask, f.tool);
    for (ValueInfo& v : f.values) all(v.name, v.recognise);
    for (FactInfo& fact : f.facts) all(fact.note);
  }
  for (AssemblyInfo& a : t.assemblies) all(a.name);
  for (ChangeInfo& c : t.changes) all(c.name, c.spot);
  for (NumberInfo& n : t.numbers) all(n.name, n.where);
  return t;
}

}  // namespace exworks
