// Our own line drawings: where one stands round a vehicle, and values that words alone don't tell apart.

import { s } from "./dom.js";
import { shapes } from "./drawings_parts.js";

const line = (d) => s("path", d.startsWith("*") ? { d: d.slice(1), class: "full" } : { d });

const frame = (paths, box, name) => s("svg", { class: name, viewBox: box, "aria-hidden": "true", focusable: "false" }, paths);

/** The drawing of a value, or nothing: most values need none. The words beside it say the same. */
export function drawing(family, feature, value) {
  const shape = shapes[`${family}/${feature}/${value}`];
  return shape ? frame(shape.map(line), "0 0 72 54", "drawing") : null;
}

// A vehicle from above, its front to the left; the dot is the inspector.
const BODY = "M10 18q0-6 6-6h36q4 0 4 4v16q0 4-4 4H16q-6 0-6-6zM22 14v20M44 14v20";
const SPOTS = { front: [4, 24], left: [33, 44], rear: [63, 24], right: [33, 4], "engine-bay": [16, 24], interior: [33, 24], "load-space": [50, 24], underneath: null, papers: null };

export function standpoint(place) {
  const spot = SPOTS[place];
  const paths = [s("path", { d: place === "papers" ? "M20 6h20l8 8v28H20zM40 6v8h8M26 22h16M26 29h16M26 36h10" : BODY })];
  if (place === "underneath") paths.push(s("path", { d: "M4 42h60", class: "ground" }), s("path", { d: "M33 24m-5 0a5 5 0 1 0 10 0a5 5 0 1 0-10 0", class: "ghost" }));
  if (spot) paths.push(s("circle", { cx: spot[0], cy: spot[1], r: 4.5, class: "spot" }));
  return frame(paths, "-2 -3 70 54", "standpoint");
}
