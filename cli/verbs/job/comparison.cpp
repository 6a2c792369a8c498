#include "verbs/job/comparison.hpp"

#include <algorithm>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "base/foreign_json.hpp"
#include "base/sha256.hpp"
#include "command.hpp"
#include "report/render/page.hpp"

namespace exworks::cli {

using Json = nlohmann::ordered_json;

namespace {

std::string text_at(const nlohmann::json& node, const char* name) { return node.contains(name) && node[name].is_string() ? node[name].get<std::string>() : std::string(); }

std::map<std::string, nlohmann::json> features_of(const StoredAssessment& a) {
  std::map<std::string, nlohmann::json> out;
  const auto result = parse_foreign(a.result);
  if (!result.is_object()) return out;
  for (const auto& f : result.value("features", nlohmann::json::array())) out[text_at(f, "id")] = f;
  return out;
}

/// A fact in a line: what was fitted, to what, when.
std::set<std::string> facts_of(const nlohmann::json& feature) {
  std::set<std::string> out;
  for (const auto& f : feature.value("facts", nlohmann::json::array())) {
    const std::string period = text_at(f, "period");
    out.insert(text_at(f, "value") + ", " + text_at(f, "fitted") + ", " + text_at(f, "scope") + (period.empty() ? "" : ", " + period));
  }
  return out;
}

std::vector<std::string> only_in(const std::set<std::string>& a, const std::set<std::string>& b) {
  std::vector<std::string> out;
  std::set_difference(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(out));
  return out;
}

/// Why the verdict moved: another observation, other facts, or the same facts weighed with other evidence.
Json why(const nlohmann::json& a, const nlohmann::json& b) {
  const std::string seen_a = text_at(a, "observed"), seen_b = text_at(b, "observed");
  const auto facts_a = facts_of(a), facts_b = facts_of(b);
  Json out = {{"observed", {seen_a, seen_b}}, {"facts_only_in_first", only_in(facts_a, facts_b)}, {"facts_only_in_second", only_in(facts_b, facts_a)},
              {"reason", {text_at(a, "reason"), text_at(b, "reason")}}};
  const bool facts = facts_a != facts_b;
  out["cause"] = seen_a != seen_b ? "what was observed" : facts ? "other facts" : "the same facts, with other odds of the build or of a replacement";
  return out;
}

Json pack_of(const StoredAssessment& a) {
  return {{"job", a.job}, {"assessment", a.id}, {"at", a.at}, {"family", a.family}, {"pack_version", a.pack_version}, {"pack_digest", a.pack_digest}, {"engine", a.engine},
          {"settings", parse_foreign_ordered(a.settings)}, {"build", build_of(a)}};
}

/// Packs had digests of 16 digits before they had SHA-256 of every file that can change an answer. Nothing where both are of today's kind.
Json digest_note(const StoredAssessment& a, const StoredAssessment& b) {
  const bool old_a = !is_sha256(a.pack_digest), old_b = !is_sha256(b.pack_digest);
  if (old_a && old_b) return "Both pack digests are of the old kind (16 digits), which left out market law: equal ones don't show that the rules were equal.";
  if (!old_a && !old_b) return nullptr;
  return std::string("The pack digest of the ") + (old_a ? "first" : "second") + " is of the old kind (16 digits), which left out market law: it can't be compared with that of the " +
         (old_a ? "second." : "first.");
}

}  // namespace

std::string build_of(const StoredAssessment& a) {
  const auto r = parse_foreign(a.result);
  if (!r.is_object() || !r.contains("builds") || !r["builds"].is_array() || r["builds"].empty() || !r.contains("build_date")) return "";
  return text_at(r["builds"][0], "variant") + ", " + text_at(r["build_date"], "from") + " to " + text_at(r["build_date"], "to");
}

Json comparison(const StoredAssessment& a, const StoredAssessment& b) {
  Json out = {{"first", pack_of(a)}, {"second", pack_of(b)}, {"digest_note", digest_note(a, b)}, {"changed", Json::array()}, {"only_in_first", Json::array()}, {"only_in_second", Json::array()}};
  const auto first = features_of(a), second = features_of(b);
  for (const auto& [id, f] : first) {
    const auto other = second.find(id);
    if (other == second.end()) {
      out["only_in_first"].push_back({{"feature", id}, {"verdict", text_at(f, "verdict")}});
    } else if (text_at(f, "verdict") != text_at(other->second, "verdict")) {
      Json change = {{"feature", id}, {"name", text_at(f, "name")}, {"verdict", {text_at(f, "verdict"), text_at(other->second, "verdict")}}};
      change.update(why(f, other->second));
      out["changed"].push_back(std::move(change));
    }
  }
  for (const auto& [id, f] : second) {
    if (first.count(id) == 0) out["only_in_second"].push_back({{"feature", id}, {"verdict", text_at(f, "verdict")}});
  }
  return out;
}

std::string text_of_comparison(const Json& c) {
  Page page(colour_wanted());
  const auto side = [&](const char* name) {
    const Json& s = c[name];
    page.pair(name, harmless("job " + s["job"].dump() + ", " + s["at"].get<std::string>() + ": pack " + s["family"].get<std::string>() + " " + s["pack_version"].get<std::string>() + " (" + s["pack_digest"].get<std::string>().substr(0, 12) + "); " + s["build"].get<std::string>()));
  };
  side("first");
  side("second");
  if (c["digest_note"].is_string()) page.paragraph(c["digest_note"].get<std::string>());
  page.heading(c["changed"].empty() ? "No verdict changed" : "Verdicts that changed");
  for (const Json& f : c["changed"]) {
    page.paragraph(harmless(f["name"].get<std::string>() + ": " + f["verdict"][0].get<std::string>() + " -> " + f["verdict"][1].get<std::string>()), 2, Page::Tone::strong);
    page.paragraph("because of: " + f["cause"].get<std::string>(), 6);
    if (f["observed"][0] != f["observed"][1]) page.paragraph(harmless("seen: " + f["observed"][0].get<std::string>() + " -> " + f["observed"][1].get<std::string>()), 6);
    for (const Json& fact : f["facts_only_in_first"]) page.paragraph(harmless("fact of the first alone: " + fact.get<std::string>()), 6);
    for (const Json& fact : f["facts_only_in_second"]) page.paragraph(harmless("fact of the second alone: " + fact.get<std::string>()), 6);
    page.paragraph(harmless("now: " + f["reason"][1].get<std::string>()), 6);
  }
  for (const char* only : {"only_in_first", "only_in_second"}) {
    for (const Json& f : c[only]) page.pair(std::string(only) == "only_in_first" ? "first alone" : "second alone", harmless(f["feature"].get<std::string>() + ": " + f["verdict"].get<std::string>()));
  }
  return page.text();
}

}  // namespace exworks::cli
