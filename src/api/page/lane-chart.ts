/** The plan as lanes over time, true to scale; the numbers are those of the task table. */
import { earlierOf, laterOf } from '../../domain/instant.ts'
import type { PlannedTask } from '../../domain/plan.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { localTimeOf } from '../../scheduler/timeline/wall-time.ts'
import type { LaneLabel } from '../turns/lane-labels.ts'
import { lanesOf } from '../turns/lanes-of.ts'
import { type Html, html } from './html.ts'

const LABEL_WIDTH = 150
const CHART_WIDTH = 650
const ROW_HEIGHT = 24
const HEAD_HEIGHT = 20

/** @param tasks  at least one */
export function laneChart(tasks: readonly PlannedTask[], setup: SiteSetup, label: LaneLabel): Html {
  const { zone } = setup.site
  const lanes = lanesOf(tasks, setup, label)
  const startsAt = tasks.map((task) => task.startsAt).reduce(earlierOf)
  const endsAt = tasks.map((task) => task.endsAt).reduce(laterOf)
  const x = (moment: number) =>
    LABEL_WIDTH + Math.round(((moment - startsAt) / Math.max(1, endsAt - startsAt)) * CHART_WIDTH)
  const height = HEAD_HEIGHT + lanes.length * ROW_HEIGHT
  const row = (key: string, index: number, lane: number) => {
    const task = tasks.find((one) => one.key === key)
    if (!task) return null
    const width = Math.max(1, x(task.endsAt) - x(task.startsAt) - 1)
    const y = HEAD_HEIGHT + lane * ROW_HEIGHT
    return html`<g><title>${task.text}</title><rect class="${task.kind}" x="${x(task.startsAt)}" y="${y + 2}" width="${width}" height="${ROW_HEIGHT - 4}"/>
${width >= 14 && html`<text x="${x(task.startsAt) + 3}" y="${y + 17}">${index + 1}</text>`}</g>`
  }
  return html`<svg class="chart" viewBox="0 0 ${LABEL_WIDTH + CHART_WIDTH} ${height}" role="img" aria-label="The same tasks by person over time">
<text x="${LABEL_WIDTH}" y="14">${localTimeOf(startsAt, zone)}</text>
<text x="${LABEL_WIDTH + CHART_WIDTH}" y="14" text-anchor="end">${localTimeOf(endsAt, zone)}</text>
${lanes.map(
  (
    lane,
    index,
  ) => html`<text x="0" y="${HEAD_HEIGHT + index * ROW_HEIGHT + 17}">${lane.label.slice(0, 24)}</text>
${lane.tasks.map((key) =>
  row(
    key,
    tasks.findIndex((task) => task.key === key),
    index,
  ),
)}`,
)}
</svg>`
}
