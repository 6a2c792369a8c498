// Numbers read off the vehicle, what was claimed, the papers, and the job itself.

import { h, go, button, say } from "./dom.js";
import { post } from "./api.js";
import { HOW, SURE, sentence } from "./words.js";

const field = (id, label, input, help) => h("div", { class: "field" }, h("label", { for: id }, label), input, help ? h("p", { class: "quiet" }, help) : null);
const text_box = (id, value, more) => h("input", { id, type: "text", autocomplete: "off", value: value ?? "", maxlength: 300, ...more });
const list_box = (id, options, now) => h("select", { id }, options.map(([value, words]) => h("option", { value, selected: value === (now ?? "") }, words)));

const NUMBER_STATE = [["as-found", "As the works left it, as far as I can see"], ["restamped", "Stamped again"], ["replaced-plate", "On a plate that was replaced"], ["copied", "Copied from elsewhere"]];

/// Reads the number while one types; a slow answer to an older text is dropped.
function reader(job, id, box, told) {
  let waiting = 0, asked = 0;
  const show = (r) => told.replaceChildren(...[
    r.parts.length ? h("dl", { class: "facts" }, r.parts.map((p) => [h("dt", null, `${p.name} ${p.text || "(left out)"}`), h("dd", null, p.means)])) : null,
    r.words ? h("p", null, r.words) : null,
    r.wants ? h("p", { class: "quiet" }, `Next it wants ${r.wants}.`) : null,
    r.forgiven.length ? h("p", { class: "quiet" }, `Forgiven: ${r.forgiven.join("; ")}.`) : null,
    r.others.length ? h("p", { class: "quiet" }, `May also be read as: ${r.others.join("; or ")}.`) : null].filter(Boolean));
  const read = async () => {
    const text = box.value.trim(), mine = ++asked;
    if (!text) return told.replaceChildren();
    try {
      const answer = await post("/api/read", { family: job.pack.id, number: id, text });
      if (mine === asked) show(answer);
    } catch {
      told.replaceChildren();  // out of reach of the workshop: it is read when it is kept
    }
  };
  box.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(read, 250);
  });
}

export function page_number(job, [id]) {
  const number = job.pack.numbers.find((n) => n.id === id);
  if (!number) throw new Error(`the pack has no number '${id}'; go back to the walk round`);
  const found = () => (job.entry("number", id)?.waits ? null : job.now?.numbers?.[id]);
  return {
    title: number.name,
    watch: () => JSON.stringify([job.entry("number", id)?.fields, found()]),
    draw: () => {
      const stands = job.entry("number", id)?.fields;
      const box = text_box("number", stands?.text, { class: "large number", autocapitalize: "characters", spellcheck: "false", maxlength: 60, required: true });
      const how = list_box("number-how", HOW.filter(([v]) => ["read", "photo", "told"].includes(v)), stands?.how ?? "read");
      const sure = list_box("number-sure", SURE, stands?.sure ?? "sure");
      const state = list_box("number-state", NUMBER_STATE, stands?.state ?? "as-found");
      const told = h("div", { id: "number-read", role: "status" });
      reader(job, id, box, told);
      const keep = (e) => {
        e.preventDefault();
        const text = box.value.trim();
        if (!text) return box.focus();
        job.answer("number", id, { text, how: how.value, ...(sure.value === "sure" ? {} : { sure: sure.value }), ...(state.value === "as-found" ? {} : { state: state.value }) }, `${number.name} kept`);
        say(`${number.name} kept`);
        location.hash = `#/job/${job.id}/walk`;
      };
      return [h("p", { class: "where" }, go("Walk round", `#/job/${job.id}/walk`, { id: "to-walk" })),
        h("h1", { tabindex: "-1" }, number.name),
        number.where ? h("p", null, `Where: ${number.where}`) : null,
        h("form", { on: { submit: keep } },
          field("number", "As it stands on the vehicle", box, number.examples?.length ? `Looks like: ${number.examples.slice(0, 4).join(" or ")}. A sign that can’t be read: ?` : "A sign that can’t be read: ?"),
          told, field("number-how", "How do you know?", how), field("number-sure", "How sure?", sure), field("number-state", "How did it come to be there?", state),
          h("p", { class: "acts" }, h("button", { type: "submit", id: "keep-number", class: "main-act" }, "Keep the number"),
            stands ? button("Take it back", () => job.answer("number", id, null, `${number.name}: taken back`), { id: "take-back", class: "small-act" }) : null)),
        found()?.words ? h("p", { class: "summary" }, found().words) : null,
        h("p", { class: "quiet" }, "Write what is there, also what is hard to read; a number that doesn’t fit is “not consistent with”, no more. Ask the registering authority or the maker’s archive.")];
    },
  };
}

const ABOUT = [["name", "What to call the vehicle"], ["reference", "Your reference"], ["country", "Where it stands: two letters, such as GB or AU"], ["owner", "Owner"], ["purpose", "What for"], ["note", "Note"]];

