/** From what happens, and how the hall stands, to what is asked of the core: as the API would ask it. */
import { spanOf } from '../../../../src/api/setup/span-of.ts'
import { Booking, isBlocking } from '../../../../src/domain/booking.ts'
import {
  CREW_AFTER_CLEAR_MOST_SECONDS,
  CREW_BEFORE_DOORS_MOST_SECONDS,
} from '../../../../src/domain/booking-terms.ts'
import { Closure } from '../../../../src/domain/closure.ts'
import { LinkId } from '../../../../src/domain/ids.ts'
import { earlierOf, type Instant, instantPlusSeconds, laterOf } from '../../../../src/domain/instant.ts'
import { Observation } from '../../../../src/domain/observation.ts'
import type { Operation } from '../../../../src/domain/operation.ts'
import { Policy } from '../../../../src/domain/policy.ts'
import { RateSet } from '../../../../src/domain/rate-set.ts'
import type { SetupWrite } from '../../../../src/domain/setup.ts'
import { Shift } from '../../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../../src/domain/snapshot.ts'
import { StockChange } from '../../../../src/domain/stock-change.ts'
import type { Turn } from '../../../../src/domain/turn.ts'
import type { LocalDate } from '../../../../src/domain/units.ts'
import { DEFAULT_RATES } from '../../../../src/scheduler/network/index.ts'
import { dateAfter, instantOfLocal } from '../../../../src/scheduler/timeline/wall-time.ts'
import type { Beside, Happening, PolicyPatch, Slot } from './happening.ts'

export type Call =
  | { readonly kind: 'ask'; readonly operations: readonly Operation[] }
  | { readonly kind: 'clock'; readonly now: Instant }

/** Where things happen, and what the next one is called. */
export interface Place {
  readonly firstDate: LocalDate
  /** Of what is new. */
  readonly name: string
}

const QUARTER_SECONDS = 900

/** @returns null: there is nothing that it could happen to */
export function callOf(snapshot: SiteSnapshot, happening: Happening, place: Place): Call | null {
  if (happening.what === 'clock')
    return { kind: 'clock', now: instantPlusSeconds(snapshot.now, happening.hours * 3600) }
  const operations = operationsOf(snapshot, happening, place)
  return operations === null || operations.length === 0 ? null : { kind: 'ask', operations }
}

