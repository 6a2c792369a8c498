#include "record/inspection_reader.hpp"

#include "base/text.hpp"
#include "xml/attributes.hpp"

namespace exworks {

namespace {

/// One figure, or two with ".." between: it lies somewhere between them.
void read_measure(const Element& e, Observation& o, Diagnostics& d) {
  const auto text = e.attribute("measure");
  if (!text) return;
  const std::size_t dots = text->find("..");
  const auto figure = [&](const std::string& words) {
    const auto x = parse_number(words);
    if (!x || *x < -1e9 || *x > 1e9) d.error(e.place("measure"), "'" + words + "' is no measure", "write it like 850, or 850..950 where it lies between the two");
    return x;
  };
  o.measure = figure(text->substr(0, dots));
  if (dots != std::string::npos) o.measure_to = figure(text->substr(dots + 2));
  if (o.measure && o.measure_to && *o.measure_to < *o.measure) d.error(e.place("measure"), "the measure ends before it begins", "write the smaller figure first");
}

Observation read_observed(const Element& e, Diagnostics& d) {
  const Attributes a(e, d, {"feature", "value", "not", "state", "measure", "unit", "how", "sure", "note", "photo", "wear", "mark", "confirmed"});
  Observation o;
  o.place = e.place();
  o.feature = a.text("feature");
  o.feature_place = e.place("feature");
  o.value = a.text_or("value", "");
  o.is_not = a.text_or("not", "");
  o.value_place = e.place(a.has("measure") ? "measure" : a.has("not") ? "not" : "value");
  o.state = a.one_of<LookState>("state");
  read_measure(e, o, d);
  o.unit = a.choice("unit", {"mm", "in", "cc", "l", "cu-in", "kg", "lb", "V", "none"}, "");
  o.unit_place = e.place("unit");
  o.how = a.one_of("how", o.measure ? HowSeen::measured : HowSeen::seen);
  o.sure = a.one_of("sure", HowSure::sure);
  o.note = a.text_or("note", e.text());
  o.photo = a.text_or("photo", "");
  o.wear = a.one_of<Wear>("wear");
  o.mark = a.one_of<MakersMark>("mark");
  o.confirmed = a.one_of<Confirmed>("confirmed");
  const int given = (a.has("value") ? 1 : 0) + (a.has("not") ? 1 : 0) + (a.has("state") ? 1 : 0) + (a.has("measure") ? 1 : 0);
  if (given != 1) {
    d.error(o.place, given == 0 ? "nothing is said of feature '" + o.feature + "'" : "feature '" + o.feature + "' has more than one of value, not, state and measure",
            "give one: value=\"...\", not=\"...\", measure=\"...\" with unit=\"...\", or state=\"not-seen\"");
  }
  if (o.measure && !a.has("unit")) d.error(e.place("measure"), "a measure needs its unit", "write unit=\"mm\", \"in\", \"cc\", \"cu-in\" ...");
  return o;
}

NumberSeen read_number_seen(const Element& e, Diagnostics& d) {
  const Attributes a(e, d, {"id", "text", "how", "sure", "state", "note", "photo"});
  NumberSeen n;
  n.place = e.place();
  n.id = a.text("id");
  n.id_place = e.place("id");
  n.text = a.text("text");
  n.text_place = e.place("text");
  n.how = a.one_of("how", HowSeen::read);
  n.sure = a.one_of("sure", HowSure::sure);
  n.state = a.one_of("state", NumberState::as_found);
  n.note = a.text_or("note", e.text());
  n.photo = a.text_or("photo", "");
  return n;
}

Claim read_claim(const Element& e, Diagnostics& d) {
  const Attributes a(e, d, {"by", "built", "generation", "variant", "body", "market", "plant", "note"});
  Claim c{a.text_or("by", ""), a.text_or("generation", ""), a.text_or("variant", ""), a.text_or("body", ""), a.text_or("market", ""),
          a.text_or("plant", ""), a.text_or("note", e.text()), a.edge("built"), e.place(), e.place("generation"), e.place("variant"),
          e.place("body"), e.place("market"), e.place("plant")};
  return c;
}

Document read_document(const Element& e, Diagnostics& d) {
  const Attributes a(e, d, {"kind", "date", "built", "note"});
  Document doc;
  doc.place = e.place();
  doc.kind = a.one_of("kind", DocumentKind::owner);
  if (!a.has("kind")) a.text("kind");
  doc.date = a.edge("date");
  doc.built = a.edge("built");
  doc.note = a.text_or("note", e.text());
  return doc;
}

DateCode read_code(const Element& e, Diagnostics& d) {
  const Attributes a(e, d, {"kind", "text", "feature", "triangle", "word", "dot", "quarter", "note"});
  DateCode c;
  c.place = e.place();
  c.kind = a.choice("kind", {"tyre", "triplex", "us-casting", "belt-label", "sealed-beam", "approval-mark", "gb-registration", "foundry-clock"}, "");
  if (!a.has("kind")) a.text("kind");
  const bool drawn = c.kind == "triplex" || c.kind == "foundry-clock";
  if (!drawn) c.text = a.text("text");
  c.feature = a.text_or("feature", "");
  c.feature_place = e.place("feature");
  c.triangle = a.yes_no("triangle", false);
  c.word = a.choice("word", {"toughened", "laminated"}, "toughened");
  c.dot = a.text_or("dot", "");
  c.quarter = a.text_or("quarter", "");
  c.note = a.text_or("note", e.text());
  const bool good_dot = c.dot == "right" || c.dot == "none" || (!c.dot.empty() && c.dot.size() <= 2 && c.dot[0] >= 'A' && c.dot[0] <= 'Z' && (c.dot.size() == 1 || c.dot[1] == '1' || c.dot[1] == '2'));
  if (c.kind == "triplex" && !good_dot) d.error(e.place("dot"), "a glass mark needs the letter with the dot", "write dot=\"U\", dot=\"E2\" for the second E, dot=\"right\" or dot=\"none\"");
  return c;
}

Expectation read_expectation(const Element& e, Diagnostics& d) {
  const Attributes a(e, d, {"generation", "variant", "body", "market", "plant", "built", "within", "feature", "verdict", "number", "agrees", "undecided", "source", "note"});
  Expectation x;
  x.generation = a.text_or("generation", "");
  x.variant = a.text_or("variant", "");
  x.body = a.text_or("body", "");
  x.market = a.text_or("market", "");
  x.plant = a.text_or("plant", "");
  x.built = a.edge("built");
  x.within = a.edge("within");
  x.feature = a.text_or("feature", "");
  x.verdict = a.choice("verdict", {"original", "later change", "uncertain"}, "");
  x.number = a.text_or("number", "");
  x.agrees = a.choice("agrees", {"yes", "no", "cannot-tell"}, "");
  x.undecided = a.choice("undecided", {"generation", "variant", "market", "body"}, "");
  x.source = a.text("source");
  x.note = a.text_or("note", e.text());
  x.place = e.place();
  const bool empty = x.generation.empty() && x.variant.empty() && x.body.empty() && x.market.empty() && x.plant.empty() && !x.built && !x.within && x.feature.empty() && x.number.empty() && x.undecided.empty();
  if (empty) d.error(x.place, "this expectation expects nothing", "write generation=, variant=, built=, feature= with verdict= ...");
  if (x.feature.empty() != x.verdict.empty()) d.error(x.place, "an expectation of a feature names its verdict", "write feature=\"...\" verdict=\"original\"");
  if (x.number.empty() != x.agrees.empty()) d.error(x.place, "an expectation of a number says whether it agrees", "write number=\"...\" agrees=\"yes\"");
  return x;
}

ClassificationAnswer read_answer(const Element& e, Diagnostics& d) {
  const Attributes a(e, d, {"scheme", "question", "is", "date", "note"});
  ClassificationAnswer x;
  x.scheme = a.text_or("scheme", "");
  x.question = a.text("question");
  x.is = split_words(a.text("is"));
  x.date = a.edge("date");
  x.note = a.text_or("note", e.text());
  x.place = e.place();
  return x;
}

void read_vehicle(const Element& e, Inspection& i, Diagnostics& d) {
  const Attributes a(e, d, {"name", "reference", "country"});
  i.vehicle = a.text_or("name", "");
  i.reference = a.text_or("reference", "");
  i.country = a.text_or("country", "");
  if (!i.country.empty() && !is_country(i.country)) d.error(e.place("country"), "'" + i.country + "' is no country's code", "write the two capital letters of ISO 3166-1, such as GB or AU");
  for (const Element& child : e.children()) {
    if (child.name() == "note") i.note += (i.note.empty() ? "" : " ") + child.text();
    else unknown_element(child, {"note"}, d);
  }
}

}  // namespace

std::optional<Inspection> read_inspection(std::string text, const std::string& file, Diagnostics& d) {
  const std::size_t errors = d.error_count();
  const auto root = XmlFile::parse(std::move(text), file, d);
  if (!root) return std::nullopt;
  if (root->name() != "inspection") {
    d.error(root->place(), "the root element is '" + root->name() + "'", "an inspection begins with <inspection format=\"1\">");
    return std::nullopt;
  }
  const Attributes a(*root, d, {"format", "family", "date", "by"});
  const std::string format = a.text("format");
  if (format != "1" && format != std::to_string(inspection_format)) {
    if (!format.empty()) d.error(root->place("format"), "the file has format '" + format + "'; this program reads formats 1 and " + std::to_string(inspection_format), "update the program");
    return std::nullopt;
  }
  Inspection i;
  i.file = file;
  i.place = root->place();
  i.family_place = root->place("family");
  i.family = a.text_or("family", "");
  i.by = a.text_or("by", "");
  i.date = a.edge("date");
  bool vehicle = false;
  for (const Element& e : root->children()) {
    const std::string name = e.name();
    if (name == "observed") i.observations.push_back(read_observed(e, d));
    else if (name == "number") i.numbers.push_back(read_number_seen(e, d));
    else if (name == "code") i.codes.push_back(read_code(e, d));
    else if (name == "claimed") i.claims.push_back(read_claim(e, d));
    else if (name == "document") i.documents.push_back(read_document(e, d));
    else if (name == "answer") i.answers.push_back(read_answer(e, d));
    else if (name == "expect") i.expectations.push_back(read_expectation(e, d));
    else if (name == "vehicle" && !vehicle) vehicle = true, read_vehicle(e, i, d);
    else if (name == "vehicle") d.error(e.place(), "a second 'vehicle'", "an inspection is of one; merge them");
    else unknown_element(e, {"vehicle", "claimed", "document", "number", "code", "observed", "answer", "expect"}, d);
  }
  if (d.error_count() > errors) return std::nullopt;
  return i;
}

}  // namespace exworks
