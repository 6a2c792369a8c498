// Sends what waits, in the order of the taps, until the server has said "saved" for each. One sending at a time a job.
// A job is known by its uid: behind the same address and number there may be another book tomorrow.

import { post, post_file, Refused } from "./api.js";
import { waiting, pictures } from "./keep.js";

const MOST = 40;
const listeners = new Map();
const running = new Map();
const own = new Map();   // uid/kind/name -> change of the last own tap: no clash with oneself

export const on_sent = (uid, act) => listeners.set(uid, act);
const tell = (uid, result, items) => listeners.get(uid)?.(result, items);

/** Starts a sending, or makes the one under way look again when it ends. */
export function flush(job, uid, since) {
  const again = running.has(uid);
  running.set(uid, { since, again });
  if (again) return;
  run(job, uid).finally(() => {
    const wish = running.get(uid);
    running.delete(uid);
    if (wish?.again) flush(job, uid, wish.since);
  });
}

/** Everything that waits on this device, of whatever job. */
export async function flush_all() {
  const jobs = new Map([...waiting.open(), ...await pictures.all().catch(() => [])].map((item) => [item.uid, item.job]));
  for (const [uid, job] of jobs) flush(job, uid, 0);
}

/** A "no" that another try would not change. Of another book: the right one may come back. */
const is_final = (e) => e instanceof Refused && e.status < 500 && ![401, 403, 404, 429].includes(e.status);

async function run(job, uid) {
  try {
    while (await send_some(job, uid)) { /* until nothing waits */ }
    await send_pictures(job, uid);
  } catch (e) {
    // No connection: the poll starts the next try. Everything stays where it is.
    if (is_final(e)) await one_by_one(job, uid);
  }
}

/** One name a batch: the later of two taps on one card must come after the earlier. */
function batch(uid) {
  const names = new Set();
  const out = [];
  for (const item of waiting.open(uid)) {
    const name = `${item.kind}/${item.name}`;
    if (names.has(name) || out.length === MOST || (out.length && out[0].by !== item.by)) break;
    names.add(name);
    out.push(item);
  }
  return out;
}

async function deliver(job, uid, items) {
  const entries = items.map(({ tap, kind, name, fields, seen }) => ({ tap, kind, name, fields, seen: Math.max(seen, own.get(`${uid}/${kind}/${name}`) ?? 0) }));
  const result = await post(`/api/jobs/${job}/entries`, { by: items[0].by, uid, since: running.get(uid)?.since ?? 0, entries });
  const saved = new Set(result.saved ?? []);
  for (const item of items) if (saved.has(item.tap)) waiting.drop(item.tap);
  for (const e of result.entries ?? []) if (saved.has(e.tap)) own.set(`${uid}/${e.kind}/${e.name}`, e.change);
  tell(uid, result, items);
  return saved.size > 0;
}

async function send_some(job, uid) {
  const items = batch(uid);
  return items.length > 0 && deliver(job, uid, items);
}

/** The server refuses a batch for the fault of one: the others go, that one stays with its reason. */
async function one_by_one(job, uid) {
  for (const item of batch(uid)) {
    try {
      await deliver(job, uid, [item]);
    } catch (e) {
      if (!is_final(e)) return;
      waiting.refuse(item.tap, e.message);
      tell(uid, {}, []);
    }
  }
  if (batch(uid).length) flush(job, uid, 0);
}

async function send_pictures(job, uid) {
  for (const item of (await pictures.all()).filter((p) => p.uid === uid)) {
    const query = new URLSearchParams({ feature: item.feature, tap: item.tap, name: item.name, by: item.by });
    try {
      await post_file(`/api/jobs/${job}/photo?${query}`, item.blob);
    } catch (e) {
      if (!is_final(e)) throw e;
      waiting.add({ tap: item.tap, job, uid, kind: "photo", name: item.feature, fields: { file: item.name }, refused: e.message });
    }
    await pictures.drop(item.tap);
    tell(uid, {}, []);
  }
}
