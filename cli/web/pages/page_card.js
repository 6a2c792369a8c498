// One feature, one large card: the question, how to recognise each value, and one tap that keeps the answer and goes on.

import { h, go, button, say } from "./dom.js";
import { answer, brief, minutes, moment, SURE, STATES, question_of, sentence, years_of } from "./words.js";
import { drafts } from "./keep.js";
import { drawing } from "./drawings.js";
import { measure_box, more_box, note_box } from "./card_more.js";
import { picture_box, pictures_seen } from "./card_pictures.js";
import { reason_of } from "./page_next.js";

const HOW_BY_METHOD = { measure: "measured", read: "read" };

const caution_box = (caution) => h("div", { class: "caution", role: "note" },
  h("p", null, h("span", { class: "warn-sign", "aria-hidden": "true" }, "!"), h("b", null, `Caution: ${caution.name}. `), caution.text));

export const cautions_box = (cautions) => (cautions.length ? [cautions.map(caution_box), h("p", { class: "quiet" }, "Local codes and licensed practice come first.")] : null);

function cautions_of(job, feature) {
  const ids = String(feature.caution ?? "").split(" ").filter(Boolean);
  return job.pack.cautions.filter((c) => ids.includes(c.id));
}

/** What goes with the answer: from the answer that stands, else from what was typed and not yet sent. */
function extras(job, feature) {
  const stands = job.answered(feature.id)?.fields;
  // That it was measured is true of that measure alone.
  const kept = stands?.measure ? { ...stands, how: "" } : stands ?? {};
  return { ...kept, ...drafts.get(job.about.uid, feature.id) };
}

function fields_of(job, feature, what) {
  const extra = extras(job, feature);
  const out = { ...what };
  for (const name of ["sure", "how", "note", "wear", "mark", "photo"]) if (extra[name]) out[name] = extra[name];
  if (out.sure === "sure") delete out.sure;
  if (!out.how && HOW_BY_METHOD[feature.method] && !out.state) out.how = HOW_BY_METHOD[feature.method];
  if (out.state) delete out.how;
  return out;
}

const core = ({ value, not, state, measure, unit }) => Object.fromEntries(Object.entries({ value, not, state, measure, unit }).filter(([, x]) => x));

export function page_card(job, [id], query) {
  const feature = job.features.get(id);
  if (!feature) throw new Error(`the pack has no '${id}'; go back to the walk round`);
  const place = job.pack.places.find((p) => p.id === feature.place);
  const by = query.get("by");

  const keep = (what) => {
    const fields = fields_of(job, feature, what);
    drafts.set(job.about.uid, id, {});
    job.answer("observed", id, fields, `${feature.name}: ${answer(feature, fields)}`);
    say(`${feature.name}: ${answer(feature, fields)}`);
  };
  const tap = (what) => {
    keep(what);
    onward(job, feature, by);
  };
  /** A change of what goes with the answer: with an answer it is kept at once, without one it waits for it. */
  const change = (name, text) => {
    const draft = { ...drafts.get(job.about.uid, id), [name]: text };
    drafts.set(job.about.uid, id, draft);
    const stands = job.answered(id)?.fields;
    if (stands && (stands[name] ?? "") !== text) keep(core({ ...stands }));
  };

  return {
    title: feature.ask || feature.name,
    watch: () => JSON.stringify([job.answered(id)?.fields, drafts.get(job.about.uid, id).sure, pictures_seen(job, id)]),
    draw: () => draw(job, feature, place, by, { tap, change }),
  };
}

/** After the tap: the next card of the place, or of the best looks, or back to where the answer was corrected. */
function onward(job, feature, by) {
  const base = `#/job/${job.id}`;
  if (by === "next") location.hash = `${base}/next?then=card`;
  else if (by === "review") location.hash = `${base}/review`;
  else {
    const next = job.next_open(feature);
    location.hash = next ? `${base}/card/${next.id}` : `${base}/walk/${feature.place}`;
  }
}

function draw(job, feature, place, by, acts) {
  const stands = job.answered(feature.id);
  const here = job.at(feature.place);
  const done = here.filter((f) => job.answered(f.id)).length;
  const [question, how] = question_of(feature.ask || feature.name);
  return h("article", { class: "card" },
    h("p", { class: "where" }, go(place?.name ?? feature.place, `#/job/${job.id}/walk/${feature.place}`, { id: "to-place" }), h("span", { class: "quiet" }, ` ${done} of ${here.length}`)),
    h("p", { class: "kind" }, feature.name),
    h("h1", { tabindex: "-1" }, question),
    how ? h("p", { class: "how-to-look" }, how) : null,
    h("p", { class: "quiet" }, [feature.tool ? `You need: ${feature.tool}. ` : "", feature.minutes >= 1 ? `About ${minutes(feature.minutes)}.` : ""]),
    by === "next" ? h("p", { class: "reason" }, reason_of(job, feature.id)) : null,
    cautions_box(cautions_of(job, feature)),
    sure_row(job, feature, acts),
    feature.unit ? measure_box(feature, stands?.fields, acts.tap) : null,
    answers_box(job, feature, stands?.fields, acts.tap),
    groups_box(feature, stands?.fields, acts.tap),
    state_row(job, feature, stands?.fields, by, acts.tap),
    picture_box(job, feature),
    note_box(extras(job, feature).note, (text) => acts.change("note", text)),
    more_box(extras(job, feature), acts.change),
    stands ? standing(job, feature, stands) : null);
}

