// Who sees that much and no more says just that.

import assert from "node:assert/strict";
import { run, begin, open, saved, tap, entries_of } from "./support/workshop.mjs";

await run({
  "flashing lamps, whatever their shape, is an answer under the others": async (shop) => {
    const { page } = await shop.device({ hasTouch: true, isMobile: true });
    const job = await begin(page, "aldermoor-carrier", "Van behind a hedge");
    await open(page, `#/job/${job}/card/indicators`);
    await page.getByText("I can only see that it is").click();
    if (process.env.LOOK) await page.screenshot({ path: `${process.env.LOOK}/group.png`, fullPage: true });
    await tap(page, "#group-flashing");
    await page.locator("#said", { hasText: "Indicators: flashing lamps, whatever their shape." }).waitFor();
    await saved(page);
    const kept = (await entries_of(page, job)).find((e) => e.name === "indicators");
    assert.equal(kept.fields.value, "flashing");
    await open(page, `#/job/${job}/card/indicators`);
    assert.equal(await page.locator("#group-flashing").getAttribute("aria-pressed"), "true");
    await open(page, `#/job/${job}/review`);
    await page.getByText("flashing lamps, whatever their shape").first().waitFor();
    if (process.env.LOOK) await page.screenshot({ path: `${process.env.LOOK}/review.png`, fullPage: true });
  },
});
