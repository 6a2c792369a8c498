// Pictures of a feature: kept on this device until the server has them, then shown from the book.

import { h, put, say } from "./dom.js";
import { pictures, me } from "./keep.js";
import { tap_name } from "./api.js";

export const pictures_seen = (job, feature) => job.of_kind("photo").filter((e) => e.fields?.feature === feature).map((e) => e.name);

const shown = (source, words) => h("li", null, h("a", { href: source, target: "_blank", rel: "noopener" }, h("img", { src: source, alt: words, loading: "lazy" })), h("span", { class: "quiet" }, words));

async function waiting_here(job, feature) {
  try {
    return (await pictures.all()).filter((p) => p.uid === job.about.uid && p.feature === feature);
  } catch {
    return [];
  }
}

export function picture_box(job, feature) {
  const list = h("ul", { class: "pictures" });
  const told = h("p", { class: "quiet", id: "picture-words" });
  const redraw = async () => {
    const kept = job.of_kind("photo").filter((e) => e.fields?.feature === feature.id);
    const waits = await waiting_here(job, feature.id);
    put(list, ...kept.map((e) => shown(`/photo/${encodeURIComponent(e.name)}`, e.fields.file ?? "picture")),
      ...waits.map((p) => shown(URL.createObjectURL(p.blob), `${p.name} (kept on this device, not yet sent)`)));
  };
  const take = async (file) => {
    const item = { tap: tap_name(), job: job.id, uid: job.about.uid, feature: feature.id, name: file.name, blob: file, by: me.get() };
    try {
      await pictures.add(item);
      told.textContent = "";
    } catch {
      told.textContent = "This device has no room to keep the picture; free some and take it again.";
      return;
    }
    say("Picture kept");
    await redraw();
    job.send();
  };
  const input = h("input", { type: "file", id: "picture", accept: "image/*", capture: "environment", class: "heard" });
  input.addEventListener("change", async () => {
    for (const file of input.files) await take(file);
    input.value = "";
  });
  redraw();
  return h("div", { class: "picture-box" }, input, h("label", { for: "picture", class: "answer other camera" }, h("span", { class: "name" }, "Take a picture")), told, list);
}
