// A date stamp has a button for each year: large enough for a thumb, close enough not to scroll for ever.

import assert from "node:assert/strict";
import { run, begin, open, saved, tap, entries_of } from "./support/workshop.mjs";

await run({
  "the year stamped on a speedometer is one tap in a grid of years": async (shop) => {
    const { page, trouble } = await shop.device({ hasTouch: true, isMobile: true });
    const job = await begin(page, "volkswagen-type1", "Grey saloon");
    await open(page, `#/job/${job}/card/speedometer-stamp`);
    const years = page.locator(".answers.years .answer");
    await years.first().waitFor();
    assert.ok((await years.count()) > 50);
    const boxes = await years.evaluateAll((all) => all.map((b) => b.getBoundingClientRect()).map(({ x, y, width, height }) => ({ x, y, width, height })));
    // WCAG 2.2, success criterion 2.5.5: a target of at least 44 by 44 CSS pixels.
    for (const box of boxes) assert.ok(box.width >= 44 && box.height >= 44, JSON.stringify(box));
    assert.ok(boxes.at(-1).y - boxes[0].y < 2 * 844, "no more than two screens of a phone");
    if (process.env.LOOK) await page.screenshot({ path: `${process.env.LOOK}/years.png`, fullPage: true });
    await tap(page, "#value-" + (await years.filter({ hasText: "1963" }).getAttribute("id")).slice("value-".length));
    await saved(page);
    const stamp = (await entries_of(page, job)).find((e) => e.name === "speedometer-stamp");
    assert.equal(stamp.fields.how, "read");
    await open(page, `#/job/${job}/card/speedometer-stamp`);
    assert.equal(await page.locator('.answers.years [aria-pressed="true"] .name').innerText(), "✓1963");
    assert.deepEqual(trouble, []);
  },
});
