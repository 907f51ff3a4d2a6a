/** The report's one style sheet: black on warm white, one accent, tabular figures; colour only where it is the data. */
export const STYLE = `
:root { --ground: #fbf8f1; --ink: #1d1b17; --soft: #5c574c; --line: #d8d1c2; --accent: #7a3b16; --panel: #f4efe3; }
* { box-sizing: border-box; }
body { margin: 0; background: var(--ground); color: var(--ink); font: 1rem/1.5 Georgia, "Times New Roman", serif; }
main { max-width: 72rem; margin: 0 auto; padding: 1.5rem 1rem 4rem; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .3rem; }
h2 { font-size: 1.2rem; margin: 2.2rem 0 .6rem; border-bottom: 2px solid var(--accent); padding-bottom: .15rem; }
h3 { font-size: 1rem; margin: 1.2rem 0 .3rem; }
p, li { max-width: 46rem; }
.soft { color: var(--soft); }
.figure { font-variant-numeric: tabular-nums lining-nums; white-space: nowrap; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums lining-nums; font-size: .92rem; }
caption { text-align: left; color: var(--soft); padding: .2rem 0 .5rem; }
th, td { text-align: left; vertical-align: top; padding: .35rem .6rem .35rem 0; border-bottom: 1px solid var(--line); }
td.number, th.number { text-align: right; }
.swatches { display: inline-flex; border: 1px solid var(--line); }
.swatches svg { display: block; }
.pictures { display: grid; grid-template-columns: repeat(auto-fit, minmax(15rem, 1fr)); gap: 1rem; }
.pictures figure { margin: 0; }
.pictures img { width: 100%; height: auto; display: block; border: 1px solid var(--line); background: var(--panel); }
figcaption { font-size: .9rem; color: var(--soft); padding-top: .3rem; }
.legend svg { width: 100%; max-width: 30rem; height: auto; }
.note { border-left: 3px solid var(--accent); padding: .1rem 0 .1rem .8rem; margin: .6rem 0; }
a { color: var(--accent); }
:focus-visible { outline: 3px solid var(--accent); outline-offset: 2px; }
@media print {
  body { background: #fff; font-size: 10pt; }
  main { max-width: none; padding: 0; }
  h2 { break-after: avoid; }
  tr, figure { break-inside: avoid; }
  .pictures { grid-template-columns: repeat(3, 1fr); }
  .scroll { overflow: visible; }
  .only-screen { display: none; }
}
@media (prefers-reduced-motion: reduce) { * { transition: none !important; animation: none !important; } }
`;
