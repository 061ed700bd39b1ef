/** One turn as a sheet for the crew: the tasks in order, with times, counts, places, hands, names and safety notes. */
import type { Booking } from '../../domain/booking.ts'
import type { Instant } from '../../domain/instant.ts'
import type { PlannedTask } from '../../domain/plan.ts'
import { roomName } from '../../domain/setup-names.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { Turn } from '../../domain/turn.ts'
import { answeredReason, isTurnWork, smoothnessOf, smoothnessSentence } from '../../scheduler/decide/index.ts'
import { dayAndTimeOf, localDateOf, localTimeOf } from '../../scheduler/timeline/wall-time.ts'
import { shownBeside } from '../../scheduler/wording/shown-minutes.ts'
import type { LaneLabel } from '../turns/lane-labels.ts'
import { lanesOf } from '../turns/lanes-of.ts'
import { notBriefed, notBriefedSentence } from '../turns/not-briefed.ts'
import { type AroundTurn, aroundTurnParts } from './around-turn-parts.ts'
import { page } from './frame.ts'
import { type Html, html } from './html.ts'
import { laneChart } from './lane-chart.ts'
import { trough } from './trough.ts'
import {
  changeWords,
  handsWords,
  neededWords,
  slackWords,
  standingWords,
  statusWords,
  verdictWord,
} from './words.ts'

export interface TurnView {
  readonly setup: SiteSetup
  readonly turn: Turn
  /** The booking it prepares, or after which it puts the room back. */
  readonly booking: Booking | null
  readonly label: LaneLabel
  /** Those that its reasons may name. */
  readonly named: readonly Booking[]
  /** null: it is not to come, or nobody can say now. */
  readonly around: AroundTurn | null
}

export function turnPage(view: TurnView): Html {
  const { setup, turn, booking, label } = view
  const { zone } = setup.site
  const change = changeWords(turn, setup)
  const isHome = turn.purpose === 'return-home'
  const planned = turn.plan?.tasks ?? []
  const tasks = planned.filter(isTurnWork)
  return page(
    `Turn: ${change}`,
    html`<h1>Turn: ${change}</h1>
<p class="lead">${roomName(setup, turn.roomId)}, ${isHome ? 'put back after' : 'for'} ${booking?.title ?? 'a booking that is gone'}. From ${dayAndTimeOf(turn.releaseAt, zone)},
ready by ${isHome ? null : 'doors, '}${dayAndTimeOf(turn.dueAt, zone)}. <a href="/?site=${setup.site.id}">Week</a></p>
${booking && standingWords(booking, zone).map((words) => html`<p>The booking is ${words}.</p>`)}
${standing(view)}
${tasks.length === 0 && html`<p>${turn.plan ? 'Nothing is to be done.' : 'There is no plan to follow.'}</p>`}
${tasks.length > 0 && [taskTable(tasks, view), html`<h2>Who does what</h2>`, laneChart(tasks, setup, label)]}
${planned.length > 0 && laneLists(view, planned)}
${view.around && aroundTurnParts(view.around, zone)}`,
  )
}

function standing({ setup, turn, named, label }: TurnView): Html {
  const { judgement } = turn
  const facts = [neededWords(judgement), handsWords(judgement), slackWords(judgement)].filter(
    (fact) => fact !== null,
  )
  const ready =
    judgement.readyAt === null
      ? null
      : `ready about ${dayAndTimeOf(shownBeside(judgement.readyAt, turn.dueAt).readyAt, setup.site.zone)}`
  return html`<div class="turn ${judgement.verdict}">
<p><strong>${verdictWord(judgement.verdict)}</strong> (${statusWords[turn.status]}) · ${[...facts, ready].filter((fact) => fact !== null).join(' · ')}</p>
${trough(judgement)}
${smoothnessWords(turn)}
${briefingWords({ setup, turn, label })}
${judgement.reasons.map((reason) => html`<p>${answeredReason(reason, setup, named).message}</p>`)}
</div>`
}