function operationsOf(
  snapshot: SiteSnapshot,
  happening: Exclude<Happening, { what: 'clock' }>,
  place: Place,
): Operation[] | null {
  const { now } = snapshot
  const live = snapshot.bookings.filter(isBlocking)
  const pick = (which: number): Booking | null => live[which % Math.max(1, live.length)] ?? null
  switch (happening.what) {
    case 'book':
      return [{ kind: 'book', booking: newBooking(snapshot, happening, place) }]
    case 'book-again': {
      const before = pick(happening.which)
      return before && [{ kind: 'book', booking: bookedAgain(snapshot, before, happening, place) }]
    }
    case 'hold': {
      const asked = newBooking(snapshot, happening, place)
      const holdExpiresAt = earlierOf(instantPlusSeconds(now, happening.lasts * 3600), asked.doorsAt)
      return [{ kind: 'hold', booking: { ...asked, status: 'TENTATIVE', holdExpiresAt, riskAccepted: null } }]
    }
    case 'confirm': {
      const holds = live.filter(({ status }) => status === 'TENTATIVE')
      const hold = holds[happening.which % Math.max(1, holds.length)]
      return hold ? [{ kind: 'confirm', bookingId: hold.id, versionExpected: null }] : null
    }
    case 'move': {
      const booking = pick(happening.which)
      return booking && changedTo(booking, movedTo(booking, spanOfSlot(snapshot, place, happening)))
    }
    case 'move-place': {
      const booking = pick(happening.which)
      return booking && changedTo(booking, placeOf(happening.layout))
    }
    case 'move-terms': {
      const booking = pick(happening.which)
      return booking && changedTo(booking, termsOf(snapshot, booking, happening))
    }
    case 'swap': {
      const [one, other] = [pick(happening.which), pick(happening.other)]
      if (!one || !other || one === other) return null
      return [...changedTo(one, movedTo(one, other)), ...changedTo(other, movedTo(other, one))]
    }
    case 'cancel': {
      const booking = pick(happening.which)
      return booking && [{ kind: 'cancel', bookingId: booking.id, versionExpected: null }]
    }
    case 'link': {
      const picked = happening.whiches.flatMap((one) => pick(one) ?? [])
      const members = happening.withAlike ? withAlike(live, picked) : picked
      const bookingIds = [...new Set(members.map(({ id }) => id))]
      const linkId = LinkId.parse(`link_${place.name}`)
      const { keepAsSet } = happening
      return bookingIds.length < 2 ? null : [{ kind: 'link', linkId, bookingIds, keepAsSet }]
    }
    case 'unlink': {
      const linked = live.filter(({ linkId }) => linkId !== null)
      const linkId = linked[happening.which % Math.max(1, linked.length)]?.linkId
      return linkId ? [{ kind: 'unlink', linkId }] : null
    }
    case 'clear-later': {
      const booking = pick(happening.which)
      if (!booking) return null
      const from = laterOf(booking.clearAt, booking.overrunsUntilAt ?? booking.clearAt)
      const clearAt = instantPlusSeconds(from, happening.quarters * QUARTER_SECONDS)
      return [{ kind: 'clear-later', bookingId: booking.id, clearAt, versionExpected: null }]
    }
    case 'judge':
      return judgingOf(snapshot, happening.turns)
    case 'polish': {
      const turnIds = turnsToPolish(snapshot)
        .slice(0, happening.turns)
        .map(({ id }) => id)
      return turnIds.length === 0 ? null : [{ kind: 'polish', turnIds }]
    }
    default: {
      const write = writeOf(snapshot, happening, place)
      return write && [setUpOf(snapshot, write, 'reach' in happening ? happening.reach : 100)]
    }
  }
}

/** With the next in the room and layout of the first, and without those that are held where it is firm, or the reverse. */
function withAlike(live: readonly Booking[], picked: readonly Booking[]): Booking[] {
  const [first] = picked
  if (!first) return []
  const [next] = live
    .filter(({ roomId, layoutId, status }) => {
      return roomId === first.roomId && layoutId === first.layoutId && status === first.status
    })
    .filter(({ doorsAt }) => doorsAt > first.doorsAt)
    .sort((a, b) => a.doorsAt - b.doorsAt)
  return [...picked.filter(({ status }) => status === first.status), ...(next ? [next] : [])]
}

const changedTo = (booking: Booking, changed: Partial<Booking>): Operation[] => [
  { kind: 'change', booking: { ...booking, ...changed, riskAccepted: null, version: booking.version + 1 } },
]

type Span = Pick<Booking, 'doorsAt' | 'startsAt' | 'endsAt' | 'clearAt'>

function spanOfSlot({ site }: SiteSnapshot, { firstDate }: Place, { day, quarter, length }: Slot): Span {
  const morning = instantOfLocal(site.zone, dateAfter(firstDate, day), '07:00')
  return spanFrom(instantPlusSeconds(morning, quarter * QUARTER_SECONDS), length)
}

function spanFrom(doorsAt: Instant, length: number): Span {
  const clearAt = instantPlusSeconds(doorsAt, length * QUARTER_SECONDS)
  return {
    doorsAt,
    startsAt: instantPlusSeconds(doorsAt, QUARTER_SECONDS),
    endsAt: instantPlusSeconds(clearAt, -QUARTER_SECONDS),
    clearAt,
  }
}

