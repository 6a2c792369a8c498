// Begin: find the family by a few questions that two or three photos answer, by a number, or by its name.

import { h, go, button, put, say } from "./dom.js";
import { get, post, tap_name } from "./api.js";
import { brief, percent, sentence } from "./words.js";
import { me } from "./keep.js";
import { Job } from "./job.js";

function today() {
  const d = new Date();
  return `${d.getFullYear()}-${String(d.getMonth() + 1).padStart(2, "0")}-${String(d.getDate()).padStart(2, "0")}`;
}

export async function page_new() {
  const { families, questions } = await get("/api/families");
  const state = { families, questions: questions ?? [], answers: {}, order: [], number: "", ranked: null, chosen: null, failed: "", tap: tap_name() };
  const box = h("div", null);
  const redraw = () => put(box, ...draw(state, acts).flat(Infinity).filter(Boolean));
  const guess = async () => {
    try {
      const told = await post("/api/guess", { answers: state.answers, number: state.number });
      state.ranked = told.families;
      state.none = told.none ?? 0;
      state.failed = "";
      if (state.ranked[0]) say(`Most likely ${state.ranked[0].name}`);
    } catch (e) {
      state.failed = e.message;
    }
    redraw();
  };
  const acts = {
    async answer(question, id) {
      if (id) state.answers[question] = id;
      state.order.push(question);
      await guess();
      document.getElementById("question")?.focus();
    },
    async back() {
      delete state.answers[state.order.pop()];
      await guess();
      document.getElementById("question")?.focus();
    },
    async number(text) {
      state.number = text;
      await guess();
    },
    choose(family) {
      state.chosen = family;
      redraw();
      document.querySelector("#main h1")?.focus();
    },
    unchoose() {
      state.chosen = null;
      redraw();
      document.querySelector("#main h1")?.focus();
    },
    start: (fields) => start(state, fields, redraw),
  };
  return { title: "Which family is it?", watch: () => "", draw: () => { redraw(); return box; } };
}

async function start(state, fields, redraw) {
  try {
    const { job } = await post("/api/jobs", { tap: state.tap, family: state.chosen.id, fields: { ...fields, date: today() } });
    // A number typed to find the family is the first answer: it isn't asked for again.
    if (state.number) {
      const made = await new Job(job).load();
      const identity = made.pack.numbers.find((n) => n.identity);
      if (identity) made.answer("number", identity.id, { text: state.number, how: "read" }, `${identity.name} kept`);
    }
    location.hash = `#/job/${job}/walk`;
  } catch (e) {
    state.failed = e.message;
    redraw();
  }
}

function draw(state, acts) {
  if (state.chosen) return start_part(state, acts);
  return [
    h("p", { class: "where" }, go("Vehicles", "#/jobs", { id: "to-jobs" })),
    h("h1", { tabindex: "-1" }, "Which family is it?"),
    state.failed ? h("p", { class: "wrong-words", role: "alert" }, sentence(state.failed)) : null,
    question_part(state, acts), ranked_part(state, acts), number_part(state, acts), list_part(state, acts),
  ];
}

function question_part(state, acts) {
  const question = state.questions.find((q) => !state.order.includes(q.id));
  const back = state.order.length ? button("Back to the question before", () => acts.back(), { id: "question-back", class: "small-act" }) : null;
  if (!question) return back ? h("p", { class: "acts" }, back) : null;
  return h("section", { class: "question" },
    h("h2", { id: "question", tabindex: "-1" }, question.ask),
    h("div", { class: brief(question.answers) ? "answers brief" : "answers", role: "group", "aria-labelledby": "question" }, question.answers.map((a) =>
      h("button", { type: "button", id: `answer-${a.id}`, class: "answer", on: { click: () => acts.answer(question.id, a.id) } }, h("span", { class: "name" }, sentence(a.name))))),
    h("p", { class: "acts" }, button("Can’t tell", () => acts.answer(question.id, ""), { id: "answer-skip", class: "small-act" }), back));
}

function family_row(family, acts, prefix, more) {
  return h("li", null, h("button", { type: "button", id: `${prefix}-${family.id}`, class: "row", on: { click: () => acts.choose(family) } },
    h("span", { class: "name" }, family.name, more ? h("span", { class: "quiet" }, more) : null),
    family.p === undefined ? h("span", { class: "word", "aria-hidden": "true" }, "→") : h("span", { class: "share" }, percent(family.p))));
}

function ranked_part(state, acts) {
  if (!state.ranked) return null;
  const why = (f) => (Array.isArray(f.why) ? f.why.join("; ") : f.why);
  const shown = state.ranked.filter((f) => (f.p ?? 0) >= 0.01).slice(0, 4);
  return h("section", null, h("h2", null, "So far it is most like"),
    shown.length ? h("ol", { class: "rows" }, shown.map((f) => family_row(f, acts, "guess", why(f)))) : h("p", { class: "none" }, "None of the packs looks like this vehicle. That is an answer too."),
    shown.length && state.none >= 0.01 ? h("p", { class: "quiet" }, `None of these: ${percent(state.none)}.`) : null);
}

function number_part(state, acts) {
  const box = h("input", { id: "guess-number", type: "text", class: "large number", autocomplete: "off", autocapitalize: "characters", spellcheck: "false", maxlength: 60, value: state.number });
  return h("form", { class: "ask", on: { submit: (e) => { e.preventDefault(); acts.number(box.value.trim()); } } },
    h("h2", null, state.questions.length ? "Or type a number" : "Type a number"),
    h("div", { class: "field" }, h("label", { for: "guess-number" }, "Chassis, car or frame number"), h("div", { class: "side" }, box, h("button", { type: "submit", id: "try-number", class: "small-act" }, "Try it"))));
}

function list_part(state, acts) {
  return h("section", null, h("h2", null, "Or choose it by name"),
    h("ul", { class: "rows" }, state.families.map((f) => family_row({ id: f.id, name: f.name }, acts, "family", f.status === "invented" ? "an invented van, for practice" : ""))));
}

function start_part(state, acts) {
  const name = h("input", { id: "job-name", type: "text", autocomplete: "off", maxlength: 100 });
  const reference = h("input", { id: "job-reference", type: "text", autocomplete: "off", maxlength: 100 });
  const by = h("input", { id: "job-by", type: "text", autocomplete: "off", maxlength: 20, value: me.get() });
  const submit = (e) => {
    e.preventDefault();
    me.set(by.value.trim());
    const fields = { name: name.value.trim(), reference: reference.value.trim(), by: by.value.trim() };
    acts.start(Object.fromEntries(Object.entries(fields).filter(([, x]) => x)));
  };
  const field = (label, input) => h("div", { class: "field" }, h("label", { for: input.id }, label), input);
  return [h("p", { class: "kind" }, "A new inspection"),
    h("h1", { tabindex: "-1" }, state.chosen.name),
    state.failed ? h("p", { class: "wrong-words", role: "alert" }, sentence(state.failed)) : null,
    h("form", { on: { submit } },
      h("p", null, h("button", { type: "submit", id: "start", class: "main-act wide" }, "Start the walk round")),
      h("p", { class: "quiet" }, "All of this can wait:"),
      field("What to call the vehicle", name), field("Your reference", reference), field("Your initials", by)),
    h("p", { class: "acts" }, button("Another family", () => acts.unchoose(), { id: "unchoose", class: "small-act" }))];
}
