// Why a verdict stands: the facts with their dates and sources, and the odds with and without this feature.

import { h, go, put } from "./dom.js";
import { get } from "./api.js";
import { percent, span, sentence, answer, moment } from "./words.js";
import { verdict_mark } from "./page_review.js";

const may_link = (url) => /^https?:\/\//.test(url ?? "");
const words = (x) => (typeof x === "string" ? x : x?.text ?? x?.name ?? "");

function source_line(source) {
  const about = [source.title, source.publisher, source.year].filter(Boolean).join(", ") || source.kind;
  return h("li", { value: source.n, id: `source-${source.n}` }, may_link(source.url) ? h("a", { href: source.url, target: "_blank", rel: "noopener noreferrer" }, about) : about,
    source.kind && source.kind !== "published" ? h("span", { class: "quiet" }, ` (${source.kind.replace("-", " ")})`) : null);
}

/** A bar of its share beside the words: the length says it, the figure too. */
function odds_row(label, odds) {
  if (!odds) return null;
  const bar = h("span", { class: "bar", "aria-hidden": "true" }, h("i"));
  bar.firstChild.style.width = `${Math.round((odds.p ?? 0) * 100)}%`;
  return h("tr", null, h("th", { scope: "row" }, label), h("td", null, words(odds.variant), " ", h("b", null, percent(odds.p)), bar), h("td", null, odds.build_date ? span(odds.build_date.from, odds.build_date.to) : ""));
}

function donor_words(donor) {
  if (!donor) return null;
  return `A donor built ${span(donor.from, donor.to)} fits; odds that it was replaced from one of the family: ${percent(donor.p)}.`;
}

function change_part(change) {
  if (!change) return null;
  return h("dl", { class: "facts" }, h("dt", null, "Known change"), h("dd", null, change.name),
    change.spot ? [h("dt", null, "How to tell"), h("dd", null, change.spot)] : null,
    change.from ? [h("dt", null, "Possible since"), h("dd", null, span(change.from, change.from))] : null,
    change.reversible ? [h("dt", null, "Comes off again"), h("dd", null, `${change.reversible === "partly" ? "in part" : change.reversible}${change.hours ? `, about ${change.hours} h` : ""}`)] : null);
}

function body(job, id, told) {
  const feature = job.features.get(id);
  return [
    h("p", { class: "where" }, go("Review", `#/job/${job.id}/review`, { id: "to-review" })),
    h("p", { class: "kind" }, "Why?"),
    h("h1", { tabindex: "-1" }, told.name ?? feature?.name ?? id),
    h("p", null, job.answered(id) ? h("b", null, `${sentence(answer(feature, job.answered(id).fields))} `) : null, verdict_mark(told.verdict, told.p_type)),
    told.reason ? h("p", { class: "summary" }, told.reason) : null,
    told.strength ? h("p", null, `This observation: ${told.strength}.`) : null,
    told.memory_alone ? h("p", null, "It rests on memory alone, without a source.") : null,
    told.hinges_on?.length ? h("p", null, `It would not be firm without: ${told.hinges_on.join(", ")}.`) : null,
    told.part ? h("p", { class: "quiet" }, `The very part: ${told.part}.`) : null,
    h("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "The odds with and without this feature" }, h("table", null, h("caption", null, "The odds with and without this feature"),
      h("thead", null, h("tr", null, ["", "Leading build", "Built"].map((w) => h(w ? "th" : "td", w ? { scope: "col" } : null, w)))),
      h("tbody", null, odds_row("Without it", told.without), odds_row("With it", told.with)))),
    told.facts?.length ? [h("h2", null, "The facts"), h("ul", { class: "findings" }, told.facts.map((f) =>
      h("li", { class: "finding" }, h("p", null, f.text, f.from || f.to ? h("b", null, ` ${span(f.from, f.to)}`) : "", " ", (f.sources ?? []).map((n) => h("span", { class: "cite" }, `[${typeof n === "object" ? n.n : n}]`))))))]
      : h("p", { class: "none" }, "The pack is silent here: no fact binds this build."),
    told.later_change ? [h("h2", null, "Later change"), change_part(told.later_change)] : null,
    told.donor ? h("p", null, donor_words(told.donor)) : null,
    told.sources?.length ? [h("h2", null, "Sources"), h("ol", { class: "sources" }, told.sources.map(source_line))] : null,
    h("p", { class: "acts" }, go("Change the answer", `#/job/${job.id}/card/${id}?by=review`, { id: "edit", class: "small-act" }), go("History", `#/job/${job.id}/history?of=${id}`, { id: "history", class: "small-act" })),
  ];
}

export async function page_why(job, [id]) {
  let told = await get(`/api/jobs/${job.id}/why/${encodeURIComponent(id)}`);
  let asked_at = job.change;
  return {
    title: `Why: ${told.name ?? id}`,
    watch: () => String(job.change),
    draw: () => {
      const box = h("div", null, body(job, id, told));
      if (asked_at !== job.change) {
        asked_at = job.change;
        get(`/api/jobs/${job.id}/why/${encodeURIComponent(id)}`).then((now) => {
          told = now;
          put(box, ...body(job, id, told).flat());
        }, () => { /* without connection the page stays as it is */ });
      }
      return box;
    },
  };
}

const KINDS = { observed: "", number: "number ", about: "job: ", claimed: "claim ", document: "document ", photo: "picture " };

function entry_words(job, e) {
  const feature = job.features.get(e.name);
  if (!e.fields) return "taken back";
  if (e.kind === "observed") return [answer(feature, e.fields), e.fields.sure, e.fields.note ? `note: ${e.fields.note}` : ""].filter(Boolean).join(", ");
  if (e.kind === "photo") return e.fields.file ?? "";
  return Object.values(e.fields).join(", ");
}

function entry_name(job, e) {
  if (e.kind === "photo") return job.features.get(e.fields?.feature)?.name ?? "";
  if (e.kind === "number") return job.pack.numbers.find((n) => n.id === e.name)?.name ?? e.name;
  return job.features.get(e.name)?.name ?? (e.kind === "about" ? e.name : "");
}

export async function page_history(job, _, query) {
  const of = query.get("of");
  const all = (await get(`/api/jobs/${job.id}/history`)).entries;
  const shown = all.filter((e) => !of || e.name === of || e.fields?.feature === of).reverse();
  const name = of ? job.features.get(of)?.name ?? of : "";
  return {
    title: of ? `History: ${name}` : "Everything that was answered",
    watch: () => "",
    draw: () => [
      h("p", { class: "where" }, go("Review", `#/job/${job.id}/review`, { id: "to-review" })),
      h("h1", { tabindex: "-1" }, of ? `History: ${name}` : "Everything that was answered"),
      h("p", { class: "quiet" }, "Latest first. Nothing is ever overwritten."),
      shown.length === 0 ? h("p", { class: "none" }, "Nothing yet.") : null,
      h("ol", { class: "history" }, shown.map((e) => h("li", null,
        h("span", { class: "quiet" }, `${moment(e.at)}${e.by ? `, ${e.by}` : ""} `), h("br"), `${KINDS[e.kind] ?? ""}`, of ? null : h("b", null, `${entry_name(job, e)} `), entry_words(job, e)))),
      of && job.features.has(of) ? h("p", { class: "acts" }, go("Change the answer", `#/job/${job.id}/card/${of}?by=review`, { id: "edit", class: "small-act" })) : null,
    ],
  };
}
