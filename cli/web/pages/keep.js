// What this device keeps by itself, so that nothing is lost: taps that wait (one key each, so that two tabs never overwrite
// each other), the last known state of each job, drafts of notes; pictures in IndexedDB, as they are too large for the rest.

const WAITING = "exworks.tap.";

function read(key) {
  try {
    return JSON.parse(localStorage.getItem(key));
  } catch {
    return null;
  }
}

/** False when the device's store is full or shut: the caller then says so instead of promising. */
function write(key, value) {
  try {
    localStorage.setItem(key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

const keys = (start) => Object.keys(localStorage).filter((k) => k.startsWith(start)).sort();

// What waits is asked for on every row of a list: read once, and again when this or another tab changed it.
let known = null;
addEventListener("storage", () => { known = null; });
const all_waiting = () => (known ??= keys(WAITING).map((key) => ({ key, ...read(key) })).filter((item) => item.tap));

let turn = 0;
export const waiting = {
  /** The key begins with the time, so that keys in order are taps in order. */
  add(item) {
    turn += 1;
    const key = `${WAITING}${String(Date.now()).padStart(14, "0")}.${String(turn).padStart(5, "0")}.${item.tap}`;
    known = null;
    return write(key, item);
  },
  all: (uid) => all_waiting().filter((item) => !uid || item.uid === uid),
  open: (uid) => waiting.all(uid).filter((item) => !item.refused),
  refused: (uid) => waiting.all(uid).filter((item) => item.refused),
  refuse(tap, why) {
    for (const { key, ...item } of waiting.all()) if (item.tap === tap) write(key, { ...item, refused: why });
    known = null;
  },
  drop(tap) {
    for (const key of keys(WAITING)) if (key.endsWith(`.${tap}`)) localStorage.removeItem(key);
    known = null;
  },
};

/** The last state of a job and its pack: read again after a reload without connection. The lead's cache is only a help, so full is no harm. */
export const jobs = {
  get: (id) => read(`exworks.job.${id}`),
  set: (id, state) => write(`exworks.job.${id}`, state),
};
export const packs = {
  get: (family) => read(`exworks.pack.${family}`),
  set: (family, pack) => write(`exworks.pack.${family}`, pack),
};

/** A note that is typed but not yet part of an answer. */
export const drafts = {
  get: (uid, feature) => read(`exworks.draft.${uid}.${feature}`) ?? {},
  set(uid, feature, draft) {
    if (Object.values(draft).some(Boolean)) write(`exworks.draft.${uid}.${feature}`, draft);
    else localStorage.removeItem(`exworks.draft.${uid}.${feature}`);
  },
};

export const me = {
  get: () => read("exworks.me") ?? "",
  set: (initials) => write("exworks.me", initials),
};

/** Everything but answers that still wait to be sent. */
export function forget_device() {
  for (const key of keys("exworks.")) if (!key.startsWith(WAITING)) localStorage.removeItem(key);
}

// ---- pictures ----

function open() {
  return new Promise((done, fail) => {
    const wish = indexedDB.open("exworks", 1);
    wish.onupgradeneeded = () => wish.result.createObjectStore("pictures", { keyPath: "tap" });
    wish.onsuccess = () => done(wish.result);
    wish.onerror = () => fail(wish.error);
  });
}

async function pictures_do(mode, act) {
  const db = await open();
  try {
    return await new Promise((done, fail) => {
      const job = db.transaction("pictures", mode);
      const wish = act(job.objectStore("pictures"));
      job.oncomplete = () => done(wish.result);
      job.onerror = job.onabort = () => fail(job.error);
    });
  } finally {
    db.close();
  }
}

export const pictures = {
  add: (item) => pictures_do("readwrite", (store) => store.put(item)),
  all: () => pictures_do("readonly", (store) => store.getAll()),
  drop: (tap) => pictures_do("readwrite", (store) => store.delete(tap)),
};
