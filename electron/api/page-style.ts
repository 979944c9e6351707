/**
 * The style of the pages that stand outside the screens, which a device sees before it may load any file: the colours of
 * `renderer/look/tokens.css` and the device's own type. The code stands over eight ruled cells, one for each character.
 */
export const PAGE_STYLE = `
:root {
  color-scheme: light dark;
  --ground: light-dark(#f4f1ea, #15181a);
  --raised: light-dark(#ffffff, #262b2e);
  --ink: light-dark(#1c2226, #ece7db);
  --quiet: light-dark(#444b50, #c0bdb2);
  --line: light-dark(#cbc6b8, #3b4042);
  --edge: light-dark(#767a76, #7d8080);
  --accent: light-dark(#b23c17, #e8835a);
  --accent-tint: light-dark(#f5e4db, #3a2318);
  --focus: light-dark(#0b57d0, #9cc4ff);
}
* { box-sizing: border-box; margin: 0; }
html {
  background: var(--ground);
  color: var(--ink);
  font: 400 1.0625rem/1.45 system-ui, sans-serif;
  -webkit-text-size-adjust: 100%;
}
header, main { width: min(100% - 2.5rem, 30rem); margin-inline: auto; }
header {
  display: flex;
  align-items: center;
  gap: 0.625rem;
  padding: 1.25rem 0 0.875rem;
  border-bottom: 2px solid var(--ink);
  font-weight: 680;
  font-size: 1.125rem;
}
.cut { stroke: var(--accent); }
main { padding: 1.75rem 0 3rem; }
h1 { font-size: 1.75rem; line-height: 1.15; letter-spacing: -0.01em; margin-bottom: 0.75rem; }
h2 { font-size: 1rem; margin-bottom: 0.25rem; }
.lead { color: var(--quiet); }
.lead + .lead { margin-top: 0.5rem; }
form { display: grid; gap: 1.5rem; margin-block: 1.75rem 2.25rem; }
.field { display: grid; gap: 0.25rem; }
label { font-weight: 640; }
.hint { color: var(--quiet); font-size: 0.9375rem; line-height: 1.4; }
input {
  width: 100%;
  min-height: 3.25rem;
  padding: 0.25rem 0.75rem;
  border: 1px solid var(--edge);
  border-bottom: 2px solid var(--ink);
  border-radius: 2px 2px 0 0;
  background: var(--raised);
  color: inherit;
  font: inherit;
}
.code {
  --cell: 1.5ch;
  width: calc(8 * var(--cell) + 0.5ch);
  max-width: 100%;
  min-height: 4rem;
  padding: 0 0 0 0.5ch;
  border: 0;
  border-radius: 0;
  background:
    repeating-linear-gradient(90deg, var(--ink) 0 1ch, transparent 1ch var(--cell)) 0.5ch 100% / 100% 3px no-repeat,
    linear-gradient(var(--accent), var(--accent)) 0 0 / 3px 100% no-repeat,
    var(--raised);
  font: 600 2.125rem/1 ui-monospace, 'SF Mono', Menlo, Consolas, 'Roboto Mono', 'DejaVu Sans Mono', monospace;
  letter-spacing: 0.5ch;
  text-transform: uppercase;
}
button {
  min-height: 3.5rem;
  padding: 0.5rem 1.5rem;
  border: 0;
  border-radius: 2px;
  background: var(--ink);
  color: var(--ground);
  font: inherit;
  font-weight: 640;
  cursor: pointer;
}
button:active { transform: translateY(1px); }
input:focus-visible, button:focus-visible { outline: 3px solid var(--focus); outline-offset: 2px; }
.refused { padding: 0.75rem 1rem; border-left: 3px solid var(--accent); background: var(--accent-tint); }
section { padding-top: 1.25rem; border-top: 1px solid var(--line); }
section p { color: var(--quiet); font-size: 0.9375rem; }
`
