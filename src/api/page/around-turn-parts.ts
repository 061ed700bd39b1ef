/** By how many hands the turn is ready when, drawn and as a table, and what would have it ready sooner. */
import type { CurvePoint, HandsCurve } from '../../domain/hands-curve.ts'
import type { WhatWouldHelp } from '../../domain/what-would-help.ts'
import { momentText } from '../../scheduler/answers/index.ts'
import { shownBeside, spanText } from '../../scheduler/wording/shown-minutes.ts'
import { handsChart } from './hands-chart.ts'
import { type Html, html } from './html.ts'

export interface AroundTurn {
  readonly curve: HandsCurve
  readonly help: WhatWouldHelp
}

export function aroundTurnParts({ curve, help }: AroundTurn, zone: string): Html {
  const gaining = help.items.filter(({ secondsGained }) => secondsGained !== 0)
  return html`<h2>Hands and time</h2>
${curve.sentences.map((sentence) => html`<p>${sentence}</p>`)}
${handsChart(curve, zone)}
<table class="hands"><caption>Ready by the number of hands; doors at ${momentText(curve.doorsAt, curve.doorsAt, zone)}.</caption>
<thead><tr><th>Hands</th><th>Of the crew</th><th>Ready</th><th>To doors</th></tr></thead>
<tbody>
${curve.points.map((point) => row(point, curve, zone))}
</tbody></table>
<h2>What would help</h2>
${help.anew === null ? html`` : html`<p>${help.anew}</p>`}
${gaining.length === 0 ? html`<p>Nothing that was tried has it ready sooner.</p>` : html`<ol class="helps">${gaining.map(({ sentence }) => html`<li>${sentence}</li>`)}</ol>`}`
}

function row({ hands, ofCrew, readyAt }: CurvePoint, { doorsAt }: HandsCurve, zone: string): Html {
  if (readyAt === null)
    return html`<tr><td>${hands}</td><td>${ofCrew}</td><td>not possible</td><td></td></tr>`
  const shown = shownBeside(readyAt, doorsAt)
  const { lateMinutes } = shown
  const toDoors = lateMinutes > 0 ? `${spanText(lateMinutes)} short` : `${spanText(-lateMinutes)} to spare`
  return html`<tr><td>${hands}</td><td>${ofCrew}</td><td>${momentText(shown.readyAt, doorsAt, zone)}</td><td>${toDoors}</td></tr>`
}
