// The beginning: the family by questions, by a number, or by its name.

import assert from "node:assert/strict";
import { run } from "./support/workshop.mjs";

const first_guess = (page) => page.locator("ol.rows .row .name").first();

await run({
  // An air-cooled engine at the very back: of these families only the Volkswagen Type 1 (its pack cites the maker's own history).
  "two questions find the family; the next screen starts the walk round": async (shop) => {
    const { context, page, trouble } = await shop.device();
    await page.locator("#begin").click();
    await page.locator("#question").waitFor();
    for (const wanted of [/At the very back/, /fan blows air/]) {
      for (let skipped = 0; await page.locator(".question .answer", { hasText: wanted }).count() === 0; skipped += 1) {
        assert.ok(skipped < 12, `no question offers ${wanted}`);
        const asked = await page.locator("#question").textContent();
        await page.locator("#answer-skip").click();
        await page.waitForFunction((q) => document.querySelector("#question")?.textContent !== q, asked);
      }
      const asked = await page.locator("#question").textContent();
      await page.locator(".question .answer", { hasText: wanted }).click();
      await page.waitForFunction((q) => document.querySelector("#question")?.textContent !== q, asked);
    }
    await first_guess(page).filter({ hasText: "Volkswagen Type 1" }).waitFor();
    await first_guess(page).click();
    await page.locator("#start").click();
    await page.getByRole("heading", { name: "Where are you standing?" }).waitFor();
    assert.deepEqual(trouble, []);
    await context.close();
  },

  // The demo pack's own example of its chassis number; it isn't asked for again.
  "a number finds the family and is the first answer of the job": async (shop) => {
    const { context, page } = await shop.device();
    await page.locator("#begin").click();
    await page.locator("#guess-number").fill("AC V 12873");
    await page.locator("#try-number").click();
    await first_guess(page).filter({ hasText: "Aldermoor Carrier" }).waitFor();
    await first_guess(page).click();
    await page.locator("#start").click();
    await page.locator("#number-chassis-number", { hasText: "AC V 12873" }).waitFor();
    await context.close();
  },
});
