// A whole inspection on a phone, from nothing to a PDF, with the connection cut in the middle.

import assert from "node:assert/strict";
import { PIXEL, run, begin, open, saved, tap, entries_of } from "./support/workshop.mjs";

const observed = (entries) => Object.fromEntries(entries.filter((e) => e.kind === "observed").map((e) => [e.name, e.fields?.value ?? e.fields?.state ?? null]));

await run({
  "a whole inspection at 390 x 844, cut in the middle, to the PDF": async (shop) => {
    const { context, page, trouble } = await shop.device({ hasTouch: true, isMobile: true });
    const job = await begin(page, "aldermoor-carrier", "Grey van");

    // From the place to the first card; each tap leads to the next card and says what it changed.
    await page.locator("#place-front").click();
    await page.getByRole("heading", { name: "Where are the headlamps?" }).waitFor();
    await tap(page, "#value-low");
    await page.getByRole("heading", { name: "What fills the opening between the headlamps?" }).waitFor();
    await page.locator("#said", { hasText: "Headlamp position: low, beside the grille." }).waitFor();
    await page.locator("#plate", { hasText: "Built" }).waitFor();
    await saved(page);

    // Less sure, with a note.
    await page.locator("#sure-probable").click();
    await page.locator("#note").fill("under new paint");
    await tap(page, "#value-nine-bars");
    await saved(page);
    const grille = (await entries_of(page, job)).find((e) => e.name === "grille");
    assert.deepEqual([grille.fields.value, grille.fields.sure, grille.fields.note, grille.by], ["nine-bars", "probable", "under new paint", "AB"]);

    // The connection is cut: the answers stay on the phone, the page says so and goes on.
    await context.setOffline(true);
    await tap(page, "#state-cannot-tell");
    await tap(page, "#value-two-panes");
    await tap(page, "#value-one");
    await page.locator("#net", { hasText: "3 kept here" }).waitFor();
    assert.equal((await page.locator("#plate .who").textContent()).length > 0, true, "the lead stays in sight");
    const before = observed(await entries_of_server(shop, job, context));
    assert.equal(before.windscreen, undefined, "nothing of it has reached the book yet");

    // A reload without connection fails; when it is back the page opens and sends what it kept.
    await page.reload().catch(() => {});
    await context.setOffline(false);
    await page.goto(`${shop.url}/#/job/${job}/walk/front`);
    await saved(page);
    const after = observed(await entries_of(page, job));
    assert.deepEqual([after["bonnet-badge"], after.windscreen, after.wipers], ["cannot-tell", "two-panes", "one"]);

    // Undo takes the last one back; the history keeps it.
    await page.locator("#row-indicators").click();
    await tap(page, "#value-arms");
    await saved(page);
    await page.locator("#undo").click();
    await page.locator("#said", { hasText: "taken back" }).waitFor();
    await saved(page);
    const indicators = (await entries_of(page, job)).filter((e) => e.name === "indicators");
    assert.deepEqual(indicators.map((e) => e.fields?.value ?? null), ["arms", null]);

    // The best look, its reason on the card, and the next best after the tap.
    await page.locator("#tab-next").click();
    const first = page.locator(".check").first();
    const reason = await first.locator("> p").textContent();
    await first.locator("a").click();
    await page.locator(".card .reason", { hasText: reason }).waitFor();
    await tap(page, ".answers .answer >> nth=0");
    await page.waitForFunction(() => /card\/.*by=next/.test(location.hash));

    // Any regional word finds the feature: the pack says "bonnet", North America "hood".
    await page.locator("#tab-find").click();
    await page.locator("#search").fill("hood badge");
    await page.locator("#hit-bonnet-badge").waitFor();

    // The number of the chassis.
    await open(page, `#/job/${job}/number/chassis-number`);
    await page.locator("#number").fill("AC V 12?73");
    await page.locator("#number-read", { hasText: "Some of its signs could not be read" }).waitFor();
    await page.locator("#number").fill("AC V 12873");
    await page.locator("#number-read", { hasText: "By itself it says: built" }).waitFor();
    await page.locator("#keep-number").click();
    await saved(page);

    // Review, why, and the three reports as PDF.
    await page.locator("#tab-review").click();
    await page.locator("#why-headlamp-position").click();
    await page.getByRole("heading", { name: "Headlamp position" }).waitFor();
    await page.locator("ol.sources li").first().waitFor();
    await page.locator("tr", { hasText: "Without it" }).waitFor();
    await page.locator("#tab-review").click();
    for (const kind of ["pre-purchase", "intake", "owner"]) {
      const href = await page.locator(`#report-${kind}-pdf`).getAttribute("href");
      const pdf = await page.request.get(shop.url + href);
      assert.equal(pdf.status(), 200, href);
      assert.equal((await pdf.body()).subarray(0, 5).toString(), "%PDF-");
    }
    assert.deepEqual(trouble, []);
    await context.close();
  },

  "a picture taken without connection waits on the phone and arrives": async (shop) => {
    const { context, page } = await shop.device();
    const job = await begin(page, "aldermoor-carrier", "Van four");
    await open(page, `#/job/${job}/card/grille`);
    await context.setOffline(true);
    await page.locator("#picture").setInputFiles({ name: "grille.png", mimeType: "image/png", buffer: PIXEL });
    await page.locator(".pictures", { hasText: "kept on this device, not yet sent" }).waitFor();
    await context.setOffline(false);
    await page.locator(".pictures img[src^='/photo/']").waitFor();
    const kept = (await entries_of(page, job)).find((e) => e.kind === "photo");
    assert.deepEqual([kept.fields.file, kept.fields.feature], ["grille.png", "grille"]);
    await context.close();
  },

  "the workshop's computer stops and starts again: what was tapped meanwhile arrives": async (shop) => {
    const { context, page } = await shop.device();
    const job = await begin(page, "aldermoor-carrier", "Van two");
    await open(page, `#/job/${job}/card/headlamp-position`);
    await shop.stop();
    await tap(page, "#value-high");
    await tap(page, "#value-mesh");
    await page.locator("#net", { hasText: "2 kept here" }).waitFor();
    await shop.start(shop.port);
    // The session went with the old server: the page asks for a code, and nothing is lost by it.
    await page.getByRole("heading", { name: "Join this device" }).waitFor();
    await page.goto(await shop.code());
    await page.getByRole("heading", { name: "Which badge is on the bonnet?" }).waitFor();
    await page.waitForFunction(() => !Object.keys(localStorage).some((k) => k.startsWith("exworks.tap.")));
    const now = observed(await entries_of(page, job));
    assert.deepEqual([now["headlamp-position"], now.grille], ["high", "mesh"]);
    await context.close();
  },

  "what the server will not have is shown with its reason, and hinders nothing": async (shop) => {
    const { context, page } = await shop.device();
    const job = await begin(page, "aldermoor-carrier", "Van three");
    await open(page, `#/job/${job}/papers`);
    await page.locator("#add-claim").click();
    await page.locator("#claim-built").fill("the year of the flood");
    await page.locator("#keep-claim").click();
    await page.locator("#net", { hasText: "1 not taken" }).waitFor();
    await open(page, `#/job/${job}/card/grille`);
    await tap(page, "#value-mesh");
    await page.locator("#said", { hasText: "Grille" }).waitFor();
    await page.waitForFunction(() => !document.querySelector("#net").textContent.includes("sending"));
    assert.equal(observed(await entries_of(page, job)).grille, "mesh");
    await page.locator("#tab-review").click();
    await page.locator(".finding", { hasText: "the year of the flood" }).getByRole("button", { name: "Drop it" }).click();
    await saved(page);
    await context.close();
  },
});

/** Past the page whose connection is cut: Playwright's own requests ignore the cut. */
async function entries_of_server(shop, job, context) {
  const told = await context.request.get(`${shop.url}/api/jobs/${job}/history`);
  return (await told.json()).entries;
}
