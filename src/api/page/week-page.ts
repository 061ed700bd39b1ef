/** The week of a site: each room's day is a chain of bookings and, between them, the turns. */
import type { Booking } from '../../domain/booking.ts'
import type { Closure } from '../../domain/closure.ts'
import type { Room } from '../../domain/room.ts'
import { layoutName, roomName } from '../../domain/setup-names.ts'
import type { Site } from '../../domain/site.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { Turn } from '../../domain/turn.ts'
import type { LocalDate } from '../../domain/units.ts'
import { answeredReason } from '../../scheduler/decide/index.ts'
import { dateAfter, dayAndTimeOf, localDateOf, localTimeOf } from '../../scheduler/timeline/wall-time.ts'
import { counted } from '../../scheduler/wording/counted.ts'
import { type RoomTimeline, roomTimeline } from '../rooms/room-timeline.ts'
import type { Warnings } from '../warnings/warning-page.ts'
import { page } from './frame.ts'
import { type Html, html } from './html.ts'
import { trough } from './trough.ts'
import type { Week } from './week.ts'
import {
  changeWords,
  handsWords,
  neededWords,
  slackWords,
  staleWords,
  standingWords,
  verdictWord,
  warningWords,
} from './words.ts'

export interface WeekView {
  readonly setup: SiteSetup
  readonly otherSites: readonly Site[]
  readonly week: Week
  readonly today: LocalDate
  readonly bookings: readonly Booking[]
  readonly turns: readonly Turn[]
  readonly closures: readonly Closure[]
  /** The first of all from now on, not only this week's. */
  readonly warnings: Warnings
}

export function weekPage(view: WeekView): Html {
  const { site, rooms } = view.setup
  return page(
    site.name,
    html`<h1>${site.name}</h1>
${weekLinks(view)}
<p class="lead">Each room’s day is a chain: bookings, and between them the turn, with the time it needs, the time there is,
and hands. Times are of ${site.zone}.</p>
${watchList(view)}
${rooms.map((room) => roomWeek(view, room))}
${rooms.length === 0 && html`<p>No room has been added yet.</p>`}`,
  )
}

function weekLinks({ setup, otherSites, week }: WeekView): Html {
  const { site } = setup
  const to = (date: LocalDate, words: string) =>
    html`<a href="/?site=${site.id}&amp;week=${date}">${words}</a>`
  return html`<nav class="weeks" aria-label="Weeks">
${to(dateAfter(week.monday, -7), '← week before')}
<strong>${week.monday} to ${dateAfter(week.monday, 6)}</strong>
${to(dateAfter(week.monday, 7), 'week after →')}
<a href="/?site=${site.id}">this week</a>
${otherSites.map((other) => html`<a href="/?site=${other.id}">${other.name}</a>`)}
</nav>`
}

/** What is stale is looked at again by itself: that it is, and from when on, is enough to know. */
function watchList({ setup, warnings }: WeekView): Html | null {
  const { items, nextAfter, judgedThroughAt, staleCount } = warnings
  const shown = items.filter(({ kind }) => kind !== 'stale')
  if (shown.length === 0 && judgedThroughAt === null) return null
  const { id, zone } = setup.site
  return html`<section class="watch"><h2>Warnings</h2><ul>
${shown.map(
  (
    warning,
  ) => html`<li><a href="${turnPath({ id: warning.turnId, siteId: id })}">${dayAndTimeOf(warning.doorsAt, zone)}, ${roomName(setup, warning.roomId)}: ${warning.title}</a>
<strong>${warningWords[warning.kind]}</strong>
<br>${warning.message}${warning.waysOut.map(({ message }) => ` ${message}`)}</li>`,
)}
${nextAfter !== null && html`<li>These are the first; <a href="/v1/sites/${id}/warnings">all of them</a></li>`}
${judgedThroughAt !== null && html`<li>${staleWords(staleCount)}, from ${dayAndTimeOf(judgedThroughAt, zone)} on.</li>`}
</ul></section>`
}

