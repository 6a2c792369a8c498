// The whole way by keys alone: Tab, Enter and Space; where one is can always be seen.

import assert from "node:assert/strict";
import { run, saved, entries_of } from "./support/workshop.mjs";

/** Tab until the focus is on it: so many presses at most. The focus must be visible on the way. */
async function tab_to(page, selector, most = 60) {
  for (let i = 0; i < most; i += 1) {
    await page.keyboard.press("Tab");
    const at = await page.evaluate((s) => {
      const here = document.activeElement;
      const style = getComputedStyle(here.matches(".picture-box input") ? here.nextElementSibling : here);
      return { there: here.matches(s), seen: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2, what: here.id || here.tagName };
    }, selector);
    if (at.what !== "BODY") assert.equal(at.seen, true, `the focus on ${at.what} can't be seen`);
    if (at.there) return;
  }
  assert.fail(`${selector} can't be reached with ${most} Tabs`);
}

const heading = (page, words) => page.waitForFunction((w) => document.activeElement.tagName === "H1" && document.activeElement.textContent.includes(w), words);

await run({
  "an inspection by keys alone": async (shop) => {
    const { context, page, trouble } = await shop.device();
    await tab_to(page, "#begin");
    await page.keyboard.press("Enter");
    await heading(page, "Which family is it?");
    await tab_to(page, "#family-aldermoor-carrier");
    await page.keyboard.press("Enter");
    await heading(page, "Aldermoor Carrier");
    await tab_to(page, "#start");
    await page.keyboard.press("Enter");
    await heading(page, "Where are you standing?");
    const job = Number(page.url().match(/job\/(\d+)/)[1]);
    await tab_to(page, "#place-front");
    await page.keyboard.press("Enter");

    // After each answer the focus is on the next question.
    await heading(page, "Where are the headlamps?");
    await tab_to(page, "#sure-guess");
    await page.keyboard.press("Space");
    await tab_to(page, "#value-high");
    await page.keyboard.press("Space");
    await heading(page, "What fills the opening");
    await tab_to(page, "#state-missing");
    await page.keyboard.press("Enter");
    await heading(page, "Which badge");
    await saved(page);
    await tab_to(page, "#undo");
    await page.keyboard.press("Enter");
    await page.locator("#said", { hasText: "taken back" }).waitFor();
    await saved(page);
    const told = (await entries_of(page, job)).filter((e) => e.kind === "observed").map((e) => [e.name, e.fields?.value ?? e.fields?.state ?? null, e.fields?.sure]);
    assert.deepEqual(told, [["headlamp-position", "high", "guess"], ["grille", "missing", undefined], ["grille", null, undefined]]);

    // Skip link, find, review, why.
    await page.evaluate(() => document.activeElement.blur());
    await page.keyboard.press("Tab");
    await tab_to(page, "#tab-find");
    await page.keyboard.press("Enter");
    await heading(page, "Find a feature");
    await tab_to(page, "#search");
    await page.keyboard.type("lamps");
    await tab_to(page, "#hit-rear-lamps");
    await page.keyboard.press("Enter");
    await heading(page, "rear lamps");
    await tab_to(page, "#tab-review");
    await page.keyboard.press("Enter");
    await heading(page, "Review");
    await tab_to(page, "#why-headlamp-position");
    await page.keyboard.press("Enter");
    await heading(page, "Headlamp position");
    await tab_to(page, "#edit");
    await page.keyboard.press("Enter");
    await heading(page, "Where are the headlamps?");
    await tab_to(page, "#value-low");
    await page.keyboard.press("Enter");
    await heading(page, "Review");
    assert.deepEqual(trouble, []);
    await context.close();
  },
});
