#include "words/redaction.hpp"

#include <algorithm>
#include <vector>

namespace exworks {

namespace {

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
