#include "words/numbers.hpp"

#include "words/summary.hpp"

namespace exworks {

namespace {

const FormInfo* form_of(const Tables& t, const NumberVerdict& n) { return n.reading ? &t.numbers[n.number].forms[n.reading->form] : nullptr; }

std::string unread_note(const Tables& t, const NumberVerdict& n) {
  const NumberInfo& info = t.numbers[n.number];
  const std::string none = "no form of " + info.name + " reads '" + n.text + "'";
  return n.unread ? none + ": read as " + info.forms[n.unread->form].grammar.name + ", " + failure_words(n.text, *n.unread) : none;
}

std::string identity_note(Agreement agrees) {
  if (agrees == Agreement::no) {
    return "The number is not consistent with the rest of the vehicle. A miswritten figure, a replaced plate, a number issued by the registering authority or a "
           "body from another vehicle would each explain it. Ask the registering authority or the maker's archive, with the papers, before money changes hands.";
  }
  return agrees == Agreement::cannot_tell ? "Whether the number is this vehicle's own can't be told from what was seen." : "";
}

/// What was not read of it, and how it came to be there.
std::string found_words(const NumberVerdict& n) {
  std::string out;
  if (n.reading && n.reading->partial) out = "Only its beginning was read. ";
  else if (n.text.find(unread_sign) != std::string::npos) out = "Some of its signs could not be read. ";
  switch (n.state) {
    case NumberState::as_found: return out;
    case NumberState::restamped: return out + "It was stamped again, so that it weighs less. ";
    case NumberState::replaced_plate: return out + "It stands on a plate that was replaced, so that it weighs less. ";
    case NumberState::copied: return out + "It was copied from elsewhere, so that it weighs less. ";
  }
  return out;
}

std::string no_window_words(const NumberVerdict& n) {
  if (!n.no_window) return {};
  switch (*n.no_window) {
    case NoWindow::outside_all_ranges: return "The serial " + (n.reading->serial ? std::to_string(*n.reading->serial) + " " : "") + "lies in none of the pack's ranges.";
    case NoWindow::no_ranges_of_this_form: return "The pack has no ranges for numbers of this form.";
    case NoWindow::of_other_vehicles: return "The serial lies in a range, but in none for the vehicles that the other parts allow.";
  }
  return {};
}

std::string agreement_note(const Tables& t, const NumberVerdict& n) {
  if (n.p_own) {
    if (const std::string note = identity_note(n.agrees); !note.empty()) return note;
  } else if (n.agrees == Agreement::no) {
    const NamedChange* change = n.known_conversion ? static_cast<const NamedChange*>(&t.conversions[*n.known_conversion]) : n.known_change ? &t.changes[*n.known_change] : nullptr;
    if (change != nullptr) return "Not the number of a part fitted when new; a known change explains it: " + change->name + ".";
    return "Not consistent with this build as it left the works; the part may have been replaced.";
  }
  return no_window_words(n);
}

}  // namespace

std::string form_name(const Tables& t, const NumberVerdict& n) {
  const FormInfo* form = form_of(t, n);
  return form == nullptr ? "" : form->grammar.name;
}

std::vector<PartWords> number_parts(const Tables& t, const NumberVerdict& n) {
  std::vector<PartWords> out;
  const FormInfo* form = form_of(t, n);
  if (form == nullptr) return out;
  for (const PartReading& part : n.reading->parts) {
    const NumberPart& p = form->grammar.parts[part.part];
    if (p.kind == NumberPart::Kind::literal) continue;
    const std::string means = part.code ? p.codes[*part.code].means : "";
    if (!part.text.empty() || !means.empty()) out.push_back({p.name, part.text, means});
  }
  return out;
}

std::string parts_in_a_row(const Tables& t, const NumberVerdict& n) {
  std::string out;
  for (const PartWords& p : number_parts(t, n)) out += (out.empty() ? "" : "; ") + p.name + " " + (p.text.empty() ? "(left out)" : p.text) + (p.means.empty() ? "" : ": " + p.means);
  return out;
}

std::string slip_words(const NumberSlip& slip) {
  const std::string read = "'" + slip.written + "' read as ";
  switch (slip.kind) {
    case NumberSlip::Kind::digit: return read + "the digit " + slip.meant;
    case NumberSlip::Kind::letter: return read + "the letter " + slip.meant;
    case NumberSlip::Kind::extra: return "'" + slip.written + "' left out as one sign too many";
    case NumberSlip::Kind::missing: return "a sign missing: read as " + slip.meant;
    case NumberSlip::Kind::swapped: return read + "'" + slip.meant + "': two signs changed about";
    case NumberSlip::Kind::spelling: return read + (slip.meant.empty() ? "nothing" : "'" + slip.meant + "'");
  }
  return {};
}

std::vector<std::string> slips_of(const NumberVerdict& n) {
  std::vector<std::string> out;
  if (!n.reading) return out;
  for (const NumberSlip& s : n.reading->slips) out.push_back(slip_words(s));
  return out;
}

std::string agreement_words(const NumberVerdict& n) {
  if (!n.reading) return "not read by any known form";
  return n.agrees == Agreement::yes ? "agrees with the rest" : n.agrees == Agreement::no ? "not consistent with the rest" : "cannot be told";
}

std::string number_note(const Tables& t, const NumberVerdict& n) {
  if (!n.reading) return unread_note(t, n);
  std::string out = found_words(n) + agreement_note(t, n);
  while (out.ends_with(' ')) out.pop_back();
  return out;
}

std::string number_line(const Tables& t, const NumberVerdict& n) {
  const std::string note = number_note(t, n);
  if (!n.window) return note;
  return "By itself it says: built " + span_words(*n.window) + "." + (note.empty() ? "" : " " + note);
}

std::string failure_words(const std::string& text, const NumberFailure& why) {
  return (why.offset < text.size() ? "at '" + text.substr(why.offset) + "'" : std::string("at its end")) + " it wants " + why.expected;
}

}  // namespace exworks
