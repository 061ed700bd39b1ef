/** When a turn is ready by the number of hands, as a curve, with doors drawn in: later is higher. */
import type { HandsCurve } from '../../domain/hands-curve.ts'
import { type Instant, secondsBetween } from '../../domain/instant.ts'
import { momentText } from '../../scheduler/answers/index.ts'
import { type Html, html } from './html.ts'

const LEFT = 80
const WIDTH = 480
const HEIGHT = 180
const TOP = 16
const BOTTOM = 24

/** null: with no number of hands is it ready. */
export function handsChart({ points, doorsAt }: HandsCurve, zone: string): Html | null {
  const ready = points.flatMap(({ hands, readyAt }) => (readyAt === null ? [] : [{ hands, readyAt }]))
  if (ready.length === 0) return null
  const moments = [...ready.map(({ readyAt }) => readyAt), doorsAt]
  const [firstAt, lastAt] = [Math.min(...moments), Math.max(...moments)]
  const x = (hands: number) => Math.round(LEFT + ((hands - 0.5) / points.length) * (WIDTH - LEFT))
  const y = (moment: Instant) =>
    Math.round(TOP + (1 - (moment - firstAt) / Math.max(1, lastAt - firstAt)) * (HEIGHT - TOP - BOTTOM))
  const line = ready.map(({ hands, readyAt }) => `${x(hands)},${y(readyAt)}`).join(' ')
  const label = momentText(doorsAt, doorsAt, zone)
  return html`<svg class="curve" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="When it is ready by the number of hands; the same stands in the table">
<line class="doors" x1="${LEFT}" x2="${WIDTH}" y1="${y(doorsAt)}" y2="${y(doorsAt)}"/>
<text x="0" y="${y(doorsAt) + 4}">doors ${label}</text>
<polyline class="line" points="${line}"/>
${ready.map(({ hands, readyAt }) => {
  const isLate = secondsBetween(readyAt, doorsAt) < 0
  return html`<g><title>${hands}: ${momentText(readyAt, doorsAt, zone)}</title><circle class="${isLate ? 'late' : 'ready'}" cx="${x(hands)}" cy="${y(readyAt)}" r="4"/></g>`
})}
${points.map(({ hands }) => html`<text x="${x(hands)}" y="${HEIGHT - 6}" text-anchor="middle">${hands}</text>`)}
</svg>`
}
