// One workshop for a test: the built program with a book of its own, and devices (browser contexts) that join it.

import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { chromium } from "playwright-core";

export const PHONE = { width: 390, height: 844 };
/** The smallest picture: 1 x 1 pixel (PNG, ISO/IEC 15948). */
export const PIXEL = Buffer.from("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==", "base64");

// Without these Chromium looks for hosts outside, which the tests must not.
const FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];

export class Workshop {
  static async open() {
    const shop = new Workshop();
    shop.folder = mkdtempSync(join(tmpdir(), "exworks-browser-"));
    shop.browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: FLAGS });
    await shop.start(0);
    return shop;
  }

  /** Each line that the program prints is a code for one more device. */
  async start(port) {
    this.codes = [];
    this.program = spawn(process.env.EXWORKS_BINARY, ["serve", "--port", String(port), "--json", "--book", join(this.folder, "book.db")], { stdio: ["ignore", "pipe", "inherit"], env: { ...process.env, XDG_STATE_HOME: this.folder } });
    this.ended = new Promise((done) => this.program.once("exit", done));
    await new Promise((ready, fail) => {
      createInterface({ input: this.program.stdout }).on("line", (line) => {
        const told = JSON.parse(line);
        this.port = told.port;
        this.codes.push(told.url);
        this.next_code?.();
        ready();
      });
      this.program.once("exit", (code) => fail(new Error(`the server ended with ${code} before it answered`)));
    });
    this.url = `http://127.0.0.1:${this.port}`;
  }

  async stop() {
    this.program.kill("SIGTERM");
    return this.ended;
  }

  async code() {
    while (this.codes.length === 0) await new Promise((done) => { this.next_code = done; });
    return this.codes.shift();
  }

  /** A phone that has joined. Whatever goes wrong in its script fails the test that asks `trouble`. */
  async device(options = {}) {
    const context = await this.browser.newContext({ viewport: PHONE, reducedMotion: "reduce", ...options });
    const page = await context.newPage();
    const trouble = [];
    page.on("pageerror", (e) => trouble.push(String(e)));
    page.on("dialog", (d) => { trouble.push(`a dialog: ${d.message()}`); d.dismiss(); });
    page.on("request", (r) => { if (!r.url().startsWith(this.url) && !/^(blob|data):/.test(r.url())) trouble.push(`a request outside: ${r.url()}`); });
    page.on("console", (m) => { if (m.type() === "error" && !/net::ERR_(INTERNET_DISCONNECTED|FAILED|CONNECTION_REFUSED)/.test(m.text())) trouble.push(m.text()); });
    await page.goto(await this.code());
    await page.getByRole("heading", { name: "Which vehicle?" }).waitFor();
    return { context, page, trouble };
  }

  async close() {
    await this.browser.close();
    if (this.program.exitCode === null) await this.stop();
    rmSync(this.folder, { recursive: true, force: true });
  }
}

/** From the first page to the walk round of a new job. Returns the job's number. */
export async function begin(page, family, name) {
  await page.locator("#begin").click();
  await page.locator(`#family-${family}`).click();
  await page.locator("#job-name").fill(name);
  await page.locator("#job-by").fill("AB");
  await page.locator("#start").click();
  await page.getByRole("heading", { name: "Where are you standing?" }).waitFor();
  return Number(page.url().match(/#\/job\/(\d+)/)[1]);
}

export async function open(page, hash) {
  await page.evaluate((h) => { location.hash = h; }, hash);
  await page.waitForFunction(() => !document.querySelector("#main").hasAttribute("aria-busy"));
}

/** Runs one test after the other; the workshop is closed whatever happens. */
export async function run(tests) {
  const shop = await Workshop.open();
  try {
    for (const [words, test] of Object.entries(tests)) {
      await test(shop);
      console.log(`passed: ${words}`);
    }
  } finally {
    await shop.close();
  }
}

/** Until the page says that nothing waits any more. */
export const saved = (page) => page.locator("#net", { hasText: "saved" }).waitFor();

/** Taps an answer of a card and waits until the next page is there. */
export async function tap(page, selector) {
  const before = page.url();
  await page.locator(selector).click();
  await page.waitForFunction((url) => location.href !== url && !document.querySelector("#main").hasAttribute("aria-busy"), before);
}

/** What the book holds of a job, asked past the pages. */
export async function entries_of(page, job) {
  const told = await page.request.get(new URL(`/api/jobs/${job}/history`, page.url()).href);
  return (await told.json()).entries;
}
