/** How the pages look: paper by day, slate by night, black on white in print. State is also said in words and edges. */
export const STYLE = `
:root {
  --paper: #faf7f2; --sheet: #fffefa; --ink: #1f292e; --soft: #5b666b; --rule: #d8d0c2; --block: #e8e0d4;
  --fits: #1f6b47; --fits-fill: #bfdccc; --tight: #8a5a0b; --tight-fill: #eed9a8; --fails: #a32a20; --fails-fill: #efc0b8;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #181c1e; --sheet: #1f2528; --ink: #ece7dd; --soft: #a9b1b3; --rule: #3b4447; --block: #343b3e;
    --fits: #82cfa6; --fits-fill: #2c5743; --tight: #e6bd66; --tight-fill: #5c4718; --fails: #f0958a; --fails-fill: #6b2d27;
  }
}
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.45 system-ui, sans-serif; overflow-wrap: anywhere; }
a { color: inherit; text-underline-offset: 3px; }
a:focus-visible { outline: 3px solid var(--tight); outline-offset: 2px; }
h1 { font-size: 1.45rem; margin: 1rem 0 .3rem; }
h2 { font-size: 1.1rem; margin: 1.4rem 0 .4rem; }
h3 { font-size: .85rem; font-weight: 600; margin: 0; padding: .4rem .5rem; color: var(--soft); }
small { color: var(--soft); font-weight: 400; }
ol, ul { margin: 0; padding: 0; list-style: none; }
.top { display: flex; gap: 1.2rem; align-items: baseline; padding: .7rem 1rem; border-bottom: 1px solid var(--rule); }
.name { font-weight: 700; font-size: 1.15rem; text-decoration: none; }
.plain { color: var(--soft); }
main { padding: 0 1rem 1rem; max-width: 1500px; margin: 0 auto; }
footer { padding: .5rem 1rem 1.5rem; border-top: 1px solid var(--rule); color: var(--soft); font-size: .85rem; max-width: 1500px; margin: 0 auto; }
.lead { color: var(--soft); margin: .3rem 0 .8rem; }
.weeks { display: flex; flex-wrap: wrap; gap: .3rem 1rem; }
.watch { border: 2px solid var(--fails); background: var(--sheet); padding: 0 .8rem .6rem; margin: .8rem 0; }
.watch h2 { color: var(--fails); margin-top: .6rem; }
.watch li { margin: .3rem 0; }
.days { display: grid; grid-template-columns: repeat(7, minmax(0, 1fr)); border: 1px solid var(--rule); background: var(--sheet); }
.day { border-left: 1px solid var(--rule); }
.day:first-child { border-left: 0; }
.today h3 { color: var(--ink); box-shadow: inset 0 3px 0 var(--ink); }
.chain { display: grid; gap: .4rem; padding: 0 .4rem .6rem; font-size: .85rem; }
.chain span { display: block; }
.free { color: var(--soft); padding: .2rem .1rem; }
.booking { background: var(--block); border-radius: 3px; padding: .4rem .5rem; }
.booking strong { display: block; font-size: .95rem; font-weight: 600; }
.booking span { color: var(--soft); }
.closed { border: 1px dashed var(--soft); border-radius: 3px; padding: .4rem .5rem; }
.turn { padding: .2rem .4rem .2rem .6rem; border-left: 4px solid var(--fits); }
.turn.tight { border-left-style: dashed; border-left-color: var(--tight); }
.turn.does-not-fit { border-left: 8px double var(--fails); }
.turn strong { color: var(--fits); }
.turn.tight strong { color: var(--tight); }
.turn.does-not-fit strong { color: var(--fails); }
.turn p { margin: .3rem 0; }
.trough { display: block; width: 100%; max-width: 30rem; height: 12px; margin: .25rem 0; }
.trough .there { fill: var(--paper); stroke: var(--soft); stroke-width: 1; }
.trough .work { fill: var(--fits-fill); }
.tight .trough .work { fill: var(--tight-fill); }
.does-not-fit .trough .work, .trough .spill { fill: var(--fails-fill); }
.trough .spill { stroke: var(--fails); stroke-width: 2; stroke-dasharray: 3 2; }
.trough .doors { fill: var(--ink); }
table { width: 100%; border-collapse: collapse; background: var(--sheet); border: 1px solid var(--rule); margin: .8rem 0; }
caption { text-align: left; color: var(--soft); padding: .3rem 0; }
th { white-space: nowrap; text-align: left; color: var(--soft); font-weight: 600; font-size: .85rem; }
th, td { padding: .4rem .5rem; border-bottom: 1px solid var(--rule); vertical-align: top; }
td:first-child, td:nth-child(2) { white-space: nowrap; }
.safety { display: block; font-size: .9rem; font-weight: 600; }
.chart { width: 100%; min-width: 600px; height: auto; font-size: 12px; background: var(--sheet); border: 1px solid var(--rule); }
.chart text { fill: var(--ink); }
.chart rect { fill: var(--block); stroke: var(--soft); }
.chart .strike { fill: var(--tight-fill); }
.chart .set { fill: var(--fits-fill); }
.curve { display: block; width: 100%; max-width: 34rem; height: auto; font-size: 12px; background: var(--sheet); border: 1px solid var(--rule); }
.curve text { fill: var(--ink); }
.curve .line { fill: none; stroke: var(--soft); stroke-width: 1.5; }
.curve .doors { stroke: var(--fails); stroke-width: 2; stroke-dasharray: 6 3; }
.curve .ready { fill: var(--fits); }
.curve .late { fill: var(--sheet); stroke: var(--fails); stroke-width: 2; }
.hands { max-width: 34rem; }
.helps { margin: .4rem 0 .8rem 1.2rem; list-style: decimal; }
.lanes { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 20rem), 1fr)); gap: .8rem; margin-top: .8rem; }
.lanes section { background: var(--sheet); border: 1px solid var(--rule); padding-bottom: .4rem; break-inside: avoid; }
.lanes li { padding: .15rem .5rem; }
@media (max-width: 900px) {
  .days { grid-template-columns: minmax(0, 1fr); }
  .day { border-left: 0; border-top: 1px solid var(--rule); }
  .day:first-child { border-top: 0; }
  .chart { display: none; }
  .tasks thead { position: absolute; left: -9999px; }
  .tasks tr, .tasks td { display: block; }
  .tasks tr { border-bottom: 2px solid var(--rule); padding: .3rem 0; }
  .tasks td { border: 0; padding: .1rem .5rem; white-space: normal; }
  .tasks td:empty { display: none; }
  .tasks td::before { content: attr(data-label) ': '; color: var(--soft); }
}
@media print {
  :root { --paper: #fff; --sheet: #fff; --ink: #000; --soft: #333; --rule: #999; --block: #eee;
    --fits: #000; --fits-fill: #ddd; --tight: #000; --tight-fill: #ccc; --fails: #000; --fails-fill: #bbb; }
  body { font-size: 11pt; }
  .top, .weeks { display: none; }
  tr, .turn, .booking { break-inside: avoid; }
  thead { display: table-header-group; }
}
`
