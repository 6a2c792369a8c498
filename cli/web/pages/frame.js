// What stays while pages change: the plate at the top (leading build, date window), the tabs, the index of a wide
// screen, and the strip at the bottom with what the last answer changed.

import { h, s, go, button, put } from "./dom.js";
import { span, percent, count, sentence } from "./words.js";
import { waiting } from "./keep.js";
import { index_list } from "./index_list.js";

const at = (id) => document.getElementById(id);
const months = (text) => { const [y, m] = String(text).split("-"); return Number(y) * 12 + (Number(m) || 1) - 1; };

/** A steel rule of the family's years with the window of the build on it. Its words stand above it. */
function rule(pack, date) {
  if (!pack?.span?.from || !date?.from) return h("div", { class: "rule" });
  const [first, last] = [months(`${String(pack.span.from).slice(0, 4)}-01`), months(`${Number(String(pack.span.to).slice(0, 4)) + 1}-01`)];
  const x = (month) => (1000 * (month - first)) / (last - first);
  const years = (last - first) / 12;
  const step = years > 30 ? 10 : years > 12 ? 5 : 2;
  const marks = [];
  for (let year = 0; year < years; year += 1) {
    const long = (first / 12 + year) % step === 0;
    marks.push(s("path", { d: `M${x(first + year * 12).toFixed(1)} 22V${long ? 8 : 15}`, class: "mark" }));
  }
  const from = Math.max(0, x(months(date.from)));
  const width = Math.max(10, x(months(date.to) + 1) - from);
  return s("svg", { class: "rule", viewBox: "0 0 1000 24", preserveAspectRatio: "none", "aria-hidden": "true", focusable: "false" },
    s("path", { d: "M0 22H1000", class: "mark" }), marks, s("rect", { x: from.toFixed(1), y: 3, width: width.toFixed(1), height: 19, class: "window" }));
}

/** How it stands with what was tapped: saved, waiting, or not connected. A sign and words. */
function connection(job) {
  const left = waiting.open(job.about.uid).length;
  const bad = waiting.refused(job.about.uid).length;
  if (job.full) return ["✕", "not kept: this device is full", "bad"];
  if (!job.connected) return ["▲", left ? `no connection, ${left} kept here` : "no connection", "off"];
  if (bad && !left) return ["✕", `${bad} not taken`, "bad"];
  return left ? ["◔", `sending ${left}`, "off"] : ["✓", "saved", "on"];
}

export function show_plate(job) {
  const lead = job.now?.odds;
  const [sign, words, kind] = connection(job);
  const link = h("a", { class: "plate", id: "plate", href: `#/job/${job.id}/review` },
    h("span", { class: "lead" }, h("b", { class: "who" }, lead?.variant?.name ?? job.pack.name), lead?.variant ? h("span", { class: "share" }, percent(lead.variant.p)) : null),
    h("span", { class: "when" }, h("span", { class: "built" }, lead?.build_date ? `Built ${span(lead.build_date.from, lead.build_date.to)}` : job.trouble ? "Can’t be judged; see the review" : "Nothing looked at yet"),
      h("span", { class: `net ${kind}`, id: "net" }, h("span", { "aria-hidden": "true" }, `${sign} `), words)),
    rule(job.pack, lead?.build_date));
  put(at("head"), link);
}

const TABS = [["walk", "Walk round", "M4.5 14a8 8 0 1 1 3.5 5M3 15l1.5-3 3 2M10 10h4v4h-4z"], ["next", "What next", "M5 12h13M13 6l6 6-6 6"], ["find", "Find", "M10 4a6 6 0 1 0 .1 0M15 15l5 5"], ["review", "Review", "M5 5h14M5 12h14M5 19h9"]];

export function show_tabs(job, here) {
  const on = (name) => name === here || (name === "walk" && ["card", "number", "papers"].includes(here)) || (name === "review" && ["why", "history", "reports"].includes(here));
  put(at("tabs"), h("ul", null, TABS.map(([name, words, path]) =>
    h("li", null, go([s("svg", { viewBox: "0 0 24 24", "aria-hidden": "true", focusable: "false" }, s("path", { d: path })), h("span", null, words)],
      `#/job/${job.id}/${name}`, { id: `tab-${name}`, "aria-current": on(name) ? "page" : null })))));
  at("tabs").hidden = false;
}

/** One sentence on the last answer, with the way back in reach of the thumb. It stays until the next one. */
export function show_strip(job) {
  const said = job.said;
  const strip = at("strip");
  strip.hidden = !said;
  if (!said) return;
  const bad = waiting.refused(job.about.uid).find((item) => item.tap === said.tap)?.refused;
  const where = job.features.get(said.name);
  const words = bad ? `Not taken: ${bad}` : said.text || (job.connected ? "Kept. Working out what it means ..." : "Kept on this device; it goes as soon as the connection is back.");
  const title = h("b", null, `${sentence(said.words)}.`);
  put(strip,
    h("p", { id: "said" }, where ? go(title, `#/job/${job.id}/card/${said.name}`, { id: "back-to" }) : title, ` ${words}`, said.more?.length ? h("span", { class: "more" }, ` ${said.more.join(" ")}`) : null),
    said.undone ? null : button("Undo", () => job.undo(), { id: "undo", class: "small-act" }));
}

/** Only a wide screen shows it. */
export function show_index(job, here) {
  const box = at("index");
  box.hidden = !matchMedia("(min-width: 64rem)").matches;
  if (!box.hidden) put(box, index_list(job, here));
}

/** The head of pages that belong to no job. */
export function show_plain_head() {
  put(at("head"), h("a", { class: "plate bare", href: "#/jobs" }, h("b", { class: "who" }, "exworks"), h("span", { class: "when" }, "as it left the works")));
  at("tabs").hidden = at("index").hidden = at("strip").hidden = true;
}

export const progress = (done, all) => `${done} of ${count(all, "look", "looks")} done`;
