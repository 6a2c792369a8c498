// The review: how it stands, place by place; what is open; the reports.

import { h, go, button, put } from "./dom.js";
import { get } from "./api.js";
import { answer, count, percent, sentence, span, verdict } from "./words.js";
import { waiting } from "./keep.js";

const WORDS = [["original", "original", "original"], ["later", "later change", "later changes"], ["uncertain", "uncertain", "uncertain"]];
const agree = { yes: ["✓", "agrees"], no: ["≠", "not consistent with the rest"], "cannot-tell": ["?", "can’t tell"] };

export const verdict_mark = (word, p) => {
  const v = verdict(word);
  return v ? h("span", { class: `verdict ${v.kind}` }, h("span", { "aria-hidden": "true" }, `${v.sign} `), v.word, p === undefined ? "" : ` ${percent(p)}`) : null;
};

function finding(job, f) {
  return h("li", { class: "finding" },
    h("p", null, h("b", null, `${f.name}: `), f.observed_name, " ", verdict_mark(f.verdict, f.p_type)),
    f.reason ? h("p", { class: "quiet" }, f.reason) : null,
    h("p", { class: "acts" },
      go("Why?", `#/job/${job.id}/why/${f.id}`, { id: `why-${f.id}`, class: "small-act", "aria-label": `Why? ${f.name}` }),
      go("Change the answer", `#/job/${job.id}/card/${f.id}?by=review`, { id: `edit-${f.id}`, class: "small-act", "aria-label": `Change the answer: ${f.name}` }),
      go("History", `#/job/${job.id}/history?of=${f.id}`, { id: `history-${f.id}`, class: "small-act", "aria-label": `History: ${f.name}` })));
}

const counts_words = (c) => WORDS.filter(([id]) => c[id]).map(([id, one, many]) => count(c[id], one, many)).join(", ") || "nothing looked at";

function place_part(job, place) {
  const later_first = [...place.features].sort((a, b) => (verdict(b.verdict)?.kind === "later") - (verdict(a.verdict)?.kind === "later"));
  return h("section", null, h("h2", null, place.name), h("p", { class: "quiet" }, counts_words(place)), h("ul", { class: "findings" }, later_first.map((f) => finding(job, f))));
}

function lead_part(job, told) {
  const odds = told.odds ?? job.now?.odds;
  const score = told.score ?? job.now?.score;
  return h("dl", { class: "facts" },
    odds?.variant ? [h("dt", null, "Most likely"), h("dd", null, `${odds.variant.name}, ${percent(odds.variant.p)}`)] : null,
    odds?.build_date ? [h("dt", null, "Built"), h("dd", null, `${span(odds.build_date.from, odds.build_date.to)}, most likely ${span(odds.build_date.most_likely, odds.build_date.most_likely)}`)] : null,
    odds?.market ? [h("dt", null, "Sold new"), h("dd", null, `${odds.market.name}, ${percent(odds.market.p)}`)] : null,
    score ? [h("dt", null, "As built"), h("dd", null, score.value !== null ? `${percent(score.value)} of what was looked at, by weight (${percent(score.low)} to ${percent(score.high)}); ${percent(score.coverage)} of the vehicle was looked at` : "nothing looked at that counts")] : null,
    told.fit?.note ? [h("dt", null, "Fit"), h("dd", null, told.fit.note)] : null);
}

function number_part(job, n) {
  const [sign, word] = agree[n.agrees] ?? ["", n.agrees];
  return h("li", { class: "finding" }, h("p", null, h("b", null, `${n.name} `), h("span", { class: "number" }, n.text), " ", h("span", { class: "verdict" }, `${sign} ${word}`)), n.words ? h("p", { class: "quiet" }, n.words) : null,
    (n.parts ?? []).length ? h("dl", { class: "facts" }, n.parts.map((p) => [h("dt", null, `${p.name} ${p.text}`), h("dd", null, p.means)])) : null,
    h("p", { class: "acts" }, go("Change", `#/job/${job.id}/number/${n.id}`, { id: `edit-number-${n.id}`, class: "small-act", "aria-label": `Change: ${n.name}` })));
}

