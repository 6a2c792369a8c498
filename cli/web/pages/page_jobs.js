// The first page: go on with a job, or begin one; and let another device join.

import { h, go, button, put } from "./dom.js";
import { get, post } from "./api.js";
import { count, moment, sentence } from "./words.js";
import { forget_device, me, waiting } from "./keep.js";

function job_row(job) {
  const left = waiting.open(job.uid).length;
  return h("li", null, go([h("span", { class: "name" }, job.name || job.reference || job.family_name,
    h("span", { class: "quiet" }, [job.family_name, job.name ? job.reference : "", moment(job.updated), left && job.uid ? `${left} not yet sent` : ""].filter(Boolean).join(", "))),
  h("span", { class: "word", "aria-hidden": "true" }, "→")], `#/job/${job.id}/walk`, { id: `job-${job.id}`, class: "row" }));
}

function me_field() {
  const box = h("input", { id: "me", type: "text", autocomplete: "off", maxlength: 20, value: me.get() });
  box.addEventListener("change", () => me.set(box.value.trim()));
  return h("div", { class: "field" }, h("label", { for: "me" }, "Your initials (they stand beside your answers)"), box);
}

export async function page_jobs() {
  let jobs = [];
  let failed = "";
  const list = h("div", null);
  const fetch_it = async (q) => {
    try {
      jobs = (await get(`/api/jobs?q=${encodeURIComponent(q)}`)).jobs;
      failed = "";
    } catch (e) {
      failed = e.message;
    }
    const none = q ? "No job fits these words." : "No vehicle yet. Begin one above.";
    put(list, failed ? h("p", { class: "wrong-words" }, sentence(failed)) : null, jobs.length ? h("ul", { class: "rows" }, jobs.map(job_row)) : failed ? null : h("p", { class: "none" }, none));
  };
  await fetch_it("");
  const search = h("input", { id: "job-search", type: "search", autocomplete: "off" });
  search.addEventListener("input", () => fetch_it(search.value));
  const many = jobs.length > 5;
  return {
    title: "Which vehicle?",
    watch: () => "",
    draw: () => [
      h("h1", { tabindex: "-1" }, "Which vehicle?"),
      h("p", null, go("Begin a new one", "#/new", { id: "begin", class: "main-act wide" })),
      jobs.length ? h("h2", null, "Go on with") : null,
      many ? h("div", { class: "field" }, h("label", { for: "job-search" }, `Find one of ${count(jobs.length, "job")}`), search) : null,
      list,
      h("h2", null, "This device"),
      me_field(),
      h("p", { class: "acts" }, go("Let another phone join", "#/invite", { id: "invite", class: "small-act" }),
        button("Forget what this device keeps", (e) => {
          forget_device();
          e.currentTarget.textContent = "Forgotten; answers that wait are still kept";
        }, { id: "forget", class: "small-act" })),
    ],
  };
}

/** A code for one more device, as words and as a square to photograph. */
export async function page_invite() {
  const told = await post("/api/invite", {});
  const square = told.qr ? h("img", { class: "qr", alt: `A square code that leads to ${told.url}`, src: `data:image/svg+xml;charset=utf-8,${encodeURIComponent(told.qr)}` }) : null;
  return {
    title: "Let another phone join",
    watch: () => "",
    draw: () => [h("p", { class: "where" }, go("Vehicles", "#/jobs", { id: "to-jobs" })),
      h("h1", { tabindex: "-1" }, "Let another phone join"),
      h("p", null, "Point its camera at the square, or open the address and type the code. It admits one device, once. The phone must be on the same network."),
      square, h("dl", { class: "facts" }, h("dt", null, "Address"), h("dd", null, told.url), h("dt", null, "Code"), h("dd", { class: "number" }, told.code))],
  };
}
