// Dates, shares and signs as people read them.

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** "1954-06" -> "Jun 1954"; a year alone stays one. */
export function month(text) {
  const [year, m] = String(text ?? "").split("-");
  return MONTHS[Number(m) - 1] ? `${MONTHS[Number(m) - 1]} ${year}` : String(text ?? "");
}

export function span(from, to) {
  if (!from && !to) return "";
  if (!from) return `to ${month(to)}`;
  if (!to) return `from ${month(from)}`;
  if (from === to) return month(from);
  const [a, b] = [month(from), month(to)];
  return a.slice(-4) === b.slice(-4) && a.length === 8 ? `${a.slice(0, 3)} to ${b}` : `${a} to ${b}`;
}

/** Never 0 % or 100 % for what is not exact: the same rounding as in the reports. */
export function percent(p) {
  if (typeof p !== "number" || Number.isNaN(p)) return "";
  if (p > 0.999) return "> 99.9 %";
  if (p < 0.001) return "< 0.1 %";
  const hundred = p * 100;
  return hundred < 1 || hundred > 99 ? `${hundred.toFixed(1)} %` : `${Math.round(hundred)} %`;
}

export function minutes(m) {
  if (typeof m !== "number" || m <= 0) return "";
  if (m < 0.75) return `${Math.max(5, Math.round(m * 12) * 5)} seconds`;
  return m < 1.5 ? "1 minute" : `${Math.round(m)} minutes`;
}

export const count = (n, one, many) => `${n} ${n === 1 ? one : many ?? `${one}s`}`;

/** A sign and a word for each verdict: never colour alone. */
const VERDICTS = {
  original: { sign: "✓", word: "original", kind: "original" },
  "later change": { sign: "↻", word: "later change", kind: "later" },
  uncertain: { sign: "?", word: "uncertain", kind: "uncertain" },
};
export const verdict = (word) => VERDICTS[String(word ?? "").replace("_", " ").replace("-", " ")] ?? null;

export const SURE = [["sure", "Sure"], ["probable", "Probably"], ["guess", "A guess"]];
export const HOW = [["seen", "Seen"], ["measured", "Measured"], ["read", "Read off it"], ["photo", "On a photo"], ["told", "Was told"]];
export const STATES = { missing: "missing", "cannot-tell": "can’t tell", "not-seen": "not looked at" };

/** What an answer says, in the words of the pack. */
export function answer(feature, fields) {
  if (!fields) return "";
  if (fields.state) return STATES[fields.state] ?? fields.state;
  if (fields.measure) return `${fields.measure}${fields.unit && fields.unit !== "none" ? ` ${fields.unit}` : ""}`;
  if (fields.value === "other") return "none of these";
  const named = [...(feature?.values ?? []), ...(feature?.groups ?? [])];
  const name = (id) => (id === "other" ? "none of these" : named.find((v) => v.id === id)?.name ?? id);
  if (fields.not) return `not ${fields.not.split(" ").map(name).join(" or ")}`;
  return (fields.value ?? "").split(" ").map(name).join(" or ");
}

/** "2026-11-20T10:15:00Z" -> "20 Nov, 10:15" in the reader's own time. */
export function moment(at) {
  const d = new Date(at);
  if (Number.isNaN(d.getTime())) return at ?? "";
  return `${d.getDate()} ${MONTHS[d.getMonth()]}, ${String(d.getHours()).padStart(2, "0")}:${String(d.getMinutes()).padStart(2, "0")}`;
}

export const sentence = (words) => (words ? words[0].toUpperCase() + words.slice(1) : "");

/** Short names, without a word on how to recognise them, stand side by side. */
export const brief = (values) => values.every((v) => !v.how && v.name.length <= 22);

/** A long question's first sentence, and how to look, which needs no large letters. */
export function question_of(ask) {
  const end = ask.length > 80 ? ask.indexOf("? ") + 1 : 0;
  return end > 0 ? [ask.slice(0, end), ask.slice(end + 1)] : [ask, ""];
}

/** Of many years, as on a date stamp, those that stand in a grid, since the question says how to read them all. */
export function years_of(values) {
  const years = values.filter((v) => /^\d{4}$/.test(v.name));
  return years.length > 12 ? years : [];
}

/** For search: lower case, without accents. */
export const folded = (words) => String(words ?? "").normalize("NFD").replace(/\p{Diacritic}/gu, "").toLowerCase();
