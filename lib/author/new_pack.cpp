#include "author/new_pack.hpp"


#include "author/fact_table.hpp"

namespace exworks {

namespace {

std::string attribute(const std::string& text) {
  std::string out;
  for (char c : text) {
    if (c == '&') out += "&amp;";
    else if (c == '<') out += "&lt;";
    else if (c == '"') out += "&quot;";
    else out += c;
  }
  return out;
}

/// Text for a comment, which may not hold two hyphens in a row.
std::string in_comment(const std::string& text) {
  std::string out;
  for (char c : text) out += c == '-' && !out.empty() && out.back() == '-' ? ' ' : c;
  return out;
}

std::string markets_with(const NewPack& pack, const std::string& steering) {
  std::string out;
  for (const NewMarket& m : pack.markets) {
    if (m.steering == steering) out += (out.empty() ? "" : " ") + id_from_name(m.name);
  }
  return out;
}

std::string steering(const NewPack& pack, const std::string& side) {
  const std::string markets = markets_with(pack, side);
  return markets.empty() ? "" : "    <fact value=\"" + side + "\" markets=\"" + markets + "\" source=\"trade\"/>\n";
}

std::string conversions(const NewPack& pack) {
  std::string out;
  for (const std::string side : {"left", "right"}) {
    const std::string markets = markets_with(pack, side == "left" ? "right" : "left");
    if (markets.empty()) continue;
    out += "    <later id=\"moved-to-the-" + side + "\" value=\"" + side + "\" markets=\"" + markets +
           "\" name=\"steering moved to the " + side + "\" reversible=\"partly\" source=\"trade\">Holes of the other side are filled or covered; the pedal box and the dash panel have been cut.</later>\n";
  }
  return out;
}

}  // namespace

std::string new_pack_text(const NewPack& p) {
  std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!-- " + in_comment(p.name) +
                    ": a new pack. The format is told in rules/FORMAT.md. After every change run\n"
                    "         exworks pack check " + p.id + "\n"
                    "     which says what is wrong, where, and what to do about it. -->\n"
                    "<pack format=\"2\" id=\"" + p.id + "\" name=\"" + attribute(p.name) + "\" version=\"1\" status=\"real\">\n\n"
                    "  <!-- Sources. Every fact names one or more of them. Add yours like this:\n"
                    "       <source id=\"parts-list\" kind=\"published\" title=\"Parts list\" publisher=\"Who printed it\" year=\"1957\"/> -->\n"
                    "  <source id=\"trade\" kind=\"common-practice\" title=\"common practice, no source\"/>\n"
                    "  <source id=\"memory\" kind=\"memory\" title=\"from memory, not found in a source\"/>\n\n"
                    "  <!-- Where one stands, in the order of a walk-round. -->\n"
                    "  <place id=\"front\" name=\"Standing at the front\"/>\n  <place id=\"rear\" name=\"Standing at the rear\"/>\n  <place id=\"engine-bay\" name=\"At the engine\"/>\n"
                    "  <place id=\"interior\" name=\"In the driver's seat\"/>\n\n"
                    "  <!-- What was built: for whom, where, and when. from and to are the first and the last month;\n       put the source from which you know them in place of memory. -->\n";
  for (const NewMarket& m : p.markets) out += "  <market id=\"" + id_from_name(m.name) + "\" name=\"" + attribute(m.name) + "\" steering=\"" + m.steering + "\"/>\n";
  out += "  <plant id=\"works\" name=\"Works\" kit=\"no\" markets=\"*\"/>\n  <generation id=\"first\" name=\"" + attribute(p.name) + "\"/>\n  <body id=\"any\" name=\"any body\"/>\n";
  for (const NewVariant& v : p.variants) {
    out += "  <variant id=\"" + id_from_name(v.name) + "\" name=\"" + attribute(v.name) + "\" generation=\"first\" body=\"any\" markets=\"*\" plants=\"*\" from=\"" + attribute(v.from) + "\" to=\"" + attribute(v.to) + "\" source=\"memory\"/>\n";
  }
  out += "\n  <!-- Features: what an inspector can tell apart. A change of fashion is two facts that share an edge; the month may be\n"
         "       uncertain:\n"
         "         <feature id=\"grille\" name=\"Grille\" place=\"front\">\n"
         "           <ask>What fills the opening between the headlamps?</ask>\n"
         "           <value id=\"bars\" name=\"upright bars\">Pressed in one piece.</value>\n"
         "           <value id=\"mesh\" name=\"wire mesh\">Four screws at the corners.</value>\n"
         "           <fact value=\"bars\" to=\"[1958-09..1959-02]\" source=\"parts-list\"/>\n"
         "           <fact value=\"mesh\" from=\"[1958-09..1959-02]\" source=\"parts-list\"/>\n"
         "         </feature>\n"
         "       The side of the steering wheel is filled in: it follows from the markets above. -->\n"
         "  <feature id=\"steering-side\" name=\"Side of the steering wheel\" place=\"interior\" weight=\"3\" minutes=\"0.1\" class=\"structure\">\n"
         "    <ask>On which side is the steering wheel, as one sits in the vehicle?</ask>\n"
         "    <value id=\"left\" name=\"left\">For driving on the right.</value>\n    <value id=\"right\" name=\"right\">For driving on the left.</value>\n";
  return out + steering(p, "left") + steering(p, "right") + conversions(p) + "  </feature>\n</pack>\n";
}

}  // namespace exworks
