#include "base/diagnostic.hpp"

#include <algorithm>
#include <tuple>

namespace exworks {

std::string_view word(Severity severity) {
  switch (severity) {
    case Severity::note: return "note";
    case Severity::warning: return "warning";
    case Severity::error: return "error";
  }
  return "error";
}

std::string to_text(const Diagnostic& d) {
  std::string text = d.place.file;
  if (d.place.line > 0) {
    text += ':' + std::to_string(d.place.line) + ':' + std::to_string(d.place.column);
  }
  if (!text.empty()) text += ": ";
  if (d.severity != Severity::error) text += std::string(word(d.severity)) + ": ";
  text += d.what;
  if (!d.remedy.empty()) text += "; " + d.remedy;
  return text;
}

std::size_t cut_to_gravest(std::vector<Diagnostic>& messages, std::size_t limit) {
  if (messages.size() <= limit) return 0;
  std::vector<bool> keep(messages.size());
  std::size_t kept = 0;
  for (const Severity severity : {Severity::error, Severity::warning, Severity::note}) {
    for (std::size_t i = 0; i < messages.size() && kept < limit; ++i) {
      if (messages[i].severity != severity) continue;
      keep[i] = true;
      ++kept;
    }
  }
  std::vector<Diagnostic> shown;
  for (std::size_t i = 0; i < messages.size(); ++i) {
    if (keep[i]) shown.push_back(std::move(messages[i]));
  }
  messages = std::move(shown);
  return keep.size() - limit;
}

void Diagnostics::add(Severity severity, Place place, std::string what, std::string remedy) {
  if (severity == Severity::error) ++errors_;
  all_.push_back({severity, std::move(place), std::move(what), std::move(remedy)});
}

void Diagnostics::error(Place place, std::string what, std::string remedy) {
  add(Severity::error, std::move(place), std::move(what), std::move(remedy));
}

void Diagnostics::warning(Place place, std::string what, std::string remedy) {
  add(Severity::warning, std::move(place), std::move(what), std::move(remedy));
}

void Diagnostics::note(Place place, std::string what, std::string remedy) {
  add(Severity::note, std::move(place), std::move(what), std::move(remedy));
}

void Diagnostics::append(const Diagnostics& other) {
  all_.insert(all_.end(), other.all_.begin(), other.all_.end());
  errors_ += other.errors_;
}

std::vector<Diagnostic> Diagnostics::sorted() const {
  std::vector<Diagnostic> out = all_;
  std::stable_sort(out.begin(), out.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::tie(a.place.file, a.place.line, a.place.column) <
           std::tie(b.place.file, b.place.line, b.place.column);
  });
  return out;
}

Diagnostics errors_among(const Diagnostics& diagnostics) {
  Diagnostics out;
  for (const Diagnostic& d : diagnostics.all()) {
    if (d.severity == Severity::error) out.error(d.place, d.what, d.remedy);
  }
  return out;
}

std::string lines_of(const Diagnostics& diagnostics) {
  std::string out;
  for (const Diagnostic& d : diagnostics.sorted()) out += (out.empty() ? "" : "\n") + to_text(d);
  return out;
}

Mistakes mistake(std::string what, std::string remedy) {
  Mistakes out;
  out.found.error({}, std::move(what), std::move(remedy));
  return out;
}

}  // namespace exworks