/** What the server would not have: shown with its reason until somebody drops it. */
function refused_part(job) {
  return lines("Not taken", waiting.refused(job.about.uid), (item) => h("li", { class: "finding" },
    h("p", null, h("b", null, `${job.features.get(item.name)?.name ?? item.name}: `), item.kind === "observed" ? answer(job.features.get(item.name), item.fields) : Object.values(item.fields ?? {}).join(", ")),
    h("p", { class: "quiet" }, `${sentence(item.refused)}.`),
    h("p", { class: "acts" }, button("Drop it", () => { waiting.drop(item.tap); job.changed(); }, { id: `drop-${item.tap}`, class: "small-act" }))));
}

const lines = (title, items, row) => (items?.length ? h("section", null, h("h2", null, title), h("ul", { class: "findings" }, items.map(row))) : null);
const with_odds = (words, p) => `${words} (${percent(p)})`;
const looked_words = (f) => [f.name, f.note].filter(Boolean).join(": ");

function reports(job) {
  const kinds = [["pre-purchase", "For a buyer"], ["intake", "For the workshop"], ["owner", "For the owner"]];
  return h("section", { id: "reports" }, h("h2", null, "Reports"), kinds.map(([kind, words]) => h("p", { class: "acts report-row" }, h("b", null, words),
    [["html", "Read"], ["pdf", "PDF"], ["txt", "Text"]].map(([format, name]) => h("a", { id: `report-${kind}-${format}`, class: "small-act", href: `/report/${job.id}?kind=${kind}&format=${format}`, target: "_blank", rel: "noopener", "aria-label": `${words}: ${name}` }, name)))));
}

export async function page_review(job) {
  let told = null;
  let failed = "";
  const fetch_it = async () => {
    try {
      told = await get(`/api/jobs/${job.id}/review`);
      failed = "";
    } catch (e) {
      failed = e.message;
    }
  };
  await fetch_it();
  let asked_at = job.change;
  return {
    title: "Review",
    watch: () => `${job.change} ${waiting.refused(job.about.uid).length}`,
    draw: () => {
      const box = h("div", null, body(job, told, failed));
      if (asked_at !== job.change) {
        asked_at = job.change;
        fetch_it().then(() => put(box, body(job, told, failed)));
      }
      return box;
    },
  };
}

function body(job, told, failed) {
  const head = [h("p", { class: "kind" }, job.about.name || job.pack.name), h("h1", { tabindex: "-1" }, "Review")];
  if (!told) return [head, h("p", { class: "wrong-words" }, sentence(failed)), reports(job)];
  return [head,
    failed ? h("p", { class: "wrong-words" }, sentence(failed)) : null,
    refused_part(job),
    told.summary ? h("p", { class: "summary" }, told.summary) : null,
    lead_part(job, told), reports(job),
    told.places.filter((p) => p.features.length).map((p) => place_part(job, p)),
    lines("Numbers", told.numbers, (n) => number_part(job, n)),
    lines("Two ways to read it", told.readings, (r) => h("li", { class: "finding" }, h("p", null, with_odds(r.words, r.odds)))),
    lines("Papers", told.documents, (d) => h("li", { class: "finding" }, h("p", null, with_odds(d.document, d.p_right)))),
    lines("What was claimed", told.claims, (c) => h("li", { class: "finding" }, h("p", null, with_odds(c.by ? `${c.by}: ${c.claim}` : c.claim, c.p)))),
    lines("Missing", told.missing, (f) => h("li", { class: "finding" }, h("p", null, looked_words(f)))),
    lines("Looked at, could not tell", told.cannot_tell, (f) => h("li", { class: "finding" }, h("p", null, looked_words(f)))),
    lines("Still open, best first", told.open, (c) => h("li", { class: "finding" }, h("p", null, go(c.name, `#/job/${job.id}/card/${c.feature}?by=next`, { id: `open-${c.feature}` }), c.reason ? `: ${c.reason}` : ""))),
    lines("Remarks", told.remarks, (r) => h("li", { class: "finding" }, h("p", null, r))),
    lines("Cautions", told.cautions, (c) => h("li", { class: "finding" }, h("p", null, [h("b", null, `${c.name}. `), c.text]))),
    h("p", { class: "quiet" }, "The figure is the probability that the part is now of the type fitted when new. Whether it is the very part is a second question."),
    h("p", { class: "acts" }, go("Everything that was answered, and when", `#/job/${job.id}/history`, { id: "all-history", class: "small-act" }))];
}
