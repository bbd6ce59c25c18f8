/** Every row of a table a card, each cell under the heading of its column. */
const cards = (table: string) => `
  ${table} thead { display: none; }
  ${table}, ${table} :is(tbody, tr, th, td) { display: block; }
  ${table} tr { border-bottom: 1px solid #6b737c; padding: .5rem 0; }
  ${table} tbody :is(th, td) { display: flow-root; border: 0; padding: .12rem 0 .12rem 9.6rem; }
  ${table} tbody :is(th, td)::before { content: attr(data-label); float: left; width: 9rem; margin-left: -9.6rem; color: #4a5159; }
  ${table} tbody td:empty { display: none; }
`;

/** Style of a notebook's page: readable on a phone, a desk screen and paper. */
export const notebookStyle = `
body { margin: 0; background: #fff; color: #1c2024; font: 16px/1.55 system-ui, sans-serif; }
main { max-width: 60rem; margin: 0 auto; padding: 1rem; }
h1, h2, h3 { line-height: 1.2; margin: 2rem 0 .75rem; }
h1 { font-size: 1.7rem; margin-top: .5rem; }
h2 { font-size: 1.3rem; }
h3 { font-size: 1.1rem; }
pre { font: .85rem/1.45 ui-monospace, monospace; white-space: pre-wrap; overflow-wrap: anywhere; margin: .5rem 0; }
code { font: .9em ui-monospace, monospace; }
.code { background: #f4f5f7; border-left: 3px solid #c9ced6; padding: .6rem .8rem; }
.code code { font-size: inherit; }
.answer { border-left: 4px solid #1d5fa6; padding: .1rem 0 .1rem 1rem; margin: 1rem 0 1.5rem; }
.stdout p { margin: .35rem 0; }
.stdout p.further { padding-left: 1.2rem; }
.answer .stdout:first-child > p:first-child { font-weight: 600; }
.stdout p:not(.further):has(+ .further) { font-weight: 600; margin-top: 1rem; }
.answer .stdout, .answer .stderr { font: 1.05rem/1.5 system-ui, sans-serif; margin: .75rem 0; }
details { margin: .5rem 0; }
summary { cursor: pointer; width: fit-content; padding: .25rem 0; color: #4a5159; font-size: .85rem; }
.stderr { color: #8a2b12; }
.cell { margin: .75rem 0; }
figure { margin: 1rem 0; }
img { max-width: 100%; height: auto; }
blockquote { margin: 1rem 0; padding-left: 1rem; border-left: 3px solid #c9ced6; color: #4a5159; }
table { border-collapse: collapse; margin: .75rem 0; font-variant-numeric: tabular-nums; }
th, td { padding: .3rem .8rem .3rem 0; border-bottom: 1px solid #dde1e6; text-align: left; vertical-align: top; }
th { border-bottom-color: #6b737c; }
td { overflow-wrap: break-word; }
.display { overflow-x: auto; }
/* A table of many columns goes on into the margin at its right. */
@media screen and (min-width: 1100px) { .display:has(th:nth-child(9)) { width: calc(50% + 46vw); } }
@media screen and (max-width: 960px) { table { font-size: .85rem; } }
@media screen and (max-width: 640px) { ${cards('table.cards')} }
@media screen and (max-width: 960px) { ${cards('table.cards:has(th:nth-child(6))')} }
@media screen and (min-width: 641px) and (max-width: 960px) { table.cards:has(th:nth-child(6)) tbody { display: grid; grid-template-columns: 1fr 1fr; gap: 0 2rem; } }
@media print { ${cards('table.cards:has(th:nth-child(9))')} table.cards:has(th:nth-child(9)) tbody { display: grid; grid-template-columns: 1fr 1fr; gap: 0 2rem; } }
@page { margin: 14mm 15mm; }
@media print {
  body { font-size: 10pt; line-height: 1.4; } main { max-width: none; padding: 0; }
  h1 { font-size: 17pt; } h2 { font-size: 12.5pt; margin: 1.1rem 0 .4rem; } h1, h2, h3, thead, figcaption { break-after: avoid; }
  details:not([open]) { display: none; } .answer .stdout { font-size: 10pt; line-height: 1.4; } .answer { margin: .5rem 0; } pre, .stdout { font-size: 8.5pt; }
  table { font-size: 8.5pt; } th, td { padding: .15rem .6rem .15rem 0; } figure, tr { break-inside: avoid; }
}
`;