/** Demands and milestones go along with doors, or with clear; an overrun is over. */
function movedTo(booking: Booking, { doorsAt, startsAt, endsAt, clearAt }: Span): Partial<Booking> {
  const along = (moment: Instant): Instant =>
    moment < booking.endsAt
      ? instantPlusSeconds(moment, (doorsAt - booking.doorsAt) / 1000)
      : instantPlusSeconds(moment, (clearAt - booking.clearAt) / 1000)
  return {
    doorsAt,
    startsAt,
    endsAt,
    clearAt,
    overrunsUntilAt: null,
    holdExpiresAt: booking.holdExpiresAt && earlierOf(booking.holdExpiresAt, doorsAt),
    crewDemands: booking.crewDemands.flatMap((demand) => {
      const [fromAt, toAt] = [along(demand.fromAt), along(demand.toAt)]
      return fromAt < toAt && toAt - fromAt <= 86_400_000 ? [{ ...demand, fromAt, toAt }] : []
    }),
    milestones: booking.milestones.map((one) => ({ ...one, byAt: along(one.byAt) })),
  }
}

const placeOf = (layout: string): Pick<Booking, 'roomId' | 'layoutId'> =>
  Booking.pick({ roomId: true, layoutId: true }).parse({
    roomId: `room_${layout.split('-')[0]}`,
    layoutId: `layout_${layout}`,
  })

const newBooking = (
  snapshot: SiteSnapshot,
  wanted: Slot & Beside & { readonly layout: string },
  place: Place,
): Booking => bookingOf(snapshot, placeOf(wanted.layout), spanOfSlot(snapshot, place, wanted), wanted, place)

function bookedAgain(
  snapshot: SiteSnapshot,
  before: Booking,
  happening: Extract<Happening, { what: 'book-again' }>,
  place: Place,
): Booking {
  const doorsAt = instantPlusSeconds(before.clearAt, happening.gapQuarters * QUARTER_SECONDS)
  return bookingOf(snapshot, before, spanFrom(doorsAt, happening.lengthQuarters), happening, place)
}

function bookingOf(
  snapshot: SiteSnapshot,
  { roomId, layoutId }: Pick<Booking, 'roomId' | 'layoutId'>,
  span: Span,
  beside: Beside,
  place: Place,
): Booking {
  return Booking.parse({
    id: `booking_${place.name}`,
    turnId: `turn_${place.name}`,
    siteId: snapshot.site.id,
    title: place.name,
    roomId,
    layoutId,
    ...span,
    ...termsOf(snapshot, span, beside),
    status: 'CONFIRMED',
    version: 1,
  })
}

const milestones = ['floor-clear', 'tables-up', 'seats-up', 'devices-ready', 'sound-checked'] as const

/** Within the bounds that the API sets. */
function termsOf({ now }: SiteSnapshot, { doorsAt, clearAt }: Span, beside: Beside): Partial<Booking> {
  const { demand, milestone } = beside
  const at = (anchor: Instant, quarters: number) => instantPlusSeconds(anchor, quarters * QUARTER_SECONDS)
  const demanded = () => {
    if (!demand) return []
    const wanted =
      demand.fromDoors === null
        ? { fromAt: at(clearAt, demand.toClear - demand.length), toAt: at(clearAt, demand.toClear) }
        : { fromAt: at(doorsAt, demand.fromDoors), toAt: at(doorsAt, demand.fromDoors + demand.length) }
    const fromAt = laterOf(wanted.fromAt, instantPlusSeconds(doorsAt, -CREW_BEFORE_DOORS_MOST_SECONDS))
    const toAt = earlierOf(wanted.toAt, instantPlusSeconds(clearAt, CREW_AFTER_CLEAR_MOST_SECONDS))
    const skill = demand.skilled ? 'sound' : null
    return fromAt < toAt ? [{ what: 'desk', fromAt, toAt, hands: demand.hands, skill }] : []
  }
  return {
    headcount: beside.headcount,
    priority: beside.priority,
    quietNeeded: beside.quiet,
    foodServed: beside.food,
    floorWet: beside.wet,
    ownHelp: beside.helpers === 0 ? null : { hands: beside.helpers, seconds: 900 },
    crewDemands: demanded(),
    milestones: milestone
      ? [
          {
            milestone: milestones[milestone.which]!,
            byAt: milestone.at > 0 ? at(clearAt, milestone.at) : at(doorsAt, milestone.at),
          },
        ]
      : [],
    riskAccepted: beside.risk
      ? Booking.shape.riskAccepted.parse({ actorId: 'actor_lead', why: 'it will do', acceptedAt: now })
      : null,
  }
}

