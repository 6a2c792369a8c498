// Script in notes, names, initials and file names is shown as the text that it is, on every page and in the report.

import assert from "node:assert/strict";
import { PIXEL, run, begin, open, saved, tap } from "./support/workshop.mjs";

const NAME = "<script>alert(1)</script>\"><b id=\"planted\">";
const NOTE = "<img src=x onerror=alert(2)> ' onmouseover='alert(3) {{7*7}} javascript:alert(4)";
const FILE = "\"><svg onload=alert(5)>.png";

const planted = (page) => page.evaluate(() => document.querySelectorAll("#main img[src=x], #main script, #main svg[onload], [onerror], [onmouseover], #planted").length);

await run({
  "script in names, notes and file names is shown as text": async (shop) => {
    const { context, page, trouble } = await shop.device();
    const job = await begin(page, "aldermoor-carrier", NAME);
    assert.equal(await page.locator("#main .kind").textContent(), NAME);
    await open(page, `#/job/${job}/card/headlamp-position`);
    await page.locator("#note").fill(NOTE);
    await tap(page, "#value-low");
    await saved(page);
    await open(page, `#/job/${job}/card/headlamp-position`);
    assert.equal(await page.locator("#note").inputValue(), NOTE);
    await page.locator("#picture").setInputFiles({ name: FILE, mimeType: "image/png", buffer: PIXEL });
    await page.locator(".pictures img[src^='/photo/']").waitFor();
    assert.equal(await page.locator(".pictures .quiet").first().textContent(), FILE);
    await page.waitForFunction(() => document.querySelector(".pictures img").naturalWidth === 1);

    await open(page, `#/job/${job}/papers`);
    await page.locator("#about-owner").fill(NOTE);
    await page.locator("#about-owner").blur();
    await page.locator("#add-claim").click();
    await page.locator("#claim-by").fill("<i>seller</i>");
    await page.locator("#claim-built").fill("1954");
    await page.locator("#keep-claim").click();
    await page.locator(".finding", { hasText: "<i>seller</i>: built 1954" }).waitFor();
    await saved(page);
    for (const hash of ["walk", "card/headlamp-position", "papers", "review", "why/headlamp-position", "history", "history?of=headlamp-position"]) {
      await open(page, `#/job/${job}/${hash}`);
      assert.equal(await planted(page), 0, hash);
    }
    await page.locator(".history", { hasText: NOTE }).waitFor();
    await open(page, "#/jobs");
    await page.locator(`#job-${job}`, { hasText: NAME }).waitFor();

    const report = await context.newPage();
    report.on("dialog", (d) => { trouble.push(d.message()); d.dismiss(); });
    await report.goto(`${shop.url}/report/${job}?kind=owner&format=html`);
    assert.ok((await report.locator("body").textContent()).includes("<script>alert(1)</script>"));
    assert.equal(await report.locator("script, img[src=x], #planted").count(), 0);
    assert.deepEqual(trouble, []);
    await context.close();
  },

  "signs that turn the reading direction are shown as what they are": async (shop) => {
    const { context, page } = await shop.device();
    const job = await begin(page, "aldermoor-carrier", "Van");
    await open(page, `#/job/${job}/card/grille`);
    await page.evaluate(() => { document.querySelector("#note").value = "odd \u202egnp.exe"; document.querySelector("#note").dispatchEvent(new Event("change")); });
    await tap(page, "#value-mesh");
    await page.locator("#net").waitFor();
    await open(page, `#/job/${job}/card/grille`);
    const shown = await page.evaluate(() => document.querySelector("#main").textContent + document.querySelector("#strip").textContent);
    assert.equal(/[\u202a-\u202e]/.test(shown), false);
    await context.close();
  },
});
