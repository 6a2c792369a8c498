// Every page: valid HTML, no accessibility violation in light and dark, nothing wider than a phone, nothing fetched, nothing run.
// Every PDF: text, bookmarks, and the same bytes again.
import assert from 'node:assert/strict'
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { HtmlValidate } from 'html-validate'
import { chromium } from 'playwright-core'
import { makePages } from './pages.mjs'

const command = resolve(process.argv[2] ?? '../../build/release/cli/exworks')
const folder = mkdtempSync(join(tmpdir(), 'exworks-reports-'))
const axe = readFileSync(new URL('./node_modules/axe-core/axe.min.js', import.meta.url), 'utf8')
const problems = []
const problem = (page, text) => problems.push(`${page}: ${text}`)

// The recommended rules, without those about the style of writing HTML; the pages are made by a program.
const validator = new HtmlValidate({ extends: ['html-validate:standard'], rules: { 'no-inline-style': 'off', 'no-trailing-whitespace': 'off', 'long-title': 'off' } })

async function validate(page) {
  const report = await validator.validateFile(page.file)
  for (const result of report.results) {
    for (const m of result.messages) problem(page.name, `line ${m.line}: ${m.message} (${m.ruleId})`)
  }
}

async function look(browser, page) {
  const context = await browser.newContext()
  const tab = await context.newPage()
  tab.on('request', (r) => { if (!r.url().startsWith('file:') && !r.url().startsWith('data:')) problem(page.name, `it fetches ${r.url()}`) })
  tab.on('dialog', (d) => { problem(page.name, 'a script ran'); d.dismiss() })
  // A hostile page is the same page with other words: one look is enough.
  for (const [scheme, width] of page.hostile ? [['light', 390]] : [['light', 390], ['dark', 1000]]) {
    await tab.emulateMedia({ colorScheme: scheme })
    await tab.setViewportSize({ width, height: 900 })
    await tab.goto(pathToFileURL(page.file).href)
    if ((await tab.title()) === 'owned') problem(page.name, 'a script of the inspection ran')
    const over = await tab.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
    if (over > 0) problem(page.name, `${over} px wider than ${width} px`)
    await tab.evaluate(axe)
    const found = await tab.evaluate(() => window.axe.run(document, { resultTypes: ['violations'] }))
    if (found.passes.length < 10) problem(page.name, `only ${found.passes.length} rules were looked at`)
    for (const v of found.violations) problem(page.name, `${scheme}, ${width} px: ${v.id}: ${v.help}: ${v.nodes[0].target} ${v.nodes[0].html.slice(0, 120)}`)
  }
  await context.close()
}

function checkPdf(page, run) {
  const bytes = readFileSync(page.file)
  const text = execFileSync('pdftotext', [page.file, '-'], { encoding: 'utf8' })
  const html = readFileSync(page.file.replace(/pdf$/, 'html'), 'utf8')
  const squeeze = (s) => s.replaceAll(/\s+/g, '').toLowerCase()
  const heading = html.match(/<h1[^>]*>([^<]*)/)[1]
  if (!squeeze(text).includes(squeeze(heading))) problem(page.name, `its text lacks the heading '${heading}'`)
  if (text.length < 500) problem(page.name, `only ${text.length} letters of text`)
  if (!bytes.includes('/Outlines')) problem(page.name, 'no bookmarks')
  rmSync(page.file)
  run(...page.args, '-o', page.file)
  if (!readFileSync(page.file).equals(bytes)) problem(page.name, 'made twice, other bytes')
}

// A page with known faults must be faulted, or the checks above say nothing.
async function selfTest(browser) {
  const file = join(folder, 'faults.html')
  writeFileSync(file, '<!DOCTYPE html><html><head><title>x</title></head><body style="width:3000px"><img src="https://a.example/x.png"><p style="color:#ccc;background:#fff">pale</p><p>a<p></div><script>alert(1)</script>')
  const before = problems.length
  await validate({ name: 'faults', file })
  await look(browser, { name: 'faults', file })
  const said = problems.splice(before).join('\n')
  for (const wanted of ['image-alt', 'color-contrast', 'it fetches', 'wider than', 'a script ran', 'close-order']) assert(said.includes(wanted), `the checks no longer find: ${wanted}\n${said}`)
}

const started = Date.now()
try {
  const { pages, run } = makePages(command, folder)
  const html = pages.filter((p) => p.name.endsWith('.html'))
  for (const page of html) await validate(page)
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  })
  for (const page of html) await look(browser, page)
  await selfTest(browser)
  await browser.close()
  const pdfs = pages.filter((p) => p.name.endsWith('.pdf'))
  for (const page of pdfs) checkPdf(page, run)
  assert(html.length >= 12 && pdfs.length >= 5)
  console.log(`${html.length} pages in light and dark, ${pdfs.length} PDFs; ${problems.length} problems; ${Math.round((Date.now() - started) / 1000)} s`)
} finally {
  rmSync(folder, { recursive: true })
}
for (const p of problems) console.error(p)
process.exit(problems.length === 0 ? 0 : 1)
