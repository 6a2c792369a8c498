// The only place where text becomes part of the page: always as text, never as markup.

const SVG = "http://www.w3.org/2000/svg";
// Signs that turn the reading direction or can't be seen could make a note look like something else.
const STEERING = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/g;

export const plain = (words) => String(words).replace(STEERING, "\ufffd");

function fill(node, attributes, kids) {
  for (const [name, value] of Object.entries(attributes ?? {})) {
    if (value === null || value === undefined || value === false) continue;
    if (name === "on") for (const [event, act] of Object.entries(value)) node.addEventListener(event, act);
    else if (name === "value" && "value" in node) node.value = value;
    else node.setAttribute(name, value === true ? "" : plain(value));
  }
  for (const kid of kids.flat(Infinity)) {
    if (kid === null || kid === undefined || kid === false || kid === "") continue;
    node.append(kid instanceof Node ? kid : document.createTextNode(plain(kid)));
  }
  return node;
}

/** h("p", {class: "quiet"}, "words", node, [more]) */
export const h = (tag, attributes, ...kids) => fill(document.createElement(tag), attributes, kids);
export const s = (tag, attributes, ...kids) => fill(document.createElementNS(SVG, tag), attributes, kids);

/** A button that does something here; a link (`go`) that leads elsewhere. */
export const button = (words, act, attributes) => h("button", { type: "button", ...attributes, on: { click: act } }, words);
export const go = (words, hash, attributes) => h("a", { href: hash, ...attributes }, words);

/** Says it to people who listen to the page; sighted people read it where it stands. */
export function say(words) {
  const box = document.getElementById("say");
  if (box) box.textContent = plain(words);
}

/** Puts `node` into `place`, and the focus back where it was (by id). */
export function put(place, ...nodes) {
  const here = place.contains(document.activeElement) ? document.activeElement : null;
  const held = here?.id, heading = here?.tagName === "H1";
  place.replaceChildren(...nodes.filter(Boolean));
  const again = held ? document.getElementById(held) : heading ? place.querySelector("h1") : null;
  again?.focus({ preventScroll: true });
}

/** True while somebody types inside `place`: what they type must not be swept away. */
export function typing(place) {
  const at = document.activeElement;
  return place.contains(at) && at.matches("input:not([type=checkbox]):not([type=file]), textarea, select");
}
