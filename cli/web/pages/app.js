// The way from an address (#/job/12/card/grille) to a page, and what makes it follow the job as it changes.

import { h, put, typing, go, button } from "./dom.js";
import { sentence } from "./words.js";
import { page_before_joining } from "./api.js";
import { flush_all } from "./sender.js";
import { Job } from "./job.js";
import { show_plate, show_tabs, show_strip, show_index, show_plain_head } from "./frame.js";
import { page_jobs, page_invite } from "./page_jobs.js";
import { page_new } from "./page_new.js";
import { page_walk } from "./page_walk.js";
import { page_card } from "./page_card.js";
import { page_next } from "./page_next.js";
import { page_find } from "./page_find.js";
import { page_review } from "./page_review.js";
import { page_why, page_history } from "./page_why.js";
import { page_number, page_papers } from "./page_papers.js";

const POLL = 3000;
const PLAIN = { jobs: page_jobs, new: page_new, invite: page_invite };
const OF_JOB = { walk: page_walk, card: page_card, next: page_next, find: page_find, review: page_review, why: page_why, history: page_history, number: page_number, papers: page_papers };

const main = document.getElementById("main");
let job = null;
let shown = null;   // {page, here, params, mark}
let turn = 0;

function parse(hash) {
  const [path, query] = hash.replace(/^#\/?/, "").split("?");
  return { parts: path.split("/").filter(Boolean).map(decodeURIComponent), query: new URLSearchParams(query ?? "") };
}

async function job_of(id) {
  if (job?.id === Number(id) && job.pack) return job;
  const next = await new Job(id).load();
  job = next;
  next.addEventListener("change", () => { if (job === next) follow(); });
  next.send();
  return next;
}

/** Shows the page of the address; an older one that comes late is dropped. */
async function route() {
  const mine = ++turn;
  const { parts, query } = parse(location.hash);
  main.setAttribute("aria-busy", "true");
  try {
    const page = parts[0] === "job" ? await open_job(parts, query) : await (PLAIN[parts[0] ?? "jobs"] ?? page_jobs)();
    if (mine !== turn) return;
    if (page.replace) return location.replace(page.replace);
    show(page, parts);
  } catch (e) {
    if (mine === turn) show(failed_page(e), parts);
  } finally {
    if (mine === turn) main.removeAttribute("aria-busy");
  }
}

async function open_job([, id, here = "walk", ...params], query) {
  const its = await job_of(id);
  const make = OF_JOB[here] ?? page_walk;
  return make(its, params, query);
}

function failed_page(error) {
  return {
    title: "This did not work",
    watch: () => "",
    draw: () => [h("h1", { tabindex: "-1" }, "This did not work"), h("p", { class: "wrong-words" }, `${sentence(error.message)}.`),
      h("p", { class: "acts" }, button("Try again", route, { id: "again", class: "main-act" }), go("All vehicles", "#/jobs", { id: "to-jobs", class: "small-act" }))],
  };
}

function show(page, parts) {
  const of_job = parts[0] === "job" && job?.pack;
  shown = { page, here: of_job ? parts[2] ?? "walk" : "", feature: parts[3], mark: page.watch() };
  page.again = () => put(main, ...[page.draw()].flat(Infinity).filter(Boolean));
  document.title = `${page.title} - exworks`;
  main.replaceChildren(...[page.draw()].flat(Infinity).filter(Boolean));
  if (of_job) frame();
  else show_plain_head();
  window.scrollTo(0, 0);
  // People who listen, or use keys, go on from the heading of the new page.
  main.querySelector("h1")?.focus({ preventScroll: true });
}

function frame() {
  show_plate(job);
  show_tabs(job, shown.here);
  show_strip(job);
  show_index(job, shown.feature);
}

/** The job changed, here or elsewhere: the frame always follows, the page when what it shows is another. */
function follow() {
  if (!shown?.here) return;
  frame();
  const mark = shown.page.watch();
  if (mark === shown.mark || typing(main)) return;
  shown.mark = mark;
  put(main, ...[shown.page.draw()].flat(Infinity).filter(Boolean));
}

async function poll() {
  if (!document.hidden && shown?.here && job?.pack) await job.poll();
  else if (!shown?.here) flush_all();
  setTimeout(poll, POLL);
}

addEventListener("hashchange", route);
addEventListener("online", () => job?.poll());
addEventListener("resize", () => { if (shown?.here) show_index(job, shown.feature); });
document.addEventListener("visibilitychange", () => { if (!document.hidden) job?.poll(); });
document.getElementById("skip").addEventListener("click", (e) => {
  e.preventDefault();
  main.focus();
});
const back = page_before_joining();
if (back && !location.hash) location.replace(back);
else route();
setTimeout(poll, POLL);
