// Every page by axe-core (WCAG 2.2 A and AA), light and dark; sizes for gloves; no sideways scrolling; the plate never jumps.

import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { run, begin, open, saved, tap, PHONE } from "./support/workshop.mjs";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

async function check(page, words) {
  // The pages' own policy forbids foreign script; the tester's comes in from outside the page.
  if (!await page.evaluate(() => "axe" in window)) await page.evaluate(axe);
  const found = await page.evaluate((tags) => window.axe.run(document, { runOnly: tags }).then((r) => ({
    passes: r.passes.length, wrong: r.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(" ")).join("; ")}`) })), TAGS);
  assert.deepEqual(found.wrong, [], words);
  assert.ok(found.passes >= 10, `${words}: axe-core looked at nothing`);
}

const wide = (page) => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

async function seed(page) {
  const job = await begin(page, "aldermoor-carrier", "Van with every page");
  for (const [feature, value] of [["headlamp-position", "value-high"], ["rear-lamps", "value-large-round"], ["indicators", "value-round-lamps"], ["grille", "state-missing"], ["wheel-rims", "state-cannot-tell"]]) {
    await open(page, `#/job/${job}/card/${feature}`);
    await tap(page, `#${value}`);
  }
  await open(page, `#/job/${job}/number/chassis-number`);
  await page.locator("#number").fill("AC V 12873");
  await tap(page, "#keep-number");
  await saved(page);
  return job;
}

const pages = (job) => ["jobs", "new", "invite", ...["walk", "walk/front", "card/headlamp-position", "card/bore", "card/colour", "number/chassis-number", "papers", "next", "find", "review", "why/headlamp-position", "history", "history?of=grille"].map((p) => `job/${job}/${p}`)];

await run({
  "axe-core finds nothing on any page, in light and in dark": async (shop) => {
    for (const colorScheme of ["light", "dark"]) {
      const { context, page, trouble } = await shop.device({ colorScheme });
      const job = await seed(page);
      for (const hash of pages(job)) {
        await open(page, `#/${hash}`);
        if (hash.endsWith("find")) await page.locator("#search").fill("lamp");
        await check(page, `${hash}, ${colorScheme}`);
        // WCAG 2.2, 1.4.10 Reflow: 320 CSS pixels without scrolling sideways; 1.4.4: text at 200 %.
        for (const width of [320, 820, 1440]) {
          await page.setViewportSize({ width, height: 800 });
          assert.ok(await wide(page) <= 0, `${hash} scrolls sideways at ${width}`);
        }
        await page.setViewportSize(PHONE);
        await page.evaluate(() => { document.documentElement.style.fontSize = "200%"; });
        assert.ok(await wide(page) <= 0, `${hash} scrolls sideways with text at 200 %`);
        await page.evaluate(() => { document.documentElement.style.fontSize = ""; });
      }
      await page.setViewportSize({ width: 1440, height: 900 });
      await open(page, `#/job/${job}/card/grille`);
      await check(page, `card at 1440, ${colorScheme}`);
      assert.deepEqual(trouble, []);
      await context.close();
    }
    const fresh = await shop.browser.newPage();
    await fresh.goto(`${shop.url}/join`);
    await check(fresh, "join");
    await fresh.close();
  },

  "everything to touch is 48 pixels or more; answers reach 7:1 in sunlight": async (shop) => {
    for (const colorScheme of ["light", "dark"]) {
      const { context, page } = await shop.device({ colorScheme });
      const job = await seed(page);
      for (const hash of pages(job)) {
        await open(page, `#/${hash}`);
        const small = await page.evaluate(() => [...document.querySelectorAll("button, #main .row, #tabs a, summary, select, input:not([type=file]), textarea, .small-act, .main-act, .chip, .where a, label.camera")]
          .filter((n) => n.getClientRects().length && !n.closest("[hidden], details:not([open]) > :not(summary)"))
          .map((n) => [n.id || n.textContent, n.getBoundingClientRect()]).filter(([, r]) => r.height < 48 || r.width < 48).map(([id]) => id));
        assert.deepEqual(small, [], `${hash}: too small for a glove`);
      }
      // The enhanced contrast of WCAG 2.2, 1.4.6: 7:1 for the words of the answers, chosen or not.
      for (const feature of ["headlamp-position", "indicators", "grille"]) {
        await open(page, `#/job/${job}/card/${feature}`);
        const least = await page.evaluate(() => {
          const light = (c) => c.match(/[\d.]+/g).slice(0, 3).map(Number).map((x) => x / 255).map((x) => (x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4)).reduce((sum, x, i) => sum + x * [0.2126, 0.7152, 0.0722][i], 0);
          const ratio = (a, b) => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
          return Math.min(...[...document.querySelectorAll(".answers .answer span:not(.tick):not(.words)")].map((n) => ratio(light(getComputedStyle(n).color), light(getComputedStyle(n.closest(".answer")).backgroundColor))));
        });
        assert.ok(least >= 7, `${feature}, ${colorScheme}: ${least.toFixed(2)}`);
      }
      await context.close();
    }
  },

  "the plate at the top never jumps": async (shop) => {
    const { context, page } = await shop.device();
    const job = await begin(page, "aldermoor-carrier", "Van");
    const height = () => page.evaluate(() => document.getElementById("head").getBoundingClientRect().height);
    const first = await height();
    for (const hash of pages(job).slice(3).filter((p) => !p.includes("why"))) {
      await open(page, `#/${hash}`);
      assert.equal(await height(), first, hash);
    }
    await open(page, `#/job/${job}/card/headlamp-position`);
    await tap(page, "#value-low");
    assert.equal(await height(), first);
    await context.setOffline(true);
    await tap(page, "#value-mesh");
    await page.locator("#net", { hasText: "kept here" }).waitFor();
    assert.equal(await height(), first);
    await context.close();
  },
});
