// The walk-round: where one stands, what is still open there, and the list of one place.

import { h, go } from "./dom.js";
import { cautions_box } from "./page_card.js";
import { feature_row } from "./index_list.js";
import { standpoint } from "./drawings.js";
import { count } from "./words.js";

const done_at = (job, place) => job.at(place.id).filter((f) => job.answered(f.id)).length;

function place_row(job, place) {
  const all = job.at(place.id);
  const done = done_at(job, place);
  const open = all.find((f) => !job.answered(f.id));
  return h("li", null, go([standpoint(place.id),
    h("span", { class: "name" }, place.name, h("span", { class: "quiet" }, open ? `${done} of ${count(all.length, "look")} done` : "all looked at")),
    h("span", { class: "word", "aria-hidden": "true" }, open ? "→" : "✓")],
  open ? `#/job/${job.id}/card/${open.id}` : `#/job/${job.id}/walk/${place.id}`, { id: `place-${place.id}`, class: "row place" }));
}

function paper_rows(job) {
  const numbers = job.pack.numbers.map((n) => {
    const entry = job.entry("number", n.id);
    // Kept, but no form reads it: not done with.
    const unread = entry && !entry.waits && job.now?.numbers?.[n.id]?.form === "";
    const said = entry ? `${entry.fields.text}${unread ? ": can’t be read" : ""}` : n.identity ? "says most of all; not read yet" : "not read yet";
    return h("li", null, go([h("span", { class: "name" }, n.name, h("span", { class: "quiet" }, said)),
      h("span", { class: "word", "aria-hidden": "true" }, entry ? (unread ? "?" : "✓") : "→")], `#/job/${job.id}/number/${n.id}`, { id: `number-${n.id}`, class: "row" }));
  });
  return [numbers, h("li", null, go([h("span", { class: "name" }, "Papers, claims and the job itself", h("span", { class: "quiet" }, "what a seller says, a registration, the owner, notes")),
    h("span", { class: "word", "aria-hidden": "true" }, "→")], `#/job/${job.id}/papers`, { id: "to-papers", class: "row" }))];
}

export function page_walk(job, [place_id]) {
  if (place_id) return page_place(job, place_id);
  return {
    title: "Where are you standing?",
    watch: () => JSON.stringify([job.places.map((p) => done_at(job, p)), job.of_kind("number").map((e) => e.fields.text)]),
    draw: () => [
      h("p", { class: "where" }, go("All vehicles", "#/jobs", { id: "to-jobs" })),
      h("p", { class: "kind" }, job.about.name || job.pack.name),
      h("h1", { tabindex: "-1" }, "Where are you standing?"),
      cautions_box(job.pack.cautions.filter((c) => c.always)),
      h("ul", { class: "rows" }, job.places.map((p) => place_row(job, p))),
      h("h2", null, "Numbers and papers"),
      h("ul", { class: "rows" }, paper_rows(job)),
    ],
  };
}

function page_place(job, place_id) {
  const place = job.places.find((p) => p.id === place_id);
  if (!place) throw new Error(`the pack has no place '${place_id}'; go back to the walk round`);
  const next = job.places[(job.places.indexOf(place) + 1) % job.places.length];
  return {
    title: place.name,
    watch: () => JSON.stringify([job.at(place.id).map((f) => job.answered(f.id)?.fields), job.now?.features]),
    draw: () => {
      const all = job.at(place.id);
      const open = all.find((f) => !job.answered(f.id));
      const next_open = job.at(next.id).find((f) => !job.answered(f.id));
      return [
        h("p", { class: "where" }, go("Walk round", `#/job/${job.id}/walk`, { id: "to-walk" })),
        h("h1", { tabindex: "-1" }, place.name),
        h("p", null, open ? `${done_at(job, place)} of ${count(all.length, "look")} done.` : "Everything here is looked at."),
        h("p", { class: "acts" },
          open ? go(`On with: ${open.name}`, `#/job/${job.id}/card/${open.id}`, { id: "go-on", class: "main-act" }) : null,
          open || next === place ? null : go(`Go to: ${next.name}`, next_open ? `#/job/${job.id}/card/${next_open.id}` : `#/job/${job.id}/walk/${next.id}`, { id: "next-place", class: "main-act" })),
        h("ul", { class: "rows" }, all.map((f) => feature_row(job, f, ""))),
      ];
    },
  };
}
