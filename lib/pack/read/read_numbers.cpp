#include <algorithm>

#include "base/text.hpp"
#include "pack/read/reader_context.hpp"

namespace exworks {

namespace {

std::string bare_code(const Attributes& a, std::string_view name, const std::string& text) {
  const std::string bare = strip(text).text;
  if (bare.empty() && !text.empty()) {
    a.diagnostics().note(a.element().place(name), "'" + text + "' is only separators, which are never compared", "leave it out");
  }
  return bare;
}

/// `digits="5"` or `digits="1-6"`.
void read_digits(const Attributes& a, NumberPart& part) {
  const std::string text = a.text("digits");
  part.min_digits = part.max_digits = 1;
  if (text.empty()) return;
  const std::size_t dash = text.find('-');
  const auto one = [](const std::string& s) { return s.size() == 1 || s == "10" || s == "11" || s == "12" ? std::atoi(s.c_str()) : 0; };
  part.min_digits = one(text.substr(0, dash));
  part.max_digits = dash == std::string::npos ? part.min_digits : one(text.substr(dash + 1));
  if (part.min_digits < 1 || part.max_digits < part.min_digits) {
    a.diagnostics().error(a.element().place("digits"), "'" + text + "' is no count of digits", "write digits=\"5\" or digits=\"1-6\", at most 12");
    part.min_digits = part.max_digits = 1;
  }
}

void read_code(ReaderContext& context, const Element& element, NumberPart& part, std::vector<CodeMeaning>& meanings) {
  const Attributes a(element, context.diagnostics, with_scope({"text", "also", "means", "feature", "value"}));
  Code code;
  if (!a.has("text")) a.text("text");
  code.text = bare_code(a, "text", a.text_or("text", ""));
  for (const std::string& word : split_words(a.text_or("also", ""))) code.also.push_back(strip(word).text);
  code.means = a.text_or("means", element.text());
  for (const Code& other : part.codes) {
    if (other.text == code.text) context.diagnostics.error(element.place("text"), "code '" + code.text + "' is given twice in this part", "delete one");
  }
  CodeMeaning meaning;
  if (std::any_of(scope_attributes.begin(), scope_attributes.end(), [&](std::string_view s) { return a.has(s); })) meaning.scope = context.scope(a);
  if (const auto feature = context.reference(a, "feature", context.features, false)) {
    if (const auto value = context.value_of(FeatureIndex{*feature}, a.text("value"), element.place("value"))) meaning.sets = FeatureValue{FeatureIndex{*feature}, *value};
  }
  part.codes.push_back(std::move(code));
  meanings.push_back(std::move(meaning));
}

void read_part(ReaderContext& context, const Element& element, NumberForm& form) {
  NumberPart part;
  std::vector<CodeMeaning> meanings;
  const std::string name = element.name();
  if (name == "part") {
    const Attributes a(element, context.diagnostics, {"id", "name"});
    part.id = a.id();
    part.name = a.text("name");
    for (const Element& child : element.children()) {
      if (child.name() == "code") read_code(context, child, part, meanings);
      else unknown_element(child, {"code"}, context.diagnostics);
    }
    if (part.codes.empty()) context.diagnostics.error(element.place(), "part '" + part.id + "' has no codes", "write at least one <code text=\"...\" means=\"...\"/>");
  } else if (name == "text") {
    const Attributes a(element, context.diagnostics, {"is"});
    part.kind = NumberPart::Kind::literal;
    Code code;
    code.text = bare_code(a, "is", a.text("is"));
    if (code.text.empty()) return;  // separators only: nothing to compare
    part.codes.push_back(std::move(code));
    meanings.emplace_back();
  } else if (name == "serial") {
    const Attributes a(element, context.diagnostics, {"digits", "name"});
    part.kind = NumberPart::Kind::serial;
    part.name = a.text_or("name", "Serial number");
    read_digits(a, part);
    for (const NumberPart& other : form.grammar.parts) {
      if (other.kind == NumberPart::Kind::serial) context.diagnostics.error(element.place(), "a form has one serial", "make the other a part, or merge them");
    }
  } else {
    unknown_element(element, {"part", "text", "serial"}, context.diagnostics);
    return;
  }
  form.grammar.parts.push_back(std::move(part));
  form.meanings.push_back(std::move(meanings));
}

NumberForm read_form(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, with_scope({"id", "name", "example", "from", "to", "source"}));
  NumberForm form;
  const std::size_t errors = context.diagnostics.error_count();
  form.grammar.id = a.id();
  form.grammar.name = a.text("name");
  form.example = a.text_or("example", "");
  form.scope = context.scope(a);
  form.from = a.edge("from");
  form.to = a.edge("to");
  form.sources = context.cited(a, true);
  form.note = element.text();
  form.place = element.place();
  for (const Element& child : element.children()) read_part(context, child, form);
  if (form.grammar.parts.empty()) context.diagnostics.error(form.place, "form '" + form.grammar.id + "' has no parts", "write part, text and serial inside");
  else if (!form.example.empty() && context.diagnostics.error_count() == errors && read_number(form.example, {&form.grammar}).empty()) {
    const NumberFailure why = explain_failure(form.example, {&form.grammar});
    context.diagnostics.error(element.place("example"), "the form doesn't read its own example '" + form.example + "'",
                              "at '" + form.example.substr(std::min(why.offset, form.example.size())) + "' it wants " + why.expected);
  }
  return form;
}

NumberRange read_range(ReaderContext& context, const Element& element, const Ids& forms) {
  const Attributes a(element, context.diagnostics, with_scope({"first", "last", "from", "to", "forms", "spread", "name", "source"}));
  NumberRange r;
  for (std::string_view name : {"first", "last", "from", "to"}) {
    if (!a.has(name)) a.text(name);
  }
  r.first = a.integer("first", 0, 999'999'999'999).value_or(0);
  r.last = a.integer("last", 0, 999'999'999'999).value_or(r.first);
  const Edge never{Month::of(1900, 1), Month::of(1900, 1)};
  r.from = a.edge("from").value_or(never);
  r.to = a.edge("to").value_or(r.from);
  r.scope = context.scope(a);
  r.forms = context.references(a, "forms", forms);
  r.spread = static_cast<int>(a.integer("spread", 0, 120).value_or(1));
  r.name = a.text_or("name", "");
  r.sources = context.cited(a, true);
  r.place = element.place();
  if (r.last < r.first) context.diagnostics.error(element.place("last"), "this range runs backwards: " + std::to_string(r.first) + " to " + std::to_string(r.last), "swap first and last");
  if (r.from.open || r.to.open) {
    context.diagnostics.error(r.place, "a number range needs both dates", "write the months, or a span such as [1950..1952]");
    r.from = r.to = never;
  }
  if (r.to.last < r.from.first) context.diagnostics.error(element.place("to"), "this range ends before it begins", "swap or correct the dates");
  return r;
}

}  // namespace

void read_number(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, with_override({"id", "name", "identity", "assembly", "where", "source"}));
  check_override(a);
  Number n;
  n.id = a.id();
  n.name = a.text("name");
  n.where = a.text("where");
  n.identity = a.yes_no("identity", false);
  n.assembly = context.reference(a, "assembly", context.assemblies, false);
  n.sources = context.cited(a, true);
  n.place = element.place();
  Ids forms("form");
  for (const Element& child : element.children()) {
    if (child.name() == "form") {
      n.forms.push_back(read_form(context, child));
      forms.add(n.forms.back().grammar.id, n.forms.back().place, context.diagnostics);
    } else if (child.name() != "range") {
      unknown_element(child, {"form", "range"}, context.diagnostics);
    }
  }
  for (const Element& child : element.children()) {
    if (child.name() == "range") n.ranges.push_back(read_range(context, child, forms));
  }
  if (n.forms.empty()) context.diagnostics.error(n.place, "number '" + n.id + "' has no form", "write at least one <form>");
  if (n.identity && n.assembly) context.diagnostics.error(n.place, "the identity number belongs to no assembly", "leave out assembly, or identity");
  context.numbers.add(n.id, n.place, context.diagnostics);
  context.pack.numbers.push_back(std::move(n));
}

}  // namespace exworks