/** As the background asks for them: from where it left off, some at a time. */
export function judgingOf({ now, judgedThroughAt, turns }: SiteSnapshot, turnsMost: number): Operation[] {
  const fromAt = laterOf(now, judgedThroughAt ?? now)
  const due = turns
    .filter(({ status, dueAt }) => status !== 'dropped' && dueAt >= fromAt)
    .map(({ dueAt }) => dueAt)
    .sort((a, b) => a - b)
    .slice(0, turnsMost)
  const isLast = due.length < turnsMost
  const toAt = instantPlusSeconds(due.at(-1) ?? fromAt, isLast ? 31 * 86_400 : 1)
  const next = isLast ? null : toAt
  return [
    {
      kind: 'judge',
      span: { fromAt: instantPlusSeconds(fromAt, -1), toAt },
      judgedThroughAt: judgedThroughAt === null || next === null ? null : laterOf(judgedThroughAt, next),
    },
  ]
}

const turnsToPolish = ({ now, turns }: SiteSnapshot): Turn[] =>
  turns
    .filter(
      ({ status, plan, dueAt }) => status === 'ready' && dueAt > now && plan !== null && plan.startsAt > now,
    )
    .filter(({ judgement }) => judgement.polishedAt === null)
    .sort((a, b) => a.dueAt - b.dueAt || (a.id < b.id ? -1 : 1))

type SetUpHappening = Exclude<
  Happening,
  {
    what:
      | 'clock'
      | 'book'
      | 'book-again'
      | 'hold'
      | 'confirm'
      | 'move'
      | 'move-place'
      | 'move-terms'
      | 'swap'
      | 'cancel'
      | 'link'
      | 'unlink'
      | 'clear-later'
      | 'judge'
      | 'polish'
  }
>

