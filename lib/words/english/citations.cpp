#include "words/english/citations.hpp"

#include <algorithm>

#include "words/english/scopes.hpp"

namespace exworks {

std::vector<std::size_t> Citations::numbers(const std::vector<std::size_t>& sources) {
  std::vector<std::size_t> out;
  for (std::size_t s : sources) {
    auto at = std::find(cited_.begin(), cited_.end(), s);
    if (at == cited_.end()) at = cited_.insert(cited_.end(), s);
    out.push_back(static_cast<std::size_t>(at - cited_.begin()) + 1);
  }
  return out;
}

std::string Citations::cite(const std::vector<std::size_t>& sources) {
  std::string out;
  for (std::size_t n : numbers(sources)) out += (out.empty() ? "[" : ", ") + std::to_string(n);
  return out.empty() ? out : out + "]";
}

std::string Citations::after(const std::vector<std::size_t>& sources) {
  const std::string numbered = cite(sources);
  return numbered.empty() ? numbered : " " + numbered;
}

std::string source_words(const SourceInfo& source) {
  const std::string words = citation(source), kind = kind_words(source.kind);
  const bool said = source.kind == SourceKind::published || words.find(kind) != std::string::npos;
  return words + (said ? "" : " (" + kind + ")");
}

}  // namespace exworks
