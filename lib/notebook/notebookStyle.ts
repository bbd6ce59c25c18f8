/** Style of a notebook's page: readable on a phone, a desk screen and paper. */
export const notebookStyle = `
body { margin: 0; background: #fff; color: #1c2024; font: 16px/1.55 system-ui, sans-serif; }
main { max-width: 60rem; margin: 0 auto; padding: 1rem; }
h1, h2, h3 { line-height: 1.2; margin: 2rem 0 .75rem; }
h1 { font-size: 1.7rem; margin-top: .5rem; }
h2 { font-size: 1.3rem; }
h3 { font-size: 1.1rem; }
pre { font: .85rem/1.45 ui-monospace, monospace; overflow-x: auto; margin: .5rem 0; }
code { font: .9em ui-monospace, monospace; }
.code { background: #f4f5f7; border-left: 3px solid #c9ced6; padding: .6rem .8rem; }
.code code { font-size: inherit; }
.stdout, .stderr { white-space: pre-wrap; overflow-wrap: anywhere; }
.stderr { color: #8a2b12; }
.cell { margin: .75rem 0; }
.display { overflow-x: auto; }
figure { margin: 1rem 0; }
.caption { font-weight: 600; margin: 1.25rem 0 .25rem; }
img { max-width: 100%; height: auto; }
blockquote { margin: 1rem 0; padding-left: 1rem; border-left: 3px solid #c9ced6; color: #4a5159; }
table { border-collapse: collapse; margin: .75rem 0; font-variant-numeric: tabular-nums; }
th, td { padding: .3rem .8rem .3rem 0; border-bottom: 1px solid #dde1e6; text-align: left; vertical-align: top; }
th { border-bottom-color: #6b737c; }
@media screen and (max-width: 640px) { .display table { font-size: .85rem; } th, td { min-width: 5rem; } }
@media print { main { max-width: none; padding: 0; } pre { white-space: pre-wrap; } figure, tr { break-inside: avoid; } }
`;