function sure_row(job, feature, acts) {
  const now = extras(job, feature).sure ?? "sure";
  const row = h("div", { class: "sure", role: "group", "aria-label": "How sure are you?" }, SURE.map(([id, words]) =>
    button(words, () => {
      acts.change("sure", id);
      for (const other of row.children) other.setAttribute("aria-pressed", String(other.id === `sure-${id}`));
    }, { id: `sure-${id}`, "aria-pressed": String(now === id) })));
  return row;
}

/** For whoever sees that much and no more. */
function groups_box(feature, stands, tap) {
  if (!feature.groups?.length) return null;
  return h("details", { class: "only", open: feature.groups.some((g) => g.id === stands?.value) },
    h("summary", null, "I can only see that it is …"),
    h("div", { class: "answers", role: "group", "aria-label": "I can only see that it is" }, feature.groups.map((g) =>
      h("button", { type: "button", id: `group-${g.id}`, class: "answer", "aria-pressed": String(stands?.value === g.id), on: { click: () => tap({ value: g.id }) } },
        h("span", { class: "words" },
          h("span", { class: "name" }, tick(stands?.value === g.id), sentence(g.name)),
          h("span", { class: "how" }, `One of: ${g.of.join("; ")}.`))))));
}

const tick = (on) => h("span", { class: "tick", "aria-hidden": "true" }, on ? "✓" : "");

function answers_box(job, feature, stands, tap) {
  const years = years_of(feature.values);
  const others = feature.values.filter((v) => !years.includes(v));
  return [
    years.length ? h("div", { class: "answers years", role: "group", "aria-label": "Years" }, years.map(({ id, name }) => value_button(job, feature, { id, name }, stands, tap))) : null,
    others.length ? h("div", { class: brief(others) ? "answers brief" : "answers", role: "group", "aria-label": "Answers" }, others.map((v) => value_button(job, feature, v, stands, tap))) : null,
  ];
}

function value_button(job, feature, value, stands, tap) {
  const on = stands?.value === value.id;
  const picture = drawing(job.pack.id, feature.id, value.id);
  const twins = (value.looks_like ?? []).map((v) => v.name).join(", ");
  return h("button", { type: "button", id: `value-${value.id}`, class: `answer${picture ? " drawn" : ""}`, "aria-pressed": String(on), on: { click: () => tap({ value: value.id }) } },
    picture,
    h("span", { class: "words" },
      h("span", { class: "name" }, tick(on), sentence(value.name)),
      value.how ? h("span", { class: "how" }, value.how) : null,
      twins ? h("span", { class: "how twin" }, `Easily taken for: ${twins}.`) : null));
}

function state_row(job, feature, stands, by, tap) {
  const other = (words, what, on, id) => h("button", { type: "button", id, class: "answer other", "aria-pressed": String(on), on: { click: () => tap(what) } }, h("span", { class: "name" }, tick(on), words));
  return h("div", { class: "others", role: "group", "aria-label": "Other answers" },
    other("None of these", { value: "other" }, stands?.value === "other", "value-other"),
    other("Missing", { state: "missing" }, stands?.state === "missing", "state-missing"),
    other("Can’t tell", { state: "cannot-tell" }, stands?.state === "cannot-tell", "state-cannot-tell"),
    button("Skip for now", () => onward(job, feature, by), { id: "skip-card", class: "answer other plain" }));
}

/** The answer that stands, by whom and when, and the ways on from it. */
function standing(job, feature, entry) {
  const base = `#/job/${job.id}`;
  return h("section", { class: "standing" },
    h("h2", null, "Your answer"),
    h("p", null, h("b", null, answer(feature, entry.fields)), entry.fields.sure && entry.fields.sure !== "sure" ? `, ${entry.fields.sure === "guess" ? "a guess" : "probably"}` : "",
      h("span", { class: "quiet" }, ` ${[entry.by, moment(entry.at), entry.waits ? "kept on this device, not yet sent" : ""].filter(Boolean).join(", ")}`)),
    h("p", { class: "acts" },
      STATES[entry.fields.state] ? null : go("Why?", `${base}/why/${feature.id}`, { id: "why", class: "small-act" }),
      go("History", `${base}/history?of=${feature.id}`, { id: "history", class: "small-act" }),
      button("Take it back", () => job.answer("observed", feature.id, null, `${feature.name}: taken back`), { id: "take-back", class: "small-act" })));
}
