/** The report's one style sheet: black on warm white, one accent, tabular figures; colour only where it is the data. */
export const STYLE = `
:root { --ground: #fbf8f1; --ink: #1d1b17; --soft: #5c574c; --line: #d8d1c2; --accent: #7a3b16; --panel: #f4efe3; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0; background: var(--ground); color: var(--ink); font: 1rem/1.5 Georgia, "Times New Roman", "Liberation Serif", serif; }
main { max-width: 76rem; margin: 0 auto; padding: 1.5rem 1rem 4rem; }
h1 { font-size: 1.8rem; line-height: 1.2; margin: 0 0 .4rem; overflow-wrap: anywhere; }
h2 { font-size: 1.25rem; line-height: 1.3; margin: 2.4rem 0 .7rem; border-bottom: 2px solid var(--accent); padding-bottom: .15rem; }
h3 { font-size: 1rem; margin: 1.1rem 0 .3rem; }
p, li, dd { max-width: 48rem; overflow-wrap: anywhere; }
p { margin: .5rem 0; }
code { font-size: .85em; overflow-wrap: anywhere; }
.soft { color: var(--soft); }
.lead { font-size: 1.2rem; margin: .3rem 0; }
.lead .label { color: var(--soft); font-size: 1rem; display: inline-block; min-width: 9rem; }
.disclosure { border-top: 2px solid var(--accent); border-bottom: 2px solid var(--accent); padding: .5rem 0; margin: 0 0 1.2rem; max-width: none; font-weight: bold; }
.lead-panel { background: var(--panel); border-left: 4px solid var(--accent); padding: .6rem 1rem; margin: 1rem 0; }
.written { white-space: pre-line; overflow-wrap: anywhere; }
.figure { font-variant-numeric: tabular-nums lining-nums; }
.scroll { overflow-x: auto; margin: .6rem 0; }
table { border-collapse: collapse; min-width: min(100%, 30rem); font-variant-numeric: tabular-nums lining-nums; font-size: .9rem; line-height: 1.4; }
caption { text-align: left; color: var(--soft); padding: .2rem 0 .5rem; max-width: 48rem; }
th, td { text-align: left; vertical-align: top; padding: .35rem .9rem .35rem 0; border-bottom: 1px solid var(--line); }
thead th { border-bottom: 1px solid var(--ink); vertical-align: bottom; }
td.number, th.number { text-align: right; }
td.wide { min-width: 13rem; }
.range { white-space: nowrap; color: var(--soft); }
td:last-child, th:last-child { padding-right: 0; }
.swatches { display: inline-flex; border: 1px solid var(--soft); vertical-align: middle; }
.swatches svg { display: block; }
.pictures { display: grid; grid-template-columns: repeat(auto-fit, minmax(15rem, 1fr)); gap: 1rem; }
figure { margin: 0; }
.framed, .stage { position: relative; border: 1px solid var(--line); background: var(--panel); overflow: hidden; }
.framed img, .stage img, .single img { width: 100%; height: auto; display: block; }
.single { max-width: 26rem; }
.overlay { position: absolute; inset: 0; width: 100%; height: 100%; }
.overlay .part, .scripted .overlay .marks { display: none; }
.overlay .part.shown, .scripted .overlay .marks.shown { display: inline; }
.overlay rect { fill: none; vector-effect: non-scaling-stroke; }
.mark-case { stroke: #fff; stroke-width: 4px; }
.mark { stroke: #000; stroke-width: 2px; }
.marks text { font-weight: bold; stroke: #fff; stroke-width: .25em; paint-order: stroke; }
figcaption { font-size: .9rem; color: var(--soft); padding-top: .3rem; }
.legend { display: flex; flex-wrap: wrap; gap: .8rem 2rem; margin: .8rem 0; font-size: .9rem; }
.legend-scale { flex: 1 1 16rem; max-width: 30rem; }
.legend-scale svg { display: block; width: 100%; height: 1rem; }
.legend-ticks { display: flex; justify-content: space-between; font-variant-numeric: tabular-nums lining-nums; }
.legend ul { list-style: none; margin: 0; padding: 0; }
.key { width: 1rem; height: .85rem; margin-right: .5rem; vertical-align: baseline; }
.only-scripted { display: none; }
.scripted fieldset.only-scripted { display: flex; }
.scripted details.only-scripted { display: block; }
fieldset { flex-wrap: wrap; gap: .2rem 1.2rem; border: 1px solid var(--line); margin: .8rem 0; padding: .4rem .8rem .6rem; font-size: .95rem; }
label { display: inline-block; min-height: 1.5rem; }
input[type="checkbox"] { width: 1rem; height: 1rem; vertical-align: -.1rem; accent-color: var(--accent); }
summary { cursor: pointer; color: var(--accent); padding: .3rem 0; }
.slider { max-width: 40rem; }
.slider input { width: 100%; accent-color: var(--accent); height: 1.6rem; }
.stage img + img { position: absolute; inset: 0; height: 100%; }
.note { border-left: 3px solid var(--accent); padding: .1rem 0 .1rem .8rem; margin: .6rem 0; }
dl.statement { margin: 0; }
dl.statement > div { display: grid; grid-template-columns: 11rem 1fr; gap: 0 1rem; border-bottom: 1px solid var(--line); padding: .35rem 0; }
dt { color: var(--soft); }
dd { margin: 0; }
dd ol, dd ul { margin: 0; padding-left: 1.3rem; }
.jars { list-style: none; display: grid; grid-template-columns: repeat(auto-fill, minmax(13rem, 1fr)); gap: 1rem; margin: 0; padding: 0; }
.jar { border: 1px solid var(--line); background: var(--panel); padding: .5rem .8rem .7rem; }
.jar h3 { margin: 0 0 .4rem; }
.jar img { display: block; max-width: 100%; height: auto; }
.jar p { margin: .3rem 0; font-size: .9rem; }
.jar dl { margin: .4rem 0 0; font-size: .9rem; }
.jar dd { margin-bottom: .3rem; }
.no-photo { border: 1px dashed var(--soft); padding: 1.5rem .5rem; text-align: center; color: var(--soft); }
.mark-repeated { color: var(--soft); font-style: italic; }
.panels { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(18rem, 100%), 1fr)); gap: 1rem; margin: .6rem 0; }
.panel { max-width: 24rem; }
.chart { max-width: 34rem; margin: .6rem 0; }
.panel svg, .chart svg { display: block; width: 100%; height: auto; }
.panel text, .chart text { font-size: 12px; fill: var(--ink); font-variant-numeric: tabular-nums lining-nums; }
.panel .panel-title, .chart .panel-title { font-size: 13px; font-weight: bold; }
.panel .missing { fill: var(--soft); font-style: italic; }
.grid { stroke: var(--line); stroke-width: 1; }
.limit { stroke: var(--accent); stroke-width: 1.5; stroke-dasharray: 6 4; }
.panel .limit-text, .chart .limit-text { fill: var(--accent); }
.trend { fill: none; stroke: var(--soft); stroke-width: 1; }
.reading line, .forecast line { stroke: var(--ink); stroke-width: 1.5; }
.reading circle { fill: var(--ink); stroke: var(--ink); stroke-width: 1.5; }
.forecast circle { fill: var(--ground); stroke: var(--ink); stroke-width: 1.5; }
.forecast line { stroke-dasharray: 3 2; }
a { color: var(--accent); }
:focus-visible { outline: 3px solid var(--accent); outline-offset: 2px; }
@media (max-width: 34rem) {
  dl.statement > div { grid-template-columns: 1fr; }
  .lead .label { display: block; }
}
@page { margin: 15mm; }
@media print {
  :root { --ground: #fff; --panel: #fff; }
  html { font-size: 9.5pt; }
  body { background: #fff; line-height: 1.4; }
  main { max-width: none; padding: 0 1px; }
  h2 { margin-top: 1.4em; }
  h2, h3, caption { break-after: avoid; }
  p { orphans: 3; widows: 3; }
  thead { display: table-header-group; }
  tr, figure, .jar, .legend, dl.statement > div, .lead-panel { break-inside: avoid; }
  table { font-size: 7.5pt; min-width: 100%; }
  table.short { break-inside: avoid; }
  td.wide { min-width: 0; }
  .chart { max-width: 120mm; }
  th, td { padding-right: .5em; }
  td.number { white-space: normal; }
  .scroll { overflow: visible; }
  .pictures { grid-template-columns: repeat(2, 1fr); gap: 4mm; }
  .panels { grid-template-columns: repeat(3, 1fr); }
  .jars { grid-template-columns: repeat(4, 1fr); }
  .scripted .only-scripted { display: none !important; }
  svg, img, .swatches { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
@media (prefers-reduced-motion: reduce) { * { transition: none !important; animation: none !important; scroll-behavior: auto !important; } }
`;
