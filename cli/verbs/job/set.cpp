#include <iostream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "base/text.hpp"
#include "command.hpp"
#include "record/inspection_reader.hpp"
#include "verbs/job/verbs.hpp"
#include "verbs/open_book.hpp"
#include "workshop/job_assessment.hpp"
#include "workshop/job_inspection.hpp"
#include "workshop/jobs.hpp"

namespace exworks::cli {

namespace {

using Options = JobSetArguments;

std::pair<std::string, std::string> split(const std::string& text, const char* example) {
  const std::size_t at = text.find('=');
  if (at == std::string::npos || at == 0) {
    tell("'", text, "' is not a name, '=' and what it is; write ", example);
    throw BadInput{};
  }
  return {text.substr(0, at), text.substr(at + 1)};
}

void add_ways(const Options& o, Fields& fields) {
  const std::pair<const char*, const std::string&> ways[] = {{"how", o.how}, {"sure", o.sure}, {"note", o.note}, {"photo", o.photo}};
  for (const auto& [name, value] : ways) {
    if (!value.empty()) fields[name] = value;
  }
}

Entry observed(const Options& o, const std::string& text) {
  const auto [feature, value] = split(text, "headlamp-position=low");
  Entry e{"observed", feature, Fields{}, "", "", false, false, 0};
  const bool state = value == "not-seen" || value == "missing" || value == "cannot-tell";
  const bool ruled_out = o.unit.empty() && value.starts_with('!');
  (*e.fields)[state ? "state" : !o.unit.empty() ? "measure" : ruled_out ? "not" : "value"] = ruled_out ? value.substr(1) : value;
  if (!o.unit.empty() && !state) (*e.fields)["unit"] = o.unit;
  add_ways(o, *e.fields);
  if (!o.wear.empty()) (*e.fields)["wear"] = o.wear;
  if (!o.mark.empty()) (*e.fields)["mark"] = o.mark;
  return e;
}

Entry number(const Options& o, const std::string& text) {
  const auto [id, value] = split(text, "chassis-number=\"AC V 12873\"");
  Entry e{"number", id, Fields{{"text", value}}, "", "", false, false, 0};
  add_ways(o, *e.fields);
  if (!o.number_state.empty()) (*e.fields)["state"] = o.number_state;
  return e;
}

/// A claim, a document or a date code: words NAME=VALUE, as the attributes of the inspection's element.
Entry words_of(const Options& o, const char* kind, const std::string& text, const char* example) {
  Entry e{kind, "", Fields{}, "", "", false, false, 0};
  std::istringstream words(text);
  std::string last;
  for (std::string word; words >> word;) {
    // What has no '=' goes on with what was said before it: note=seen in the original
    if (!last.empty() && word.find('=') == std::string::npos) {
      (*e.fields)[last] += ' ' + word;
      continue;
    }
    const auto [name, value] = split(word, example);
    (*e.fields)[last = name] = value;
  }
  if (!o.note.empty()) (*e.fields)["note"] = o.note;
  e.name = name_by_content(*e.fields);
  return e;
}

Entry said_of_job(const std::string& text) {
  static const std::vector<std::string> known{"family", "name", "reference", "country", "owner", "date", "by", "note", "purpose"};
  const auto [name, value] = split(text, "reference=\"order 12\"");
  if (std::find(known.begin(), known.end(), name) == known.end()) {
    tell("a job has no '", name, "'; it has ", join_and(known));
    throw BadInput{};
  }
  return about(name, value);
}

/// What is taken back: a feature, a number's id, or the name of a claim or document as `job show` gives it.
Entry taken_back(const std::string& name, const std::vector<Entry>& now) {
  for (const Entry& e : now) {
    if (e.name == name && e.kind != "photo") return {e.kind, e.name, std::nullopt, "", "", false, false, 0};
  }
  tell("the job has no entry '", name, "' to take back; 'exworks job show' lists its entries");
  throw BadInput{};
}

/// The job as it would be, read as an inspection is read: what the reader refuses is never in a book.
void check_as_inspection(const std::vector<Entry>& now, const std::vector<Entry>& changes) {
  std::vector<Entry> after = changes;
  for (const Entry& e : now) {
    const bool replaced = std::any_of(changes.begin(), changes.end(), [&](const Entry& c) { return c.kind == e.kind && c.name == e.name; });
    if (!replaced) after.push_back(e);
  }
  Diagnostics d;
  read_inspection(xml_of_entries(after, false), "the job with these entries", d);
  print(d, true);
  if (d.has_errors()) throw BadInput{};
}

void unknown(const std::string& what, const std::string& word, const std::vector<std::string>& known, const std::string& family) {
  tell("pack '", family, "' has no ", what, " '", word, "'; ", did_you_mean(word, known, "'exworks pack show " + family + "' lists what it has"));
  throw BadInput{};
}

void check_value(const Tables& t, const FeatureInfo& f, const Entry& e) {
  std::vector<std::string> ids{"other"};
  for (const ValueInfo& v : f.values) ids.push_back(v.id);
  for (const ValueGroup& g : f.groups) ids.push_back(g.id);
  for (const char* name : {"value", "not"}) {
    const auto field = e.fields->find(name);
    if (field == e.fields->end()) continue;
    for (const std::string& word : split_words(field->second)) {
      if (std::find(ids.begin(), ids.end(), word) == ids.end()) unknown("value of '" + f.id + "',", word, ids, t.family);
    }
  }
}

/// Words that the job's pack doesn't know are refused while the inspector is still at the vehicle.
void check_words(const std::string& family, const std::string& rules, const std::vector<Entry>& changes) {
  if (family.empty()) return;
  const Tables t = load_tables(family, rules_folders(rules));
  std::vector<std::string> features, numbers;
  for (const auto& [id, index] : t.feature_index) features.push_back(id);
  for (const NumberInfo& n : t.numbers) numbers.push_back(n.id);
  for (const Entry& e : changes) {
    if (!e.fields) continue;
    const auto at = t.feature_index.find(e.name);
    if (e.kind == "observed" && at == t.feature_index.end()) unknown("feature", e.name, features, family);
    if (e.kind == "observed") check_value(t, t.features[at->second], e);
    if (e.kind == "number" && std::find(numbers.begin(), numbers.end(), e.name) == numbers.end()) unknown("number", e.name, numbers, family);
  }
}

std::vector<Entry> changes_of(const Options& o, const std::vector<Entry>& now) {
  std::vector<Entry> out;
  for (const std::string& text : o.seen) out.push_back(observed(o, text));
  for (const std::string& text : o.numbers) out.push_back(number(o, text));
  for (const std::string& text : o.claims) out.push_back(words_of(o, "claimed", text, "by=seller built=1954"));
  for (const std::string& text : o.documents) out.push_back(words_of(o, "document", text, "kind=registration date=1954-03"));
  for (const std::string& text : o.codes) out.push_back(words_of(o, "code", text, "kind=tyre text=346"));
  for (const std::string& text : o.about) out.push_back(said_of_job(text));
  for (const std::string& name : o.withdraw) out.push_back(taken_back(name, now));
  for (const Entry& e : out) {
    require_text("'" + e.name + "'", e.name);
    for (const auto& [name, value] : e.fields.value_or(Fields{})) require_text(e.name, value);
  }
  return out;
}

}  // namespace

int run(const JobSetArguments& options) {
  Book book = open_existing_book(options);
  const std::vector<Entry> now = book.entries(options.job);
  const std::vector<Entry> changes = changes_of(options, now);
  if (changes.empty()) {
    tell("nothing is said; write FEATURE=VALUE, --number ID=TEXT, --claimed WORDS, --document WORDS, --code WORDS, --about NAME=TEXT or --withdraw NAME");
    return bad_usage;
  }
  const bool ways = !(options.unit + options.how + options.sure + options.photo + options.wear + options.mark).empty();
  const bool looked = !options.seen.empty() || !options.numbers.empty();
  const bool papers = !options.claims.empty() || !options.documents.empty() || !options.codes.empty();
  if ((ways && !looked) || (!options.note.empty() && !looked && !papers)) {
    tell("--unit, --how, --sure, --note, --photo, --wear and --mark say more of what was seen; give FEATURE=VALUE or --number ID=TEXT with them, or --about note=TEXT");
    return bad_usage;
  }
  check_as_inspection(now, changes);
  std::string family = about_value(changes, "family");
  if (family.empty()) family = about_value(now, "family");
  check_words(family, options.rules, changes);
  const std::size_t changed = book.record(options.job, changes, who(options));
  if (options.json) print_json(nlohmann::ordered_json{{"job", options.job}, {"changed", changed}});
  else std::cout << "job " << options.job << ": " << changed << (changed == 1 ? " entry changed\n" : " entries changed\n");
  return done;
}

}  // namespace exworks::cli
