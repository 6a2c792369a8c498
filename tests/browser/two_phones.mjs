// Two phones on one job: each sees what the other answers, and nothing of either is lost.

import assert from "node:assert/strict";
import { run, begin, open, saved, tap, entries_of } from "./support/workshop.mjs";

await run({
  "two phones on one job show each other's answers": async (shop) => {
    const a = await shop.device();
    const b = await shop.device();
    const job = await begin(a.page, "aldermoor-carrier", "Van for two");
    await b.page.locator("#me").fill("CD");
    await b.page.locator("#me").blur();
    await open(b.page, `#/job/${job}/walk/rear`);
    await open(a.page, `#/job/${job}/walk/front`);

    await open(a.page, `#/job/${job}/card/headlamp-position`);
    await tap(a.page, "#value-low");
    await open(b.page, `#/job/${job}/card/rear-lamps`);
    await tap(b.page, "#value-small-glass");
    await saved(a.page);
    await saved(b.page);

    // Without a reload: the list of the place on each phone shows the other's answer.
    await open(a.page, `#/job/${job}/walk/rear`);
    await a.page.locator("#row-rear-lamps", { hasText: "small, round, of glass" }).waitFor();
    await open(b.page, `#/job/${job}/walk/front`);
    await b.page.locator("#row-headlamp-position", { hasText: "low, beside the grille" }).waitFor();
    await open(b.page, `#/job/${job}/card/grille`);
    await open(a.page, `#/job/${job}/card/grille`);
    await tap(a.page, "#value-mesh");
    await b.page.locator("#value-mesh[aria-pressed=true]").waitFor();
    assert.deepEqual([...a.trouble, ...b.trouble], []);
    await a.context.close();
    await b.context.close();
  },

  "both answer the same one, one of them without connection: the later holds, both stay in the history": async (shop) => {
    const a = await shop.device();
    const b = await shop.device();
    const job = await begin(a.page, "aldermoor-carrier", "Van with a clash");
    await open(b.page, `#/job/${job}/card/wipers`);
    await open(a.page, `#/job/${job}/card/wipers`);
    await b.context.setOffline(true);
    await tap(b.page, "#value-two");
    await b.page.locator("#net", { hasText: "kept here" }).waitFor();
    await tap(a.page, "#value-one");
    await saved(a.page);
    await b.context.setOffline(false);
    await saved(b.page);
    await b.page.locator("#said", { hasText: "had answered this too" }).waitFor();
    const wipers = (await entries_of(a.page, job)).filter((e) => e.name === "wipers");
    assert.deepEqual(wipers.map((e) => e.fields.value), ["one", "two"]);
    await open(a.page, `#/job/${job}/history?of=wipers`);
    await a.page.locator(".history li >> nth=1").waitFor();
    await a.context.close();
    await b.context.close();
  },
});
