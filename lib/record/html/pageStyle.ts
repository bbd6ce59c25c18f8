/** Style of a record's page: dark on white, one column, cards instead of wide tables on a phone, made to print. */
export const PAGE_STYLE = `
:root { --ink: #1d2127; --quiet: #5a616b; --rule: #dfe2e7; --tone: #1d2127; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; background: #fff; color: var(--ink); font: 16px/1.5 system-ui, -apple-system, "Segoe UI", Roboto, "Liberation Sans", "Helvetica Neue", Arial, sans-serif; overflow-wrap: break-word; }
main { max-width: 57rem; margin: 0 auto; padding: 1rem 1.25rem 3rem; }
p, ul, dl, table { margin: 0 0 .75rem; }
h1, h2, h3 { line-height: 1.2; text-wrap: balance; }
h2 { font-size: 1.2rem; margin: 2.4rem 0 .7rem; }
h3 { font-size: 1rem; margin: 1.3rem 0 .4rem; }
ul { padding-left: 1.15rem; }
li { margin: .2rem 0; }
header { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 0 1.5rem; color: var(--quiet); font-size: .875rem; border-bottom: 1px solid var(--rule); margin-bottom: 1.1rem; }
header p { margin: 0 0 .5rem; }
.kept { --tone: #0b6a4c; } .uncertain { --tone: #855400; } .lost { --tone: #a3271b; }
.sign { width: 1.1em; height: 1.1em; flex: none; fill: none; stroke: currentColor; stroke-width: 2; stroke-linecap: round; stroke-linejoin: round; }
.verdict h1 { display: flex; align-items: center; gap: .5rem; font-size: clamp(1.6rem, 1.2rem + 1.9vw, 2.3rem); margin: 0 0 .6rem; color: var(--tone); }
.verdict h1 span { min-width: 0; }
.verdict h1 .sign { align-self: flex-start; margin-top: .06em; }
.lead { font-size: 1.125rem; line-height: 1.4; max-width: 44rem; }
.why { max-width: 44rem; }
.numbers { display: flex; flex-wrap: wrap; gap: .6rem 2.2rem; margin: 1rem 0 .6rem; }
.numbers dt, .sheet dt { color: var(--quiet); font-size: .8125rem; }
.numbers dd { margin: 0; font-weight: 600; font-variant-numeric: tabular-nums; }
.picture { margin: 1.4rem 0 0; }
.picture h2 { margin: 0 0 .3rem; font-size: 1rem; }
table { width: 100%; border-collapse: collapse; font-size: .9375rem; font-variant-numeric: tabular-nums; }
th, td { text-align: left; vertical-align: top; padding: .45rem 1rem .45rem 0; border-bottom: 1px solid var(--rule); font-weight: 400; }
th:last-child, td:last-child { padding-right: 0; }
thead th { color: var(--quiet); font-size: .8125rem; border-bottom-color: #9aa1ab; }
tbody th { font-weight: 600; }
tbody th { min-width: 5.5rem; }
.word { white-space: nowrap; }
.word { display: inline-flex; align-items: center; gap: .35rem; color: var(--tone); font-weight: 600; }
.bar { display: block; width: 132px; height: 16px; margin-top: .15rem; }
.bar .rail { stroke: #c9ced6; } .bar .band { fill: #aab2bd; } .bar .value { fill: var(--ink); } .bar .needed { stroke: var(--ink); stroke-width: 1.4; }
.note { color: var(--quiet); font-size: .875rem; max-width: 44rem; }
.sheet { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(15rem, 100%), 1fr)); gap: .55rem 2rem; }
.sheet div, .numbers div { min-width: 0; }
.sheet dd { margin: 0; }
.hash { font: .8125rem/1.5 ui-monospace, "Liberation Mono", Menlo, monospace; }
.disposition { font-size: 1.25rem; font-weight: 600; }
.disposition::first-letter { text-transform: uppercase; }
.against { border-left: 3px solid #855400; padding-left: .7rem; }
.choices { display: flex; flex-wrap: wrap; gap: .2rem 1.4rem; margin: 0 0 .5rem; padding: 0; list-style: none; }
.choices li::before { content: ''; display: inline-block; width: .8em; height: .8em; margin-right: .4em; border: 1px solid var(--ink); vertical-align: -.06em; }
.blank { border-bottom: 1px solid var(--ink); min-height: 1.7rem; color: var(--quiet); font-size: .875rem; }
.annex { border-top: 3px solid var(--ink); margin-top: 2.5rem; padding-top: .6rem; }
.annex > h2:first-child { font-size: 1.5rem; margin-top: .6rem; }
.sign-off { display: grid; grid-template-columns: 3fr 1fr; gap: 0 2rem; margin-top: 1.2rem; font-size: .875rem; color: var(--quiet); }
.sign-off span { display: block; min-height: 1.6rem; border-bottom: 1px solid var(--ink); color: var(--ink); font-size: 1rem; margin-bottom: .2rem; }
@media screen and (max-width: 640px) {
  main { padding: .75rem 1rem 2rem; }
  header { display: block; margin-bottom: .8rem; } header p { margin-bottom: .3rem; }
  .lead { font-size: 1.0625rem; } .why { font-size: .9375rem; }
  .numbers { display: grid; grid-template-columns: 1fr 1fr; gap: .5rem 1rem; margin: .8rem 0; } .numbers dd { font-size: .9375rem; }
}
@media screen and (max-width: 860px) {
  thead { display: none; }
  table, tbody, tr, th, td { display: block; }
  tr { border-bottom: 1px solid var(--rule); padding: .5rem 0; }
  tbody th, tbody td { border: 0; padding: .12rem 0; }
  tbody td { display: flow-root; padding-left: 8.8rem; }
  tbody td::before { content: attr(data-label); float: left; width: 8.2rem; margin-left: -8.8rem; color: var(--quiet); font-size: .8125rem; line-height: 1.7; }
  tbody td:empty { display: none; }
}
.large { display: none; }
@page { margin: 12mm 16mm; }
@media print {
  body { font-size: 10pt; } main { max-width: none; padding: 0; }
  h2 { margin-top: 1.5rem; } h2, h3, thead { break-after: avoid; }
  table { font-size: 9pt; } .note { font-size: 8.5pt; }
  tr, li, figure, .keep, .verdict, .signing, .numbers > div, .sheet > div { break-inside: avoid; } p, .sheet dd { orphans: 2; widows: 2; }
  .verdict h1 { font-size: 20pt; }
  .annex { break-before: page; border-top: 0; margin-top: 0; padding-top: 0; }
  /* The picture takes what the rest leaves of the sheet; large it stands in the annex. */
  .large { display: block; } .large svg { width: 100%; height: auto; }
  .story { display: flex; flex-direction: column; min-height: calc(100vh - 2mm); font-size: 8.5pt; line-height: 1.3; }
  .story .picture { flex: 1 1 36mm; min-height: 36mm; } .story .picture, .story figure.plot, .story figure.plot .still.wide { display: flex !important; flex-direction: column; }
  .story figure.plot, .story figure.plot .still.wide, .story .still.wide svg { flex: 1 1 0; min-height: 0; }
 .story .verdict h1 { font-size: 17pt; margin-bottom: .3rem; }
  .story h2, .story .picture h2 { margin: .5rem 0 .2rem; font-size: 10.5pt; } .story .picture { margin-top: .3rem; }
  .story p, .story ul, .story dl { margin-bottom: .25rem; } .story li { margin: .1rem 0; } .story .lead { font-size: 10pt; }
  .story .numbers { margin: .25rem 0; gap: .2rem 1.1rem; } .story .numbers dt { font-size: 7pt; } .story .numbers dd { font-size: 8.5pt; } .story .note { font-size: 7.5pt; }
  .story .lead, .story .why, .story .note { max-width: none; } .story .disposition { font-size: 10.5pt; }
  .story table { font-size: 8pt; } .story th, .story td { padding: .12rem .7rem .12rem 0; } .story thead th { font-size: 7.5pt; } .story tbody th { min-width: 0; }
  .story .blank { min-height: 1.4rem; font-size: 8pt; } .story header { font-size: 7.5pt; margin-bottom: .4rem; } .story .sign-off { margin-top: .3rem; font-size: 7.5pt; } .story .sign-off span { min-height: 1.4rem; }
}
`;
