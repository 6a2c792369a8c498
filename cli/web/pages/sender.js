// Sends what waits, in the order of the taps, until the server has said "saved" for each. One sending at a time a job.

import { post, post_file, Refused } from "./api.js";
import { waiting, pictures } from "./keep.js";

const MOST = 40;
const listeners = new Map();
const running = new Map();
const own = new Map();       // job/kind/name -> change of the last own tap: no clash with oneself
export const refused = new Map();   // tap -> why the server would not have it

export const on_sent = (job, act) => listeners.set(job, act);

/** Starts a sending, or makes the one under way look again when it ends. */
export function flush(job, since) {
  if (running.has(job)) {
    running.set(job, { since, again: true });
    return;
  }
  running.set(job, { since, again: false });
  run(job).finally(() => {
    const again = running.get(job)?.again;
    running.delete(job);
    if (again) flush(job, since);
  });
}

async function run(job) {
  try {
    while (await send_some(job)) { /* until nothing waits */ }
    await send_pictures(job);
  } catch (e) {
    // No connection: the poll starts the next try. Everything stays where it is.
    if (e instanceof Refused && e.status !== 429 && e.status < 500) await one_by_one(job);
  }
}

function batch(job) {
  const items = waiting.all().filter((item) => item.job === job && !refused.has(item.tap));
  // One name a batch: the later of two taps on one card must come after the earlier.
  const names = new Set();
  const out = [];
  for (const item of items) {
    if (names.has(`${item.kind}/${item.name}`) || out.length === MOST || (out.length && (out[0].by !== item.by || out[0].uid !== item.uid))) break;
    names.add(`${item.kind}/${item.name}`);
    out.push(item);
  }
  return out;
}

async function deliver(job, items) {
  const entries = items.map(({ tap, kind, name, fields, seen }) => ({ tap, kind, name, fields, seen: Math.max(seen, own.get(`${job}/${kind}/${name}`) ?? 0) }));
  const since = running.get(job)?.since ?? 0;
  const result = await post(`/api/jobs/${job}/entries`, { by: items[0].by, uid: items[0].uid, since, entries });
  const saved = new Set(result.saved ?? []);
  for (const item of items) if (saved.has(item.tap)) waiting.drop(item.tap);
  for (const e of result.entries ?? []) if (saved.has(e.tap)) own.set(`${job}/${e.kind}/${e.name}`, e.change);
  listeners.get(job)?.(result, items);
  return saved.size > 0;
}

async function send_some(job) {
  const items = batch(job);
  return items.length > 0 && deliver(job, items);
}

/** The server refuses a batch for the fault of one: the others go, that one stays with its reason. */
async function one_by_one(job) {
  for (const item of batch(job)) {
    try {
      await deliver(job, [item]);
    } catch (e) {
      if (!(e instanceof Refused) || e.status === 429 || e.status >= 500) return;
      refused.set(item.tap, e.message);
      listeners.get(job)?.({ entries: [] }, []);
    }
  }
}

async function send_pictures(job) {
  for (const item of (await pictures.all()).filter((p) => p.job === job)) {
    const query = new URLSearchParams({ feature: item.feature, tap: item.tap, name: item.name, by: item.by });
    try {
      await post_file(`/api/jobs/${job}/photo?${query}`, item.blob);
    } catch (e) {
      if (!(e instanceof Refused) || e.status === 429 || e.status >= 500) throw e;
      refused.set(item.tap, e.message);
    }
    await pictures.drop(item.tap);
    listeners.get(job)?.({ entries: [] }, []);
  }
}
