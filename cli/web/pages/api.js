// Talk with the server. Two ways to fail: Offline (nothing came back; worth another try) and Refused (it answered no).

export class Offline extends Error {}
export class Refused extends Error {
  constructor(status, words, retry) {
    super(words);
    this.status = status;
    this.retry = retry;
  }
}

const PATIENCE = 15000;
let token = "";
let leaving = false;

/** Once, however many answers say so; the page that was open is opened again after joining. */
function leave_to_join() {
  if (leaving) return;
  leaving = true;
  sessionStorage.setItem("exworks.back", location.hash);
  location.assign("/join");
}

export function page_before_joining() {
  const hash = sessionStorage.getItem("exworks.back");
  sessionStorage.removeItem("exworks.back");
  return hash;
}

async function ask(path, options) {
  let answer;
  try {
    answer = await fetch(path, { ...options, cache: "no-store", signal: AbortSignal.timeout(options?.patience ?? PATIENCE) });
  } catch {
    throw new Offline("no connection to the workshop’s computer; what you answer is kept here until it is back");
  }
  // A session that ended: the code that the console shows opens a new one. Answers wait here meanwhile.
  if (answer.status === 401) {
    leave_to_join();
    throw new Refused(401, "this device is not joined; type the code that the console shows");
  }
  let body;
  try {
    body = await answer.json();
  } catch {
    throw new Offline("the answer of the workshop’s computer broke off; it will be asked again");
  }
  if (!answer.ok) throw new Refused(answer.status, body.error ?? `the server answered ${answer.status}`, body.retry);
  return body;
}

export const get = (path) => ask(path);

/** The token is asked for once; after a restart of the server it is another one. */
async function with_token(send) {
  if (!token) token = (await get("/api/session")).token;
  try {
    return await send(token);
  } catch (e) {
    if (!(e instanceof Refused) || e.status !== 403) throw e;
    token = (await get("/api/session")).token;
    return send(token);
  }
}

export const post = (path, body) =>
  with_token((t) => ask(path, { method: "POST", headers: { "Content-Type": "application/json", "X-Exworks-Token": t }, body: JSON.stringify(body) }));

/** A picture takes longer than a tap. */
export const post_file = (path, blob) =>
  with_token((t) => ask(path, { method: "POST", patience: 120000, headers: { "Content-Type": blob.type || "application/octet-stream", "X-Exworks-Token": t }, body: blob }));

/** A random name for one tap: the server stores the same one once only. */
export function tap_name() {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, (b) => b.toString(16).padStart(2, "0")).join("");
}
