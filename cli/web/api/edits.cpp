#include "web/api/edits.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "base/text.hpp"
#include "workshop/job_inspection.hpp"
#include "engine/evidence/evidence.hpp"
#include "record/inspection_reader.hpp"

namespace exworks::cli::web {

namespace {

constexpr std::size_t most_entries = 100, longest_text = 2000;

struct Kind {
  const char* name;
  std::set<std::string> fields;
};

const std::vector<Kind>& kinds() {
  static const std::vector<Kind> all{
      {"observed", {"value", "not", "state", "measure", "unit", "how", "sure", "note", "photo", "wear", "mark"}},
      {"number", {"text", "how", "sure", "state", "note", "photo"}},
      {"claimed", {"by", "generation", "variant", "body", "market", "plant", "built", "note"}},
      {"document", {"kind", "date", "built", "note"}},
      {"about", {"value"}},
      {"code", {"kind", "text", "feature", "triangle", "word", "dot", "quarter", "note"}},
  };
  return all;
}

const Kind& kind_of(const std::string& name) {
  for (const Kind& k : kinds()) {
    if (name == k.name) return k;
  }
  throw Refusal{400, "answers have no kind '" + name.substr(0, 40) + "'; load the page again"};
}

std::string plain_text(const Json& value, const std::string& name, std::size_t longest) {
  if (!value.is_string()) throw Refusal{400, "'" + name + "' is no text; load the page again"};
  const std::string text = fold_space(value.get<std::string>());
  std::size_t bad = 0;
  if (text.size() > longest) throw Refusal{400, "'" + name + "' is too long; say it in " + std::to_string(longest) + " letters"};
  if (!is_clean_utf8(text, &bad)) throw Refusal{400, "'" + name + "' holds a character that can't be kept; write it again without it"};
  return text;
}

Fields fields_of(const Kind& kind, const Json& fields) {
  Fields out;
  for (const auto& [name, value] : fields.items()) {
    if (!kind.fields.contains(name)) throw Refusal{400, "an answer has no '" + name.substr(0, 40) + "'; load the page again"};
    // A note is the longest; the others are words.
    const std::string text = plain_text(value, name, name == "note" || (kind.name == std::string_view("about") && name == "value") ? longest_text : 300);
    if (!text.empty()) out[name] = text;
  }
  return out;
}

void check_about(const Entry& e) {
  static const std::set<std::string> known{"name", "reference", "country", "owner", "purpose", "date", "by", "note", "state"};
  if (!known.contains(e.name)) throw Refusal{400, "a job has no '" + e.name.substr(0, 40) + "' that can be set here; load the page again"};
  if (e.name == "country" && e.fields && e.fields->count("value") && !is_country(e.fields->at("value"))) {
    throw Refusal{400, "a country has two letters, such as GB or AU (ISO 3166-1); write them"};
  }
  if (e.name == "state" && e.fields && e.fields->count("value") && e.fields->at("value") != "open" && e.fields->at("value") != "closed") {
    throw Refusal{400, "a job is open or closed; choose one of them"};
  }
}

Edit tap_of(const Json& one) {
  if (!one.is_object()) throw Refusal{400, "an answer is no object; load the page again"};
  const Kind& kind = kind_of(text_of(one, "kind", 40));
  Edit out;
  out.entry.kind = kind.name;
  out.entry.uid = text_of(one, "tap", 64);
  check_edit_name(out.entry.uid);
  out.entry.name = text_of(one, "name", 100);
  const auto fields = one.find("fields");
  if (fields != one.end() && fields->is_object()) out.entry.fields = fields_of(kind, *fields);
  else if (fields == one.end() || !fields->is_null()) throw Refusal{400, "an answer has no fields; load the page again"};
  const bool by_content = out.entry.kind == "claimed" || out.entry.kind == "document" || out.entry.kind == "code";
  if (by_content && out.entry.name.empty() && out.entry.fields) out.entry.name = name_by_content(*out.entry.fields);
  if (out.entry.name.empty()) throw Refusal{400, "this answer doesn't say what it is about; load the page again"};
  if (out.entry.kind == "about") check_about(out.entry);
  const auto seen = one.find("seen");
  if (seen != one.end() && seen->is_number_unsigned()) out.seen = seen->get<std::int64_t>();
  return out;
}

}  // namespace

std::string text_of(const Json& object, const char* name, std::size_t longest) {
  const auto at = object.find(name);
  return at == object.end() || at->is_null() ? std::string() : plain_text(*at, name, longest);
}

void check_edit_name(const std::string& tap) {
  const bool good = tap.size() >= 16 && tap.size() <= 64 && std::all_of(tap.begin(), tap.end(), [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || c == '-'; });
  if (!good) throw Refusal{400, "an answer's own name must be 16 to 64 small letters and digits; load the page again"};
}

std::vector<Edit> edits_of(const Json& body) {
  const auto list = body.find("entries");
  if (list == body.end() || !list->is_array() || list->empty()) throw Refusal{400, "no answer was sent; load the page again"};
  if (list->size() > most_entries) throw Refusal{400, "too many answers at once; send " + std::to_string(most_entries) + " at a time"};
  std::vector<Edit> out;
  for (const Json& one : *list) out.push_back(tap_of(one));
  return out;
}

void refuse_mistakes(const Tables& tables, const std::string& family, const std::vector<Entry>& entries) {
  // Of two answers on one thing the later holds, and an inspection has one of each.
  std::vector<Entry> last{about("family", family)};
  for (const Entry& e : entries) {
    std::erase_if(last, [&](const Entry& o) { return o.kind == e.kind && o.name == e.name; });
    last.push_back(e);
  }
  Diagnostics d;
  const auto inspection = read_inspection(xml_of_entries(last, false), "the answer", d);
  if (inspection) bind(tables, *inspection, d);
  for (const Diagnostic& one : d.sorted()) {
    if (one.severity == Severity::error) throw Refusal{400, one.what + "; " + one.remedy};
  }
}

}  // namespace exworks::cli::web