function taskTable(tasks: readonly PlannedTask[], { turn, label, setup }: TurnView): Html {
  const { zone } = setup.site
  const critical = new Set(turn.plan?.criticalTaskKeys)
  const span = spanWords(turn.plan?.tasks ?? [], zone)
  return html`<table class="tasks"><caption>Tasks in order. ● marks those that decide when the room is ready.</caption>
<thead><tr><th>No.</th><th>Time</th><th>Task</th><th>Pieces</th><th>From, to</th><th>Hands</th><th>Who</th></tr></thead>
<tbody>
${tasks.map(
  (task, index) => html`<tr>
<td data-label="No.">${index + 1}${critical.has(task.key) && ' ●'}</td>
<td data-label="Time">${span(task)}</td>
<td data-label="Task">${task.text}
${task.safetyNotes.map((note) => html`<span class="safety">Safety: ${note}</span>`)}
${task.adultsOnly && html`<span class="safety">Adults only.</span>`}</td>
<td data-label="Pieces">${task.count}</td>
<td data-label="From, to">${placesWords(task)}</td>
<td data-label="Hands">${handsNeeded(task)}</td>
<td data-label="Who">${task.laneIds.map(label).join(', ')}</td>
</tr>`,
)}
</tbody></table>`
}

const handsNeeded = ({ hands, skill }: PlannedTask): string => {
  if (hands === 0) return 'runs by itself'
  return skill === null ? String(hands) : `${hands}, one with ${skill}`
}

function placesWords({ fromPlace, toPlace }: PlannedTask): string {
  if (fromPlace !== null && toPlace !== null) return `${fromPlace} → ${toPlace}`
  return fromPlace ?? toPlace ?? ''
}

/** Where a plan was looked for that people follow easily: what that costs. */
function smoothnessWords({ plan }: Turn): Html | null {
  const sentence = plan && smoothnessSentence(smoothnessOf(plan.tasks, plan.smoothness?.priceSeconds ?? null))
  return sentence === null ? null : html`<p>${sentence}</p>`
}

/** Who comes later has to be told what was said. */
function briefingWords({ turn, setup, label }: Pick<TurnView, 'turn' | 'setup' | 'label'>): Html | null {
  const sentence = turn.plan && notBriefedSentence(notBriefed(turn.plan.tasks, setup), label)
  return sentence === null ? null : html`<p>${sentence}</p>`
}

/** One line a stint, its tasks within. */
function laneLists({ label, setup }: TurnView, tasks: readonly PlannedTask[]): Html {
  const { zone } = setup.site
  const span = spanWords(tasks, zone)
  const work = tasks.filter(isTurnWork)
  const numbered = new Map(tasks.map((task) => [task.key, { task, number: work.indexOf(task) + 1 }]))
  return html`<div class="lanes">${lanesOf(tasks, setup, label).map(
    (lane) => html`<section><h3>${lane.label}</h3><ol>
${lane.stints.map(
  (stint) => html`<li>${span(stint)} <strong>${stint.text}</strong><ul>
${stint.tasks.flatMap((key) => {
  const entry = numbered.get(key)
  return entry
    ? [
        html`<li>${span(entry.task)} ${entry.number > 0 && html`<strong>${entry.number}</strong>`} ${entry.task.text}</li>`,
      ]
    : []
})}
</ul></li>`,
)}
</ol></section>`,
  )}</div>`
}

type Span = Pick<PlannedTask, 'startsAt' | 'endsAt'>

/** `22:55–23:20`; of a plan that goes over midnight with the day, `Fri 5 Jun 22:55–23:20`. */
function spanWords(planned: readonly PlannedTask[], zone: string): (span: Span) => string {
  const dayOf = (moment: Instant) => localDateOf(moment, zone)
  const days = new Set(planned.flatMap(({ startsAt, endsAt }) => [dayOf(startsAt), dayOf(endsAt)]))
  return ({ startsAt, endsAt }) => {
    const from = (days.size > 1 ? dayAndTimeOf : localTimeOf)(startsAt, zone)
    const to = (dayOf(startsAt) === dayOf(endsAt) ? localTimeOf : dayAndTimeOf)(endsAt, zone)
    return `${from}–${to}`
  }
}
