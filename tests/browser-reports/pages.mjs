// Makes the pages to look at: three samples in every kind, a hostile inspection, sheets and timelines.
import { execFileSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'

const root = join(import.meta.dirname, '..', '..')
export const date = '2026-11-25'
export const kinds = ['pre-purchase', 'intake', 'owner']
export const samples = ['morris-minor-1950-saloon', 'carrier-gearbox-from-a-later-van', 'carrier-number-and-vehicle-disagree']
const sample = (name) => join(root, 'sample-vehicles', `${name}.xml`)

// Prices are invented.
const sales = `date,price,currency,year,variant,condition,originality,note
2026-05,6500,GBP,1950,mm-2dr,2,80,auction
2025-11,5200,GBP,1951,mm-2dr,3,60,
2025-02,4100,GBP,1949,,4,,
2024-02,7100,GBP,1950,,1,,"a ""good"" one, <b>boxed</b>"
2026-01,5600,GBP,1952,,3,,
`

export const evil = `</title></style><script>document.title='owned'</script><img src=x onerror="document.title='owned'">" onload="x" ' &amp;`

function hostileInspection() {
  const a = evil.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;')
  return `<inspection format="1" family="aldermoor-carrier" date="2026-11-20" by="${a}"><vehicle name="${a}" reference="${a}"><note>${a}</note></vehicle>
<claimed by="${a}" built="1953" note="${a}"/><document kind="letter" date="1953" note="${a}"/><number id="chassis-number" text="AC V 8205${a}" note="${a}"/>
<code kind="tyre" text="346" note="${a}"/>
<observed feature="headlamp-position" value="high" note="${a}" photo="${a}"/><observed feature="windscreen" value="two-panes" note="${a}"/>
<observed feature="grille" state="missing" note="${a}"/><observed feature="heater" state="cannot-tell" note="${a}"/></inspection>`
}

export function makePages(command, folder) {
  const run = (...args) => execFileSync(command, args, { stdio: ['ignore', 'pipe', 'pipe'] })
  writeFileSync(join(folder, 'sales.csv'), sales)
  writeFileSync(join(folder, 'hostile.xml'), hostileInspection())
  const pages = []
  const make = (name, args, extra = {}) => {
    const file = join(folder, name)
    run(...args, '-o', file)
    pages.push({ name, file, args, ...extra })
  }
  for (const kind of kinds) {
    for (const name of samples) {
      const value = kind === 'owner' ? ['--sales', join(folder, 'sales.csv'), '--rate', '60', '--condition', '3'] : []
      for (const form of name === samples[0] ? ['html', 'pdf'] : ['html']) make(`${name}-${kind}.${form}`, ['report', sample(name), '--kind', kind, '--date', date, ...value])
    }
    make(`hostile-${kind}.html`, ['report', join(folder, 'hostile.xml'), '--kind', kind, '--date', date], { hostile: true })
  }
  make('us-intake.html', ['report', sample(samples[1]), '--kind', 'intake', '--terms', 'en-US', '--date', date])
  for (const form of ['html', 'pdf']) {
    make(`sheet-short.${form}`, ['sheet', 'morris-minor', '--minutes', '20', '--date', date])
    make(`timeline.${form}`, ['pack', 'timeline', join(root, 'rules', 'aldermoor-carrier')])
  }
  make('sheet-full.html', ['sheet', 'aldermoor-carrier', '--date', date])
  return { pages, run }
}
