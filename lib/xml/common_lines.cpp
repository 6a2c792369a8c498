#include "xml/common_lines.hpp"

#include <algorithm>

#include "base/components.hpp"
#include "base/text.hpp"

namespace exworks {

Source read_source_line(const Element& element, Diagnostics& diagnostics) {
  const Attributes a(element, diagnostics, {"id", "kind", "title", "publisher", "author", "year", "url"});
  if (!a.has("kind")) a.text("kind");
  const auto kind = a.one_of<SourceKind>("kind");
  Source s;
  s.id = a.id(true);
  s.place = element.place();
  s.title = a.text("title");
  s.publisher = a.text_or("publisher", a.text_or("author", ""));
  s.year = a.text_or("year", "");
  s.url = a.text_or("url", "");
  s.note = element.text();
  s.kind = kind.value_or(SourceKind::published);
  if (kind == SourceKind::published && (s.publisher.empty() || (s.year.empty() && s.url.empty()))) {
    diagnostics.error(s.place, "a published source needs a publisher, and a year or a URL", "add what is missing, or call it kind=\"memory\"");
  }
  return s;
}

std::vector<std::string> component_words(const Attributes& a, std::string_view name, const std::vector<std::string>& more) {
  std::vector<std::string> known = more;
  known.insert(known.end(), vehicle_components().begin(), vehicle_components().end());
  std::vector<std::string> out = split_words(a.text_or(name, ""));
  for (const std::string& word : out) {
    if (std::find(known.begin(), known.end(), word) != known.end()) continue;
    a.diagnostics().error(a.element().place(name), "there is no component '" + word + "'", did_you_mean(word, known, "known are " + join_and(known)));
  }
  return out;
}

}  // namespace exworks
