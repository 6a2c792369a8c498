// One job as this device knows it: what the server told, with the taps that still wait laid over it.

import { get, tap_name } from "./api.js";
import { jobs, packs, waiting, me } from "./keep.js";
import { flush, on_sent } from "./sender.js";

const key = (kind, name) => `${kind}/${name}`;

export class Job extends EventTarget {
  constructor(id) {
    super();
    this.id = Number(id);
    this.about = null;      // {id, uid, family, name, ...}
    this.pack = null;
    this.change = 0;
    this.entries = new Map();
    this.now = null;
    this.said = null;       // {text, more, name, kind, before}: what the last answer from this device changed
    this.connected = true;
    this.trouble = "";
    this.full = false;      // this device can keep no more
  }

  /** From the server; without connection from what was kept. */
  async load() {
    const kept = jobs.get(this.id);
    try {
      const told = await get(`/api/jobs/${this.id}?since=0`);
      this.take(told, true);
      this.pack = await this.load_pack(told.job.family);
      this.connected = true;
    } catch (e) {
      if (e.name === "Refused" || e.status || !kept) throw e;
      this.take(kept, true);
      this.pack = packs.get(kept.job.family);
      if (!this.pack) throw e;
      this.connected = false;
    }
    this.prepare();
    return this;
  }

  async load_pack(family) {
    const pack = await get(`/api/pack/${encodeURIComponent(family)}`);
    packs.set(family, pack);
    return pack;
  }

  send() {
    flush(this.id, this.about.uid, this.change);
  }

  prepare() {
    on_sent(this.about.uid, (result, items) => this.take_sent(result, items));
    this.features = new Map(this.pack.features.map((f) => [f.id, f]));
    const used = new Set(this.pack.features.map((f) => f.place));
    this.places = this.pack.places.filter((p) => used.has(p.id));
  }

  take(told, whole) {
    this.about = told.job ?? this.about;
    if (whole) this.entries.clear();
    for (const e of told.entries ?? []) {
      if (e.fields) this.entries.set(key(e.kind, e.name), e);
      else this.entries.delete(key(e.kind, e.name));
    }
    this.change = told.change ?? this.change;
    if (told.now !== undefined) {
      this.now = told.now;
      this.trouble = told.trouble ?? "";   // why the job can't be judged
    }
    jobs.set(this.id, { job: this.about, change: this.change, entries: [...this.entries.values()], now: this.now });
  }

  /** What holds as seen from here: an own tap that waits counts before what the server last told. */
  entry(kind, name) {
    let found = this.entries.get(key(kind, name)) ?? null;
    for (const item of waiting.open(this.about.uid)) {
      if (item.kind === kind && item.name === name) found = item.fields ? { ...item, at: item.at, change: found?.change ?? 0, waits: true } : null;
    }
    return found;
  }

  of_kind(kind) {
    const names = new Set([...this.entries.values()].filter((e) => e.kind === kind).map((e) => e.name));
    for (const item of waiting.open(this.about.uid)) if (item.kind === kind) names.add(item.name);
    return [...names].map((name) => this.entry(kind, name)).filter(Boolean);
  }

  answered(feature) {
    return this.entry("observed", feature);
  }

  /** One tap: kept on this device first, then sent. Returns at once. */
  answer(kind, name, fields, words) {
    const before = this.entry(kind, name);
    const item = { job: this.id, uid: this.about.uid, tap: tap_name(), kind, name, fields, seen: before?.change ?? 0, by: me.get(), at: new Date().toISOString() };
    this.full = !waiting.add(item);
    this.said = { text: "", words, kind, name, before: before?.fields ?? null, tap: item.tap };
    this.changed();
    if (this.full) return item.tap;
    this.send();
    return item.tap;
  }

  /** Puts back what stood there before the last tap. */
  undo() {
    const last = this.said;
    if (!last) return;
    this.answer(last.kind, last.name, last.before, last.before ? "as it was before" : "taken back");
    this.said = { ...this.said, undone: true };
    this.changed();
  }

  take_sent(result, items) {
    this.connected = true;
    this.take(result, false);
    const mine = items.find((item) => item.tap === this.said?.tap);
    if (mine) {
      const told = result.now?.said ?? [];
      const clash = (result.conflicts ?? []).find((c) => c.tap === mine.tap);
      this.said.text = clash ? `${clash.theirs?.by || "Another phone"} had answered this too. Yours holds; both stay in the history.` : (told[0] ?? "");
      this.said.more = told.slice(1);
    }
    this.changed();
  }

  /** What others did since; called every few seconds. */
  async poll() {
    const was = this.connected;
    try {
      const told = await get(`/api/jobs/${this.id}?since=${this.change}`);
      if (told.job?.uid && told.job.uid !== this.about.uid) throw new Error("another book");
      const others = (told.entries ?? []).length > 0;
      this.connected = true;
      if (others || told.change !== this.change || told.job?.state !== this.about.state) {
        this.take(told, false);
        this.changed();
      }
    } catch (e) {
      this.connected = e.status !== undefined;
    }
    if (this.connected !== was) this.changed();
    // Taps and pictures that wait; nothing happens when there are none.
    if (this.connected) this.send();
  }

  changed() {
    this.dispatchEvent(new Event("change"));
  }

  /** The features of a place, in the order of the pack. */
  at(place) {
    return this.pack.features.filter((f) => f.place === place);
  }

  /** The next one without an answer: on in the same place, then from its beginning. */
  next_open(feature) {
    const here = this.at(feature.place);
    const from = here.findIndex((f) => f.id === feature.id);
    return [...here.slice(from + 1), ...here.slice(0, from)].find((f) => !this.answered(f.id)) ?? null;
  }
}
