// Find a feature by any word for it: its own, what another region calls it, or one of its values.

import { h, put } from "./dom.js";
import { folded, count } from "./words.js";
import { feature_row } from "./index_list.js";

let last = "";

/** Every word must begin a word of the feature; hits in the name come first. */
function hits(job, text) {
  const words = folded(text).split(/\s+/).filter(Boolean);
  if (words.length === 0) return [];
  const score = (f) => {
    const name = ` ${folded(f.name)}`;
    const all = ` ${folded([f.name, f.ask, f.search, ...f.values.map((v) => v.name)].join(" ")).replace(/[^\p{L}\p{N}]+/gu, " ")}`;
    if (!words.every((w) => all.includes(` ${w}`))) return 0;
    return 1 + words.filter((w) => name.includes(` ${w}`)).length;
  };
  return job.pack.features.map((f) => [score(f), f]).filter(([n]) => n > 0).sort((a, b) => b[0] - a[0]).map(([, f]) => f);
}

export function page_find(job) {
  return {
    title: "Find a feature",
    watch: () => String(job.change),
    draw: () => {
      const list = h("div", { id: "hits" });
      const told = h("p", { role: "status", class: "quiet" });
      const box = h("input", { id: "search", type: "search", value: last, autocomplete: "off", autocapitalize: "none", spellcheck: "false", class: "large" });
      const show = () => {
        last = box.value;
        const found = hits(job, last);
        told.textContent = last.trim() ? (found.length ? count(found.length, "feature") : "No feature of this pack is called so. Try a shorter word, or the walk round.") : "";
        put(list, h("ul", { class: "rows" }, found.slice(0, 40).map((f) => feature_row(job, f, "", "hit"))));
      };
      box.addEventListener("input", show);
      show();
      return [h("h1", { tabindex: "-1" }, "Find a feature"),
        h("div", { class: "field" }, h("label", { for: "search" }, "A part, by any name: wing, fender or mudguard; hood or bonnet"), box), told, list];
    },
  };
}
