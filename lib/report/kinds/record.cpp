#include <algorithm>

#include "base/text.hpp"
#include "report/kinds/parts.hpp"

/// Photos, and what the job book remembers beside them.
namespace exworks::parts {

namespace {

Text plain(std::string words) { return {std::move(words), {}, Mark::none, false, false}; }

/// The day of "2026-11-20T10:15:00Z" in words.
std::string day_words(const std::string& at, Region region) { return at.size() < 10 ? at : long_date(at.substr(0, 10), region); }

std::string number_or_feature(const Tables& t, const std::string& id) {
  for (const NumberInfo& n : t.numbers) {
    if (n.id == id) return n.name;
  }
  return t.feature_name(id);
}

/// A value's id in the pack's words; a number or a state stays as it is.
std::string value_words(const Tables& t, const std::string& feature, const std::string& value) {
  if (value.empty()) return "nothing";
  const auto at = t.feature_index.find(feature);
  if (at == t.feature_index.end()) return value;
  const FeatureInfo& f = t.features[at->second];
  std::vector<std::string> names;
  for (const std::string& word : split_words(value)) {
    const auto named = std::find_if(f.values.begin(), f.values.end(), [&](const ValueInfo& v) { return v.id == word; });
    const auto group = std::find_if(f.groups.begin(), f.groups.end(), [&](const ValueGroup& g) { return g.id == word; });
    if (named != f.values.end()) names.push_back(named->name);
    else if (group != f.groups.end()) names.push_back(group->name);
  }
  if (!names.empty()) return join_or(names);
  return value == "other" ? "none of the pack's values" : value == "not-seen" ? "not looked at" : value == "cannot-tell" ? "cannot be told" : value;
}

/// What each photo that the inspection names shows: the numbers and features that it was taken for.
std::vector<std::pair<std::string, std::vector<std::string>>> photo_subjects(const ReportInput& in) {
  std::vector<std::pair<std::string, std::vector<std::string>>> photos;
  const auto add = [&](const std::string& photo, const std::string& what) {
    if (photo.empty()) return;
    const auto at = std::find_if(photos.begin(), photos.end(), [&](const auto& p) { return p.first == photo; });
    if (at == photos.end()) photos.push_back({photo, what.empty() ? std::vector<std::string>{} : std::vector<std::string>{what}});
    else if (!what.empty() && std::find(at->second.begin(), at->second.end(), what) == at->second.end()) at->second.push_back(what);
  };
  for (const NumberSeen& n : in.inspection.numbers) add(n.photo, n.text);
  for (const Observation& o : in.inspection.observations) add(o.photo, in.tables.feature_name(o.feature));
  for (const auto& [name, photo] : in.photos) add(name, photo.feature.empty() ? "" : number_or_feature(in.tables, photo.feature));
  return photos;
}

}  // namespace

void photos_section(Report& d, const ReportInput& in, Region region) {
  const auto photos = photo_subjects(in);
  if (photos.empty()) return;
  d.heading(2, "Photos");
  std::vector<std::string> absent;
  for (const auto& [name, subjects] : photos) {
    const auto at = in.photos.find(name);
    const ReportPhoto photo = at == in.photos.end() ? ReportPhoto{} : at->second;
    const std::string what = join_and(subjects);
    std::string caption = what;
    if (!photo.note.empty()) caption += (caption.empty() ? "" : ": ") + photo.note;
    caption += (caption.empty() ? "" : " ") + std::string("(") + name + (photo.taken.empty() ? "" : ", taken " + day_words(photo.taken, region)) + ")";
    if (photo.data_uri.empty()) {
      absent.push_back(caption);
      continue;
    }
    const std::string shows = what.empty() ? photo.note.empty() ? name : photo.note : what;
    d.blocks.push_back(Photo{photo.data_uri, caption, "Photo: " + shows});
  }
  if (!absent.empty()) d.paragraph("Not shown, since the file was not there or could not be taken in: " + join_and(absent) + ".", true);
}

void record_section(Report& d, const ReportInput& in, Region region) {
  const JobRecord& r = in.record;
  if (r.changes.empty() && r.answers.empty()) return;
  d.heading(2, "How this record came about");
  if (!r.changes.empty()) {
    Table table{"What was looked at again, or corrected", {"Day", "About", "First", "Then"}, {}, false};
    for (const RecordChange& c : r.changes) {
      table.rows.push_back({plain(day_words(c.at, region)), plain(number_or_feature(in.tables, c.feature)), plain(value_words(in.tables, c.feature, c.before)), plain(value_words(in.tables, c.feature, c.now))});
    }
    d.blocks.push_back(std::move(table));
  }
  if (!r.answers.empty()) {
    Table table{"What was thought before, with the observations and the pack of that day", {"Day", "Build", "Dates"}, {}, false};
    for (const EarlierAnswer& a : r.answers) {
      std::string name = a.variant;
      for (const VariantInfo& v : in.tables.axes.variants) name = v.id == a.variant ? v.name : name;
      std::string ignored;
      const auto from = parse_edge(a.from, &ignored), to = parse_edge(a.to, &ignored);
      table.rows.push_back({plain(day_words(a.at, region)), plain(name), plain(from && to ? span_words(from->first, to->first) : a.from + " to " + a.to)});
    }
    d.blocks.push_back(std::move(table));
  }
}

}  // namespace exworks::parts
