#include "report/render/svg.hpp"

#include <cstdio>

#include "report/render/page.hpp"

namespace exworks {

namespace {

/// The light page's colour of a class, for readers without the style sheet.
std::string_view plain_colour(std::string_view tone) {
  if (tone.ends_with("original")) return "#005a8c";
  if (tone.ends_with("later")) return "#a53f00";
  if (tone.ends_with("uncertain")) return "#6d4900";
  if (tone == "ground") return "#f3ecdd";
  if (tone == "mute") return "#5c5446";
  if (tone == "line" || tone == "rule") return "#8a7d63";
  return "#211d17";
}

std::string joined(const std::vector<std::pair<double, double>>& points) {
  std::string out;
  for (const auto& [x, y] : points) out += (out.empty() ? "" : " ") + fixed(x) + "," + fixed(y);
  return out;
}

}  // namespace

std::string fixed(double v) {
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, "%.2f", v == 0 ? 0.0 : v);
  return buffer;
}

std::string_view verdict_tone(VerdictKind kind) { return kind == VerdictKind::original ? "g-original" : kind == VerdictKind::later_change ? "g-later" : "g-uncertain"; }

Mark verdict_mark(VerdictKind kind) { return kind == VerdictKind::original ? Mark::original : kind == VerdictKind::later_change ? Mark::later : Mark::uncertain; }

std::string fitted(std::string_view text, std::size_t columns) {
  if (columns_of(text) <= columns) return std::string(text);
  std::size_t bytes = 0;
  for (std::size_t n = 0; bytes < text.size(); ++bytes) {
    if ((static_cast<unsigned char>(text[bytes]) & 0xC0u) != 0x80u && n++ == columns - 1) break;
  }
  return std::string(text.substr(0, bytes)) + "…";
}

Svg::Svg(std::string_view id, double height, std::string_view title, std::string_view description) {
  const std::string t = std::string(id) + "-title", d = std::string(id) + "-desc";
  h_.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"}, {"viewBox", "0 0 " + fixed(width) + " " + fixed(height)}, {"role", "img"}, {"aria-labelledby", t + " " + d}});
  h_.element("title", title, {{"id", t}}).element("desc", description, {{"id", d}}).line();
}

void Svg::text(double x, double y, std::string_view words, Anchor anchor, std::string_view tone, bool strong, double size) {
  h_.element("text", words, {{"x", fixed(x)}, {"y", fixed(y)}, {"font-size", fixed(size)}, {"font-family", "Carlito, 'Gill Sans', 'DejaVu Sans', sans-serif"},
                             {"font-weight", strong ? "bold" : ""}, {"text-anchor", anchor == Anchor::start ? "" : anchor == Anchor::middle ? "middle" : "end"},
                             {"fill", plain_colour(tone)}, {"class", tone}}).line();
}

void Svg::rect(double x, double y, double w, double h, std::string_view tone, double round, double opacity) {
  h_.shape("rect", {{"x", fixed(x)}, {"y", fixed(y)}, {"width", fixed(w)}, {"height", fixed(h)}, {"rx", round > 0 ? fixed(round) : ""},
                    {"fill", plain_colour(tone)}, {"fill-opacity", opacity < 1 ? fixed(opacity) : ""}, {"class", tone}}).line();
}

void Svg::line(double x1, double y1, double x2, double y2, std::string_view tone, bool dashed) {
  h_.shape("line", {{"x1", fixed(x1)}, {"y1", fixed(y1)}, {"x2", fixed(x2)}, {"y2", fixed(y2)}, {"stroke", plain_colour(tone)}, {"class", tone},
                    {"stroke-dasharray", dashed ? "3 3" : ""}}).line();
}

void Svg::polygon(const std::vector<std::pair<double, double>>& points, std::string_view tone, double opacity) {
  h_.shape("polygon", {{"points", joined(points)}, {"fill", plain_colour(tone)}, {"fill-opacity", opacity < 1 ? fixed(opacity) : ""}, {"class", tone}}).line();
}

void Svg::outline(const std::vector<std::pair<double, double>>& points, std::string_view tone, bool closed) {
  h_.shape(closed ? "polygon" : "polyline", {{"points", joined(points)}, {"fill", "none"}, {"stroke", plain_colour(tone)}, {"stroke-width", "1.5"}, {"class", tone}}).line();
}

std::string Svg::finish() { return h_.close("svg").str(); }

}  // namespace exworks
