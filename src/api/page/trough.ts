/** A gap drawn as a trough: its width is the time there is, the fill is the time the turn needs, spilling past doors. */
import type { Judgement } from '../../domain/turn.ts'
import { type Html, html } from './html.ts'

const WIDTH = 240
const HEIGHT = 12

/** Decoration only: the same is said in words beside it. */
export function trough({ neededSeconds, staffedWindowSeconds }: Judgement): Html {
  const needed = neededSeconds ?? 0
  const scale = WIDTH / Math.max(needed, staffedWindowSeconds, 1)
  const doors = Math.round(staffedWindowSeconds * scale)
  const done = Math.round(needed * scale)
  const fill = Math.max(needed > 0 ? 2 : 0, Math.min(done, doors))
  return html`<svg class="trough" viewBox="0 0 ${WIDTH} ${HEIGHT}" preserveAspectRatio="none" aria-hidden="true">
<rect class="there" x="0" y="0" width="${doors}" height="${HEIGHT}"/>
<rect class="work" x="0" y="2" width="${fill}" height="${HEIGHT - 4}"/>
${done > doors && html`<rect class="spill" x="${doors}" y="2" width="${done - doors}" height="${HEIGHT - 4}"/>`}
<rect class="doors" x="${Math.max(0, doors - 2)}" y="0" width="2" height="${HEIGHT}"/>
</svg>`
}