function about_part(job) {
  return ABOUT.map(([name, label]) => {
    const now = job.entry("about", name)?.fields?.value ?? "";
    const box = text_box(`about-${name}`, now);
    box.addEventListener("change", () => {
      const typed = box.value.replace(/\s+/g, " ").trim();
      const text = name === "country" ? typed.toUpperCase() : typed;
      if (name === "country" && text && !/^[A-Z]{2}$/.test(text)) {
        say("A country has two letters, such as GB or AU; nothing was kept");
        return;
      }
      if (text !== now) job.answer("about", name, text ? { value: text } : null, `${label} kept`);
    });
    return field(`about-${name}`, label, box);
  });
}

function standing_rows(job, kind, words) {
  const rows = job.of_kind(kind);
  return rows.length ? h("ul", { class: "findings" }, rows.map((e) => h("li", { class: "finding" }, h("p", null, words(e.fields)),
    h("p", { class: "acts" }, button("Take it back", () => job.answer(kind, e.name, null, "Taken back"), { id: `drop-${e.name}`, class: "small-act" }))))) : null;
}

const name_of = (list, id) => list.find((x) => x.id === id)?.name ?? id;

function claim_part(job) {
  const { variants, markets } = job.pack;
  const by = text_box("claim-by", "seller");
  const variant = list_box("claim-variant", [["", "Not said"], ...variants.map((v) => [v.id, v.name])]);
  const market = list_box("claim-market", [["", "Not said"], ...markets.map((m) => [m.id, m.name])]);
  const built = text_box("claim-built", "", { inputmode: "text", placeholder: "1954 or 1954-06" });
  const keep = (e) => {
    e.preventDefault();
    const fields = Object.fromEntries(Object.entries({ by: by.value.trim(), variant: variant.value, market: market.value, built: built.value.trim() }).filter(([, x]) => x));
    if (!fields.variant && !fields.market && !fields.built) return variant.focus();
    job.answer("claimed", "", fields, "Claim kept");
  };
  return [h("h2", null, "What somebody says it is"),
    standing_rows(job, "claimed", (f) => [f.by ? `${sentence(f.by)}: ` : "", [f.variant && name_of(variants, f.variant), f.market && name_of(markets, f.market), f.built && `built ${f.built}`].filter(Boolean).join(", ")].join("")),
    h("details", null, h("summary", { id: "add-claim" }, "Write down a claim"), h("form", { on: { submit: keep } }, field("claim-by", "Who says so", by), field("claim-variant", "Which one", variant),
      field("claim-built", "Built", built, "A year, or a year and month; 1954~ for about 1954."), field("claim-market", "Sold new in", market), h("p", null, h("button", { type: "submit", id: "keep-claim", class: "main-act" }, "Keep the claim"))))];
}

const DOCUMENTS = [["registration", "Registration"], ["build-record", "Build record of the maker’s archive"], ["works-record", "Record of a dealer, importer or assembler"], ["plate", "A plate on the vehicle"], ["handbook", "Handbook"], ["invoice", "Invoice"], ["test-certificate", "Test certificate"], ["photograph", "Dated photograph"], ["import-paper", "Import paper"], ["letter", "Letter"], ["owner", "The owner’s own record"]];

function document_part(job) {
  const kind = list_box("document-kind", DOCUMENTS, "registration");
  const date = text_box("document-date", "", { required: true, placeholder: "1954-06" });
  const note = text_box("document-note", "");
  const keep = (e) => {
    e.preventDefault();
    if (!date.value.trim()) return date.focus();
    const says = ["build-record", "works-record"].includes(kind.value) ? { built: date.value.trim() } : { date: date.value.trim() };
    job.answer("document", "", { kind: kind.value, ...says, ...(note.value.trim() ? { note: note.value.trim() } : {}) }, "Document kept");
  };
  return [h("h2", null, "Papers"),
    standing_rows(job, "document", (f) => `${name_of(DOCUMENTS.map(([id, name]) => ({ id, name })), f.kind)}, ${[f.date, f.built && `built ${f.built}`, f.note].filter(Boolean).join(", ")}`),
    h("details", null, h("summary", { id: "add-document" }, "Write down a paper"), h("form", { on: { submit: keep } }, field("document-kind", "What it is", kind), field("document-date", "The date that it gives", date, "A year, or a year and month."),
      field("document-note", "Note", note), h("p", null, h("button", { type: "submit", id: "keep-document", class: "main-act" }, "Keep the paper"))))];
}

export function page_papers(job) {
  return {
    title: "Papers, claims and the job",
    watch: () => JSON.stringify(["about", "claimed", "document"].map((kind) => job.of_kind(kind).map((e) => [e.name, e.fields]))),
    draw: () => [h("p", { class: "where" }, go("Walk round", `#/job/${job.id}/walk`, { id: "to-walk" })),
      h("h1", { tabindex: "-1" }, "Papers, claims and the job"),
      claim_part(job), document_part(job), h("h2", null, "The job"), about_part(job),
      h("p", { class: "quiet" }, "Names and references stay in the job book on the workshop’s computer; a report can leave them out.")],
  };
}
