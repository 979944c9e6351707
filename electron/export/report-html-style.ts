import type { Tone } from '../../domain/drawing/shapes.ts'
import { ACCENT_TINT, paperTones, RULE } from '../print/tones.ts'

/** The dark look (renderer/look/tokens.css; a test keeps the two together). */
export const darkTones: Readonly<Record<Tone, string>> = {
  ink: '#ece7db',
  quiet: '#c0bdb2',
  line: '#7d8080',
  sheet: '#1d2123',
  steel: '#5b6467',
  primer: '#46593f',
  coat: '#93ab79',
  sealer: '#c9a24b',
  rust: '#b9754a',
  accent: '#e8835a',
  passed: '#7cc4bf',
}

/** Ground of what the owner must answer, in the dark. */
export const DARK_TINT = '#3a2318'
const DARK_RULE = '#3b4042'

const properties = (tones: Readonly<Record<string, string>>): string =>
  Object.entries(tones)
    .map(([name, colour]) => `--${name}:${colour}`)
    .join(';')

/** The style of a report that leaves as one file, for phones first; light or dark as the phone is. */
export const REPORT_STYLE = `
:root{color-scheme:light dark;${properties({ ...paperTones, rule: RULE, tint: ACCENT_TINT })}}
@media (prefers-color-scheme:dark){:root{${properties({ ...darkTones, rule: DARK_RULE, tint: DARK_TINT })}}}
*{box-sizing:border-box}
body{margin:0;padding:1.25rem 1rem 2.5rem;background:var(--sheet);color:var(--ink);font:1.0625rem/1.5 system-ui,sans-serif;overflow-wrap:break-word;-webkit-text-size-adjust:100%}
main,footer{max-width:44rem;margin:0 auto}
p,ul{margin:0 0 .75rem}
p{white-space:pre-line}
ul{padding-left:1.25rem}
li{margin-bottom:.25rem}
h1,h2,h3{margin:0;line-height:1.25}
h1{margin-top:1rem;font-size:1.625rem}
h2{margin-bottom:.5rem;font-size:1.25rem}
h3{margin:1rem 0 .25rem;font-size:1.0625rem}
header p{margin:0}
header{margin-bottom:1.25rem}
header .stamp{display:inline-block;margin-bottom:.75rem;padding:.25rem .625rem;border:2px solid var(--accent);font-weight:700}
.quiet,footer,figcaption{color:var(--quiet)}
section{margin-top:1.75rem;padding-top:1rem;border-top:1px solid var(--rule)}
figure{margin:0 0 1rem}
figcaption{margin-top:.25rem;font-size:.9375rem;line-height:1.4}
img,svg{display:block;width:100%;height:auto}
.drawn{max-width:30rem}
svg{font-family:system-ui,sans-serif}
.gone{margin:0;padding:2rem 1rem;border:1px dashed var(--line);text-align:center}
.question{margin:1rem 0;padding:.75rem 1rem;border-left:4px solid var(--accent);background:var(--tint)}
.question h3{margin-top:0}
.question figcaption{color:var(--ink)}
.wide{margin-bottom:1rem;overflow-x:auto}
table{width:100%;border-collapse:collapse;font-variant-numeric:tabular-nums}
th,td{padding:.375rem .5rem .375rem 0;border-bottom:1px solid var(--rule);text-align:right;vertical-align:top}
th:first-child{text-align:left;font-weight:400}
thead th,thead th:first-child,.total th,.total td{font-weight:700}
td{white-space:nowrap}
footer{margin-top:1.75rem;padding-top:1rem;border-top:2px solid var(--ink);font-size:.9375rem}
@media (min-width:40rem){.pair{display:grid;grid-template-columns:1fr 1fr;gap:1rem}}
@media print{body{padding:0}}
`