function writeOf(snapshot: SiteSnapshot, happening: SetUpHappening, place: Place): SetupWrite | null {
  const { site, now } = snapshot
  const of = { siteId: site.id }
  const chosen = <Row>(rows: readonly Row[], which: number): Row | null =>
    rows[which % Math.max(1, rows.length)] ?? null
  switch (happening.what) {
    case 'add-shift': {
      const { doorsAt: startsAt, clearAt: endsAt } = spanOfSlot(snapshot, place, happening)
      const skills = happening.skilled ? ['sound'] : []
      const after = Shift.parse({
        ...of,
        id: `shift_${place.name}`,
        name: place.name,
        crew: { kind: 'hands', hands: happening.hands, skills, adults: true },
        times: { kind: 'once', startsAt, endsAt },
        paid: happening.paid,
      })
      return { kind: 'shift', before: null, after, retire: false }
    }
    case 'change-shift': {
      const before = chosen(snapshot.shifts, happening.which)
      if (!before) return null
      const after = Shift.parse({
        ...before,
        crew: before.crew.kind === 'hands' ? { ...before.crew, hands: happening.hands } : before.crew,
        times:
          before.times.kind === 'weekly'
            ? { ...before.times, startsLocal: `${String(happening.hour).padStart(2, '0')}:00` }
            : before.times,
      })
      return { kind: 'shift', before, after, retire: false }
    }
    case 'drop-shift': {
      const before = chosen(snapshot.shifts, happening.which)
      return before && { kind: 'shift', before, after: before, retire: true }
    }
    case 'skill-until': {
      const before = snapshot.people[0]!
      const { day } = happening
      const lastDate = day === null ? null : dateAfter(place.firstDate, day)
      const skillDates = day === null ? [] : [{ skill: 'sound', firstDate: null, lastDate }]
      return { kind: 'person', before, after: { ...before, skillDates }, retire: false }
    }
    case 'away': {
      const { doorsAt: fromAt, clearAt } = spanOfSlot(snapshot, place, happening)
      const things = [
        ...snapshot.furnishings.map(({ id }) => ({
          kind: 'furnishing',
          furnishingId: id,
          count: happening.count,
        })),
        ...snapshot.equipment.map(({ id }) => ({ kind: 'equipment', equipmentId: id })),
        ...snapshot.tools.map(({ id }) => ({ kind: 'tool', toolId: id, count: 3 })),
      ]
      const thing = chosen(things, happening.thing)!
      const why = happening.borrowed && thing.kind !== 'equipment' ? 'borrowed' : 'out-of-service'
      const after = StockChange.parse({
        ...of,
        id: `stockchange_${place.name}`,
        of: thing,
        why,
        fromAt,
        toAt: happening.forGood ? null : clearAt,
      })
      return { kind: 'stockChange', before: null, after, retire: false }
    }
    case 'back': {
      const before = chosen(snapshot.stockChanges, happening.which)
      return before && { kind: 'stockChange', before, after: before, retire: true }
    }
    case 'close': {
      const { doorsAt: fromAt, clearAt: toAt } = spanOfSlot(snapshot, place, happening)
      const closed = [
        { sectionIds: ['section_north'] },
        { sectionIds: ['section_south', 'section_side'] },
        { sectionIds: ['section_side'] },
        { storagePlaceIds: ['storage_north'] },
        { passageIds: ['passage_door'] },
        { exitIds: ['exit_north-a', 'exit_north-b', 'exit_south-a'] },
        { exitIds: ['exit_side-a'] },
        { sectionIds: ['section_north'], storagePlaceIds: ['storage_north'], passageIds: ['passage_door'] },
      ]
      const after = Closure.parse({
        ...of,
        id: `closure_${place.name}`,
        sectionIds: [],
        ...chosen(closed, happening.thing),
        fromAt,
        toAt,
        reason: 'works',
      })
      return { kind: 'closure', before: null, after, retire: false }
    }
    case 'lift': {
      const before = chosen(snapshot.closures, happening.which)
      return before && { kind: 'closure', before, after: before, retire: true }
    }
    case 'observe': {
      const room = chosen(snapshot.rooms, happening.room)!
      const after = Observation.parse({
        ...of,
        id: `observation_${place.name}`,
        roomId: room.id,
        seenAt: instantPlusSeconds(now, -happening.ago * 3600),
        pieces: [{ furnishingId: 'furnishing_chair', count: happening.chairs }],
      })
      return { kind: 'observation', before: null, after, retire: false }
    }
    case 'rates': {
      const { factor } = happening
      const after = RateSet.parse({
        ...of,
        id: `rateset_${place.name}`,
        number: (snapshot.rateSet?.number ?? 0) + 1,
        name: place.name,
        rates: {
          ...DEFAULT_RATES,
          wipeTablePersonSeconds: DEFAULT_RATES.wipeTablePersonSeconds * factor,
          alignPersonSecondsPerChair: DEFAULT_RATES.alignPersonSecondsPerChair * factor,
          trolleyHandlingSeconds: DEFAULT_RATES.trolleyHandlingSeconds * factor,
        },
        marks: {},
      })
      return { kind: 'rateSet', before: null, after, retire: false }
    }
    case 'policy': {
      const before = snapshot.policy
      const after = Policy.parse({ ...before, ...policyOf(happening.patch), id: `policy_${place.name}` })
      return { kind: 'policy', before: null, after, retire: false }
    }
    case 'change-hall':
      return changeOfHall(snapshot, happening.how)
    default:
      return happening satisfies never
  }
}

