#include "words/redaction.hpp"

#include <algorithm>
#include <array>
#include <vector>

namespace exworks {

namespace {

template <std::size_t N>
bool is_one_of(std::string_view name, const std::array<std::string_view, N>& names) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// Where each character begins (UTF-8).
std::vector<std::size_t> characters(const std::string& text) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if ((static_cast<unsigned char>(text[i]) & 0xC0u) != 0x80u) out.push_back(i);
  }
  return out;
}

}  // namespace

std::string withheld_number(const std::string& number) {
  const std::vector<std::size_t> begins = characters(number);
  const std::size_t kept = std::min<std::size_t>(3, begins.size() / 3);
  return number.substr(0, kept < begins.size() ? begins[kept] : 0) + "…";
}

bool is_personal(std::string_view field) { return is_one_of(field, std::array<std::string_view, 4>{"note", "by", "photo", "file"}); }

bool is_personal_about(std::string_view name) { return is_one_of(name, std::array<std::string_view, 5>{"owner", "name", "reference", "note", "by"}); }

void redact(Assessment& a, Inspection& in) {
  in.by.clear();
  in.note.clear();
  in.file.clear();
  in.vehicle.clear();
  in.reference.clear();
  for (NumberSeen& n : in.numbers) {
    n.text = withheld_number(n.text);
    n.note.clear();
    n.photo.clear();
  }
  for (NumberVerdict& v : a.numbers) {
    v.text = withheld_number(v.text);
    v.unread.reset();
    if (!v.reading) continue;
    v.reading->serial.reset();
    v.reading->slips.clear();
    std::erase_if(v.reading->parts, [](const PartReading& p) { return !p.code; });  // the serial and its like
  }
  for (Observation& o : in.observations) {
    o.note.clear();
    o.photo.clear();
  }
  for (DateCode& c : in.codes) c.note.clear();
  for (Claim& c : in.claims) {
    c.by.clear();
    c.note.clear();
  }
  for (Document& d : in.documents) d.note.clear();
}

}  // namespace exworks
