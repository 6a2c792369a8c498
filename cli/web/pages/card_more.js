// The rest of a card: a measure, a note, and what else can be said of a part. None of it is needed to go on.

import { h, button } from "./dom.js";
import { HOW } from "./words.js";

/** The unit stands beside the box; a comma is as good as a point. */
export function measure_box(feature, stands, tap) {
  const unit = feature.unit === "none" ? "" : feature.unit;
  const wrong = h("p", { id: "measure-wrong", class: "wrong-words", role: "alert" });
  const box = h("input", { id: "measure", type: "text", inputmode: "decimal", autocomplete: "off", class: "large", "aria-describedby": "measure-wrong", value: stands?.measure ?? "" });
  const keep = () => {
    const text = box.value.trim().replace(",", ".");
    if (!/^\d+(\.\d+)?$/.test(text)) {
      wrong.textContent = "That is no measure; write digits, for instance 62.5.";
      box.focus();
      return;
    }
    tap({ measure: text, unit: feature.unit, how: "measured" });
  };
  box.addEventListener("keydown", (e) => { if (e.key === "Enter") keep(); });
  return h("div", { class: "measure" },
    h("label", { for: "measure" }, `Your measure${unit ? ` in ${unit}` : ""}`),
    h("div", { class: "side" }, box, button("Keep it", keep, { id: "keep-measure", class: "main-act" })), wrong,
    h("p", { class: "quiet" }, "Or choose what it is nearest to:"));
}

export function note_box(text, change) {
  const box = h("textarea", { id: "note", rows: 2, maxlength: 1000, value: text ?? "" });
  // The book keeps a note as one line.
  box.addEventListener("change", () => change(box.value.replace(/\s+/g, " ").trim()));
  return h("div", { class: "field" }, h("label", { for: "note" }, "Note (kept with the answer)"), box);
}

function choice(name, label, options, now, change) {
  const list = h("select", { id: name }, options.map(([value, words]) => h("option", { value, selected: (now ?? "") === value }, words)));
  list.addEventListener("change", () => change(name, list.value));
  return h("div", { class: "field" }, h("label", { for: name }, label), list);
}

export function more_box(extra, change) {
  return h("details", { class: "more-box", open: Boolean(extra.wear || extra.mark || extra.how) },
    h("summary", { id: "more" }, "More: how you know, and the part itself"),
    choice("how", "How do you know?", [["", "As usual for this one"], ...HOW], extra.how, change),
    choice("wear", "Its wear, against the rest of the vehicle", [["", "Not looked at"], ["consistent", "The same as the rest"], ["fresher", "Fresher than the rest"], ["older", "Older than the rest"]], extra.wear, change),
    choice("mark", "A mark on the part", [["", "Not looked at"], ["maker", "The maker’s mark or date code"], ["other-maker", "Another maker’s mark"], ["none", "No mark where one would be"]], extra.mark, change),
    h("p", { class: "quiet" }, "Wear and marks say something of the very part; the answers above only of its type."));
}
