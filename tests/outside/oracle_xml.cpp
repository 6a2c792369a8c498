#include "oracle_xml.hpp"

#include <cstdio>
#include <sstream>

/// Pieces of text, and the inspection.
namespace exworks::test::oracle {

std::string number(double x) {
  std::ostringstream out;
  out.precision(12);  // shares have two decimals: the reader gets the same number back
  out << x;
  return out.str();
}

std::string id(char letter, std::size_t i) {
  return letter + std::to_string(i);
}

std::string value_id(const Feature& feature, std::size_t value) {
  return value == feature.values ? "other" : id('w', value);
}

std::string value_ids(const Feature& feature, const std::vector<std::size_t>& values) {
  std::string out;
  for (const std::size_t v : values) out += (out.empty() ? "" : " ") + value_id(feature, v);
  return out;
}

std::string ids(char letter, const std::vector<bool>& members) {
  std::string out;
  for (std::size_t i = 0; i < members.size(); ++i) {
    if (members[i]) out += (out.empty() ? "" : " ") + id(letter, i);
  }
  return out;
}

std::string iso(int month) {
  char text[16];
  std::snprintf(text, sizeof text, "%04d-%02d", 1950 + month / 12, month % 12 + 1);
  return text;
}

/// A month, a year, "about" a month, a season, else `[a..b]`.
std::string edge(const Window& window) {
  const int months = window.last - window.first + 1;
  const std::string year = std::to_string(1950 + window.first / 12);
  if (months == 1) return iso(window.first);
  if (months == 12 && window.first % 12 == 0) return year;
  if (months == 5) return iso(window.first + 2) + "~";
  if (months == 3 && window.first % 3 == 2) return year + "-" + std::to_string(21 + window.first % 12 / 3);
  return "[" + iso(window.first) + ".." + iso(window.last) + "]";
}

std::string attribute(const std::string& name, const std::string& value) {
  return " " + name + "=\"" + value + "\"";
}

std::string members(const std::string& name, char letter, const std::vector<bool>& axis) {
  if (axis.empty()) return "";
  std::string away;
  std::size_t outside = 0;
  for (std::size_t i = 0; i < axis.size(); ++i) {
    if (axis[i]) continue;
    away += (away.empty() ? "!" : " !") + id(letter, i);
    ++outside;
  }
  const bool shorter = outside > 0 && outside * 2 < axis.size();
  return attribute(name, shorter ? away : ids(letter, axis));
}

std::string scope(const Scope& s) {
  return members("generations", 'g', s.generations) + members("variants", 'v', s.variants) + members("bodies", 'b', s.bodies) +
         members("markets", 'm', s.markets) + members("plants", 'p', s.plants);
}

std::string edges(const std::optional<Window>& from, const std::optional<Window>& to, bool dots) {
  std::string out;
  if (from || dots) out += attribute("from", from ? edge(*from) : "..");
  if (to || dots) out += attribute("to", to ? edge(*to) : "..");
  return out;
}

namespace {

/// `value="w0 h0"`, `not="w1"` or `measure="850..950"`
std::string left_open_xml(const Feature& feature, const Look& look) {
  if (look.measure) {
    const auto& [from, to] = *look.measure;
    return attribute("measure", from < to ? number(from) + ".." + number(to) : number(from)) + attribute("unit", "mm");
  }
  std::string words = value_ids(feature, look.values);
  for (const std::size_t g : look.groups) words += (words.empty() ? "" : " ") + id('h', g);
  return attribute(look.but ? "not" : "value", words);
}

std::string observed(const SmallPack& pack, const Look& look) {
  return "<observed" + attribute("feature", id('f', look.feature)) + left_open_xml(pack.features[look.feature], look) +
         attribute("how", look.how) + attribute("sure", look.sure) + "/>";
}

}  // namespace

std::string visit_xml(const SmallPack& pack, const Visit& visit, const std::string& more) {
  std::string out = R"(<inspection format="1" family="trial")";
  if (visit.month) out += attribute("date", iso(*visit.month) + "-15");
  out += ">\n";
  if (!visit.country.empty()) out += "<vehicle name=\"Trial\"" + attribute("country", visit.country) + "/>\n";
  for (const Look& look : visit.looks) out += observed(pack, look) + "\n";
  return out + number_texts_xml(visit) + papers_xml(visit) + more + "</inspection>\n";
}

}  // namespace exworks::test::oracle
