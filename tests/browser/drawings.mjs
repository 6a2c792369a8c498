// Every drawing belongs to a value that its pack has: one that was renamed would silently lose it.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { shapes } from "../../cli/web/pages/drawings_parts.js";

const packs = new Map();
const pack = (family) => {
  if (!packs.has(family)) packs.set(family, JSON.parse(execFileSync(process.env.EXWORKS_BINARY, ["pack", "show", family, "--json"], { maxBuffer: 1 << 24 })));
  return packs.get(family);
};

for (const [key, strokes] of Object.entries(shapes)) {
  const [family, feature, value] = key.split("/");
  const values = pack(family).features.find((f) => f.id === feature)?.values ?? [];
  assert.ok(values.some((v) => v.id === value), `${key}: the pack has no such value`);
  for (const d of strokes) assert.match(d, /^\*?M[-\d.MmLlHhVvQqTtAaZz ]+$/, key);
}
console.log(`passed: each of ${Object.keys(shapes).length} drawings belongs to a value of its pack`);
