// Every feature by place, with the answer or an empty mark: the index beside the card on a wide screen, and the list of a place.

import { h, go } from "./dom.js";
import { answer, verdict } from "./words.js";

/** The sign of a feature: its verdict when it has one, a tick that waits for one, or an open ring. */
export function sign_of(job, feature) {
  const entry = job.answered(feature.id);
  if (!entry) return ["○", "open", "open"];
  const found = entry.waits ? null : verdict(job.now?.features?.[feature.id]?.verdict);
  return found ? [found.sign, found.word, found.kind] : ["•", "answered", "answered"];
}

export function feature_row(job, feature, here, prefix = "row") {
  const [sign, word, kind] = sign_of(job, feature);
  const entry = job.answered(feature.id);
  return h("li", null, go([
    h("span", { class: `sign ${kind}`, "aria-hidden": "true" }, sign),
    h("span", { class: "name" }, feature.name, h("span", { class: "quiet" }, entry ? ` ${answer(feature, entry.fields)}` : "")),
    h("span", { class: `word ${kind}` }, word),
  ], `#/job/${job.id}/card/${feature.id}`, { id: `${prefix}-${feature.id}`, class: "row", "aria-current": feature.id === here ? "true" : null }));
}

export function index_list(job, here) {
  return h("div", null, job.places.map((place) => {
    const features = job.at(place.id);
    const done = features.filter((f) => job.answered(f.id)).length;
    return h("section", { class: "index-place" },
      h("h2", null, place.name, h("span", { class: "quiet" }, ` ${done}/${features.length}`)),
      h("ul", { class: "rows tight" }, features.map((f) => feature_row(job, f, here, "index"))));
  }));
}