const reasonsOf = (turn: Turn, { setup, bookings }: WeekView): string[] =>
  turn.judgement.reasons.map((reason) => answeredReason(reason, setup, bookings).message)

function roomWeek(view: WeekView, room: Room): Html {
  const { setup, week, bookings, turns, closures } = view
  const timeline = roomTimeline(room, setup.rooms, week.window, bookings, turns, closures)
  const sections = setup.sections.filter(({ id }) => room.sectionIds.includes(id))
  const area = sections.reduce((sum, { areaSquareMetres }) => sum + areaSquareMetres, 0)
  return html`<section class="room"><h2>${room.name} <small>${Math.round(area)} m²</small></h2>
<ol class="days">${week.days.map((day) => roomDay(view, room, timeline, day))}</ol></section>`
}

function roomDay(
  view: WeekView,
  room: Room,
  { entries, closures }: RoomTimeline,
  day: Week['days'][number],
): Html {
  const { zone } = view.setup.site
  const closed = closures.filter(({ fromAt, toAt }) => fromAt < day.toAt && toAt > day.fromAt)
  const blocks = entries.flatMap((entry) => {
    if (entry.kind === 'gap') {
      return [entry.homeTurn, entry.turn]
        .filter((turn) => turn !== null && localDateOf(turn.dueAt, zone) === day.date)
        .flatMap((turn) => (turn ? [turnBlock(view, turn)] : []))
    }
    const { booking } = entry
    const shownOn =
      booking.doorsAt < view.week.window.fromAt ? view.week.monday : localDateOf(booking.doorsAt, zone)
    return shownOn === day.date ? [bookingBlock(view, room, booking)] : []
  })
  const classes = day.date === view.today ? 'day today' : 'day'
  return html`<li class="${classes}"><h3>${day.label}${day.date === view.today && html` <small>today</small>`}</h3>
<ol class="chain">
${closed.map(({ reason }) => html`<li class="closed"><strong>Closed</strong> ${reason}</li>`)}
${blocks}
${closed.length + blocks.length === 0 && html`<li class="free">free</li>`}
</ol></li>`
}

function bookingBlock({ setup }: WeekView, room: Room, booking: Booking): Html {
  const { zone } = setup.site
  const elsewhere = booking.roomId === room.id ? null : roomName(setup, booking.roomId)
  const time = (moment: Booking['doorsAt']) => localTimeOf(moment, zone)
  return html`<li class="booking"><strong>${booking.title}</strong>
<span>${time(booking.startsAt)}–${time(booking.endsAt)} · ${layoutName(setup, booking.layoutId)} · ${counted(booking.headcount, 'guest')}</span>
<span>doors ${time(booking.doorsAt)}, clear ${time(booking.clearAt)}${elsewhere && html` · in ${elsewhere}`}</span>
${standingWords(booking, zone).map((words) => html`<span>${words}</span>`)}</li>`
}

function turnBlock(view: WeekView, turn: Turn): Html {
  const { setup } = view
  const { judgement } = turn
  const facts = [neededWords(judgement), handsWords(judgement), slackWords(judgement)].filter(
    (fact) => fact !== null,
  )
  const first = judgement.verdict === 'fits' ? null : (reasonsOf(turn, view)[0] ?? null)
  return html`<li class="turn ${judgement.verdict}"><a href="${turnPath(turn)}">${changeWords(turn, setup)}</a>
${turn.purpose === 'return-home' && html`<span>put back by ${localTimeOf(turn.dueAt, setup.site.zone)}</span>`}
${trough(judgement)}
<span><strong>${verdictWord(judgement.verdict)}</strong> · ${facts.join(' · ')}</span>
${first !== null && html`<span>${first}</span>`}</li>`
}

const turnPath = ({ id, siteId }: Pick<Turn, 'id' | 'siteId'>): string => `/turns/${id}?site=${siteId}`
