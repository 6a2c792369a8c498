// What to look at next: the few looks that tell most for a minute, each with its reason.

import { h, go, button, put } from "./dom.js";
import { get } from "./api.js";
import { minutes, percent, span, sentence } from "./words.js";

const AIMS = [["both", "Both"], ["build", "Which build"], ["verdicts", "What is original"]];
const TIMES = [["", "No limit"], ["10", "10 minutes"], ["20", "20 minutes"], ["40", "40 minutes"]];
const reasons = new Map();
const wish = { aim: "both", time: "" };

export const reason_of = (job, feature) => reasons.get(`${job.id}/${feature}`) ?? "";

async function ask(job) {
  const query = new URLSearchParams({ for: wish.aim, most: "5", ...(wish.time ? { minutes: wish.time } : {}) });
  const told = await get(`/api/jobs/${job.id}/next?${query}`);
  for (const check of told.checks) reasons.set(`${job.id}/${check.feature}`, check.reason);
  // What was just answered here and not yet sent needs no second look.
  return { ...told, checks: told.checks.filter((c) => !job.answered(c.feature)) };
}

/** "then" is a sentence, or what the build would be. */
const then_words = (then) => (typeof then === "string" ? then : then ? `${then.variant ?? ""} ${percent(then.variant_p)} ${span(then.from, then.to)}` : "");

function outcome_rows(check) {
  return h("ul", { class: "outcomes" }, (check.outcomes ?? []).slice(0, 3).map((o) =>
    h("li", null, h("span", { class: "share" }, percent(o.p)), h("span", null, h("b", null, sentence(o.name ?? o.value)), o.then ? `: ${then_words(o.then)}` : ""))));
}

function check_row(job, check, rank) {
  return h("li", { class: "check" },
    go([h("span", { class: "rank", "aria-hidden": "true" }, rank),
      h("span", { class: "name" }, check.name, h("span", { class: "quiet" }, [check.place_name, minutes(check.minutes)].filter(Boolean).join(", "))),
      h("span", { class: "word", "aria-hidden": "true" }, "→")], `#/job/${job.id}/card/${check.feature}?by=next`, { id: `check-${check.feature}`, class: "row" }),
    h("p", null, check.reason),
    check.outcomes?.length ? h("details", null, h("summary", { id: `told-${check.feature}` }, "What it could tell"), outcome_rows(check)) : null);
}

const chips = (label, options, now, choose, name) => h("div", { class: "chips", role: "group", "aria-label": label }, h("span", { class: "quiet", "aria-hidden": "true" }, label),
  options.map(([id, words]) => button(words, () => choose(id), { id: `${name}-${id || "none"}`, class: "chip", "aria-pressed": String(now === id) })));

export async function page_next(job, _, query) {
  let told;
  let failed = "";
  const fetch_it = async () => {
    try {
      told = await ask(job);
      failed = "";
    } catch (e) {
      failed = e.message;
    }
  };
  await fetch_it();
  // In the row of best looks the next card follows the tap at once.
  if (query.get("then") === "card" && told?.checks.length) return { replace: `#/job/${job.id}/card/${told.checks[0].feature}?by=next` };
  let asked_at = job.change;
  const page = {
    title: "What to look at next",
    watch: () => String(job.change),
    draw: () => {
      const box = h("div", null, body(job, told, failed, choose));
      if (asked_at !== job.change) {
        asked_at = job.change;
        fetch_it().then(() => put(box, body(job, told, failed, choose)));
      }
      return box;
    },
  };
  const choose = async (name, id) => {
    wish[name] = id;
    await fetch_it();
    page.again?.();
  };
  return page;
}

function body(job, told, failed, choose) {
  const checks = told?.checks ?? [];
  return h("div", null,
    h("h1", { tabindex: "-1" }, "What to look at next"),
    failed ? h("p", { class: "wrong-words" }, sentence(failed), ". The walk round works without a connection.") : null,
    told?.note ? h("p", null, told.note) : null,
    !failed && checks.length === 0 ? h("p", { class: "none" }, "Nothing that is left would tell much more. The review says how it stands.") : null,
    h("ol", { class: "checks" }, checks.map((c, i) => check_row(job, c, i + 1))),
    h("h2", null, "Choose by another aim"),
    chips("To settle", AIMS, wish.aim, (id) => choose("aim", id), "aim"),
    chips("Time", TIMES, wish.time, (id) => choose("time", id), "time"),
    h("h2", null, "Or skip to a place"),
    h("ul", { class: "chips places" }, job.places.map((p) => {
      const open = job.at(p.id).find((f) => !job.answered(f.id));
      return h("li", null, go(p.name, open ? `#/job/${job.id}/card/${open.id}` : `#/job/${job.id}/walk/${p.id}`, { id: `skip-${p.id}`, class: "chip" }));
    })));
}