function policyOf(patch: PolicyPatch): Partial<Policy> {
  const seconds = (hours: number | null) => (hours === null ? null : hours * 3600)
  const { planningHands, replanTurnsMost, walkBetweenRoomsSeconds } = patch
  return {
    ...(planningHands === undefined ? {} : { planningHands }),
    ...(replanTurnsMost === undefined ? {} : { replanTurnsMost }),
    ...(walkBetweenRoomsSeconds === undefined ? {} : { walkBetweenRoomsSeconds }),
    ...(patch.returnHomeAfterHours === undefined
      ? {}
      : { returnHomeAfterSeconds: seconds(patch.returnHomeAfterHours) }),
    ...(patch.justInTimeFromGapHours === undefined
      ? {}
      : { justInTimeFromGapSeconds: seconds(patch.justInTimeFromGapHours) }),
    ...(patch.paidPersonHoursMost === undefined
      ? {}
      : { paidPersonSecondsMost: seconds(patch.paidPersonHoursMost) }),
  }
}

function changeOfHall(snapshot: SiteSnapshot, how: number): SetupWrite | null {
  const room = (id: string) => snapshot.rooms.find((one) => one.id === id)!
  const layout = (id: string) => snapshot.layouts.find((one) => one.id === id)!
  const hours = (opensLocal: string, closesLocal: string) => [
    { weekdays: [1, 2, 3, 4, 5, 6, 7], opensLocal, closesLocal },
  ]
  switch (how) {
    case 0: {
      const before = room('room_side')
      const openingHours = before.openingHours === null ? hours('09:00', '21:00') : null
      return { kind: 'room', before, after: { ...before, openingHours }, retire: false }
    }
    case 1: {
      const before = room('room_long')
      const after = { ...before, occupantLimitPosted: before.occupantLimitPosted === 220 ? 30 : 220 }
      return { kind: 'room', before, after, retire: false }
    }
    case 2: {
      const before = room('room_south')
      const homeLayoutId = before.homeLayoutId === null ? layout('layout_south-meeting').id : null
      return { kind: 'room', before, after: { ...before, homeLayoutId }, retire: false }
    }
    case 3: {
      const before = layout('layout_long-worship')
      const furnishings = before.furnishings.map((one) => ({ ...one, count: one.count === 75 ? 20 : 75 }))
      return { kind: 'layout', before, after: { ...before, furnishings }, retire: false }
    }
    case 4: {
      const before = snapshot.equipment.find(({ id }) => id === 'equipment_sound')!
      const warmUpSeconds = before.warmUpSeconds === 0 ? 600 : 0
      return { kind: 'equipment', before, after: { ...before, warmUpSeconds }, retire: false }
    }
    default: {
      const before = snapshot.sections.find(({ id }) => id === 'section_south')!
      const areaSquareMetres = before.areaSquareMetres === 107 ? 80 : 107
      return { kind: 'section', before, after: { ...before, areaSquareMetres }, retire: false }
    }
  }
}

/** The span that the API looks at, or what lies within the reach of it where the change has no end of its own. */
function setUpOf(snapshot: SiteSnapshot, write: SetupWrite, reachDays: number): Operation {
  const { site, now } = snapshot
  const due = snapshot.turns
    .filter(({ status, dueAt }) => status !== 'dropped' && dueAt > now)
    .map(({ dueAt }) => dueAt)
  const lastDueAt = due.length === 0 ? null : due.reduce(laterOf)
  const { span, isWhole } = spanOf(write, site.zone, now, lastDueAt)
  const reachAt = instantPlusSeconds(span.fromAt, reachDays * 86_400)
  const isCut = reachAt < span.toAt
  const toAt = isCut ? reachAt : span.toAt
  const isLater =
    due.some((at) => at >= toAt) ||
    snapshot.bookings.some((one) => isBlocking(one) && one.doorsAt < toAt && one.clearAt >= toAt)
  return {
    kind: 'set-up',
    writes: [write],
    span: { fromAt: span.fromAt, toAt },
    restFromAt: (!isWhole || isCut) && isLater ? toAt : null,
  }
}
