/** One thing happens at the hall, drawn by lot: a request is sent, as somebody who knows the hall would send it. */
import type { Response } from 'supertest'
import { z } from 'zod'
import { Instant, instantPlusSeconds } from '../../src/domain/instant.ts'
import type { LocalDate } from '../../src/domain/units.ts'
import { dateAfter, instantOfLocal, isoInZone, weekdayOf } from '../../src/scheduler/timeline/wall-time.ts'
import { Known, type Life } from './a-life.ts'
import type { Chances } from './wishes.ts'

type Happening = (life: Life, today: LocalDate, chance: Chances) => Promise<Response | null>

/** Each with how often it comes. */
const happenings: readonly (readonly [name: string, times: number, happening: Happening])[] = [
  ['book', 26, (life, today, chance) => book(life, wanted(life, today, chance))],
  ['hold', 8, hold],
  ['confirm', 4, confirm],
  ['change', 12, change],
  ['cancel', 6, cancel],
  ['link', 4, link],
  ['unlink', 1, unlink],
  ['clear-later', 8, clearLater],
  ['day-off', 5, dayOff],
  ['extra-shift', 4, extraShift],
  ['close', 5, close],
  ['end', 5, end],
  ['away', 4, away],
  ['observe', 3, observe],
  ['policy', 3, policy],
  ['rates', 2, rates],
]
const lots = happenings.flatMap((one) => Array.from({ length: one[1] }, () => one))

/** What may be answered: it is done, it cannot be decided on, or it does not fit. Anything else is a slip of this file. */
const answersAllowed: readonly number[] = [200, 201, 409]

/** @throws Error when it is answered otherwise */
export async function happen(life: Life, today: LocalDate, chance: Chances): Promise<void> {
  const [name, , happening] = chance.any(lots)!
  const response = await happening(life, today, chance)
  const answer = response === null ? 'nothing' : answerOf(response)
  const key = `${name} ${answer}`
  life.answers.set(key, (life.answers.get(key) ?? 0) + 1)
  if (response && !answersAllowed.includes(response.status)) {
    const at = isoInZone(life.service.now(), life.zone)
    throw new Error(`${key} at ${at} in life ${life.seed} of ${life.zone}: ${response.text}`)
  }
}

function answerOf({ status, body }: Response): string {
  const type = z.looseObject({ type: z.string() }).safeParse(body)
  return type.success ? `${status} ${type.data.type.split('/').at(-1)}` : String(status)
}

const localAt = (date: LocalDate, minutes: number): string => {
  const two = (number: number) => String(number).padStart(2, '0')
  return `${date}T${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`
}

/** Some days ahead, from 08:00 to 21:45 by the wall clock, on the quarters of an hour. */
function wantedTimes({ service, zone }: Life, today: LocalDate, chance: Chances) {
  const date = dateAfter(today, chance.below(6))
  const begin = 8 * 60 + 15 * chance.below(44)
  const length = chance.oneOf([60, 90, 120, 180])
  const isSoon =
    instantOfLocal(zone, date, localAt(date, begin).slice(11)) <= instantPlusSeconds(service.now(), 900)
  // What would have begun already is asked for a day later.
  const day = isSoon ? dateAfter(date, 1) : date
  // A fair, a retreat: some stay for days.
  const lastDay = chance.below(14) === 0 ? dateAfter(day, 1 + chance.below(3)) : day
  return {
    startsAt: localAt(day, begin),
    endsAt: localAt(lastDay, Math.min(begin + length, 23 * 60)),
    seatsUpAt: localAt(day, begin - 45),
    theDayBefore: {
      fromAt: localAt(dateAfter(day, -1), begin),
      toAt: localAt(dateAfter(day, -1), begin + 15),
    },
    theDayAfter: {
      fromAt: localAt(dateAfter(lastDay, 1), begin - 60),
      toAt: localAt(dateAfter(lastDay, 1), begin - 45),
    },
  }
}

function wanted(life: Life, today: LocalDate, chance: Chances) {
  const { seats, ...place } = chance.any(life.hall.layouts)!
  const { seatsUpAt, theDayBefore, theDayAfter, ...times } = wantedTimes(life, today, chance)
  const atTheDoor = { fromAt: times.startsAt, toAt: times.startsAt.replace(/T.*/, 'T23:30') }
  const isOneIn = (many: number) => chance.below(many) === 0
  return {
    title: `Event of ${today}`,
    ...place,
    ...times,
    headcount: isOneIn(12) ? 60 : 1 + chance.below(seats),
    foodServed: isOneIn(3),
    floorWet: isOneIn(8),
    quietNeeded: isOneIn(4),
    priority: chance.below(2),
    ...(isOneIn(5) ? { ownHelp: { hands: 4, seconds: 600 } } : {}),
    ...(isOneIn(6)
      ? { crewDemands: [{ what: 'door', ...chance.oneOf([atTheDoor, theDayBefore, theDayAfter]), hands: 1 }] }
      : {}),
    ...(isOneIn(8) ? { milestones: [{ milestone: 'seats-up', byAt: seatsUpAt }] } : {}),
    ...(isOneIn(8) ? { takeRisk: { why: 'we will manage' } } : {}),
  }
}

const WithBooking = z.object({ booking: Known })
const WithBookings = z.object({ bookings: z.array(Known) })

/** What stands is known as it was last answered. */
function remember({ bookings }: Life, answered: readonly Known[]): void {
  for (const booking of answered) {
    const at = bookings.findIndex(({ id }) => id === booking.id)
    if (at >= 0) bookings.splice(at, 1)
    if (booking.status !== 'CANCELLED') bookings.push(booking)
  }
}

function rememberAnswer(life: Life, { status, body }: Response): void {
  if (status >= 300) return
  const one = WithBooking.safeParse(body)
  remember(life, one.success ? [one.data.booking] : (WithBookings.safeParse(body).data?.bookings ?? []))
}

/** One that is not over, as it stands; null: there is none, or the one that was thought of has been given up. */
async function coming(
  life: Life,
  chance: Chances,
  is: (one: Known) => boolean = () => true,
): Promise<Known | null> {
  const { bookings, service, hall } = life
  const now = service.now()
  const chosen = chance.any(bookings.filter((one) => Date.parse(one.clearAt) > now && is(one)))
  if (!chosen) return null
  const booking = Known.parse((await service.get(`${hall.path}/bookings/${chosen.id}`)).body)
  remember(life, [booking])
  const isOver = booking.holdExpiresAt !== null && Date.parse(booking.holdExpiresAt) <= now
  return booking.status === 'CANCELLED' || (booking.status === 'TENTATIVE' && isOver) ? null : booking
}

async function book(life: Life, body: object): Promise<Response> {
  const response = await life.service.post(`${life.hall.path}/bookings`, body)
  rememberAnswer(life, response)
  return response
}

async function hold(life: Life, today: LocalDate, chance: Chances): Promise<Response> {
  const { takeRisk: _, ...body } = { takeRisk: null, ...wanted(life, today, chance) }
  const { service, zone } = life
  const until = instantPlusSeconds(service.now(), 3600 * chance.oneOf([2, 9, 30]))
  const doorsAt = instantPlusSeconds(
    instantOfLocal(zone, body.startsAt.slice(0, 10), body.startsAt.slice(11)),
    -900,
  )
  const expiresAt = isoInZone(Instant.parse(Math.min(until, doorsAt)), zone)
  return book(life, { ...body, hold: { expiresAt } })
}

async function confirm(life: Life, _today: LocalDate, chance: Chances): Promise<Response | null> {
  const one = await coming(life, chance, ({ status }) => status === 'TENTATIVE')
  if (!one) return null
  const response = await life.service.post(`${life.hall.path}/bookings/${one.id}/confirm`, {})
  rememberAnswer(life, response)
  return response
}

async function change(life: Life, today: LocalDate, chance: Chances): Promise<Response | null> {
  const one = await coming(life, chance)
  if (!one) return null
  const {
    takeRisk,
    crewDemands: _crew,
    milestones: _milestones,
    startsAt,
    endsAt,
    ...rest
  } = {
    takeRisk: undefined,
    crewDemands: [],
    milestones: [],
    ...wanted(life, today, chance),
  }
  const body: object = chance.oneOf<object>([
    { startsAt, endsAt, crewDemands: [], milestones: [] },
    { roomId: rest.roomId, layoutId: rest.layoutId },
    { headcount: rest.headcount, foodServed: rest.foodServed, quietNeeded: rest.quietNeeded },
    { title: `${rest.title}, once more` },
    { ownHelp: chance.below(2) === 0 ? null : { hands: 6, seconds: 900 } },
  ])
  const response = await life.service.patch(`${life.hall.path}/bookings/${one.id}`, {
    ...body,
    ...(takeRisk ? { takeRisk } : {}),
  })
  rememberAnswer(life, response)
  return response
}

async function cancel(life: Life, _today: LocalDate, chance: Chances): Promise<Response | null> {
  const one = await coming(life, chance)
  if (!one) return null
  const response = await life.service.delete(`${life.hall.path}/bookings/${one.id}`)
  rememberAnswer(life, response)
  return response
}

async function link(life: Life, _today: LocalDate, chance: Chances): Promise<Response | null> {
  const [one, other] = [await coming(life, chance), await coming(life, chance)]
  if (!one || !other || one.id === other.id) return null
  if (one.status !== other.status) return null
  const isOnePlace = one.roomId === other.roomId && one.layoutId === other.layoutId
  const body = { bookingIds: [one.id, other.id], keepAsSet: isOnePlace && chance.below(2) === 0 }
  const response = await life.service.post(`${life.hall.path}/links`, body)
  const linked = z.object({ link: z.object({ id: z.string() }) }).safeParse(response.body)
  if (linked.success) life.links.push(linked.data.link.id)
  return response
}

async function unlink(life: Life, _today: LocalDate, chance: Chances): Promise<Response | null> {
  const id = chance.any(life.links)
  if (!id) return null
  life.links.splice(life.links.indexOf(id), 1)
  const read = await life.service.get(`${life.hall.path}/links/${id}`)
  // All of its bookings may have been cancelled, or linked otherwise.
  return read.status === 404 ? null : life.service.delete(`${life.hall.path}/links/${id}`)
}

/** Those that are there stay longer, as people do; seldom it is said beforehand. */
async function clearLater(life: Life, _today: LocalDate, chance: Chances): Promise<Response | null> {
  const { service, zone } = life
  const isThere = ({ doorsAt }: Known) => Date.parse(doorsAt) <= service.now()
  const one =
    (await coming(life, chance, isThere)) ?? (chance.below(3) === 0 ? await coming(life, chance) : null)
  if (!one) return null
  const from = Instant.parse(Date.parse(one.overrunsUntilAt ?? one.clearAt))
  const clearAt = isoInZone(instantPlusSeconds(from, 60 * chance.oneOf([10, 25, 60, 150])), zone)
  const response = await service.post(`${life.hall.path}/bookings/${one.id}/clear-later`, { clearAt })
  rememberAnswer(life, response)
  return response
}

/** Somebody of a weekly shift does not turn up, today or one of the next days. */
async function dayOff(life: Life, today: LocalDate, chance: Chances): Promise<Response | null> {
  const shift = chance.any(life.hall.shifts)!
  const date = dateAfter(today, chance.below(4))
  const off = life.daysOff.get(shift.id) ?? []
  if (!shift.weekdays.includes(weekdayOf(date)) || off.includes(date)) return null
  const path = `${life.hall.path}/shifts/${shift.id}`
  const { times } = z.object({ times: z.looseObject({}) }).parse((await life.service.get(path)).body)
  const days = [...off, date]
  const exceptions = days.map((one) => ({ kind: 'off', date: one }))
  life.daysOff.set(shift.id, days)
  return life.service.patch(path, { times: { ...times, exceptions } })
}

async function extraShift(life: Life, today: LocalDate, chance: Chances): Promise<Response> {
  const { startsAt, endsAt } = wantedTimes(life, today, chance)
  const skills = chance.below(3) === 0 ? ['sound'] : []
  const crew = { kind: 'hands', hands: 1 + chance.below(2), adults: true, skills }
  const times = { kind: 'once', startsAt, endsAt }
  return endable(life, 'shifts', { name: 'Extra', crew, times, paid: chance.below(2) === 0 })
}

async function close(life: Life, today: LocalDate, chance: Chances): Promise<Response> {
  const { sectionIds, exitIds, storagePlaceId, passageId } = life.hall
  const what = chance.oneOf<object>([
    { sectionIds: sectionIds.slice(chance.below(3)).slice(0, 1) },
    { sectionIds: [], storagePlaceIds: [storagePlaceId] },
    { sectionIds: [], passageIds: [passageId] },
    { sectionIds: [], exitIds: [chance.any(exitIds)] },
  ])
  const { startsAt: fromAt, endsAt: toAt } = wantedTimes(life, today, chance)
  return endable(life, 'closures', { ...what, fromAt, toAt, reason: 'a leak' })
}

async function away(life: Life, today: LocalDate, chance: Chances): Promise<Response> {
  const { chairId, tableId, soundId } = life.hall
  const of = chance.oneOf([
    { kind: 'furnishing', furnishingId: chairId, count: 10 * (1 + chance.below(2)) },
    { kind: 'furnishing', furnishingId: tableId, count: 1 },
    { kind: 'equipment', equipmentId: soundId },
  ])
  const { startsAt: fromAt, endsAt: toAt } = wantedTimes(life, today, chance)
  return endable(life, 'stock-changes', { of, why: 'out-of-service', fromAt, toAt })
}

async function endable(life: Life, segment: string, body: object): Promise<Response> {
  const response = await life.service.post(`${life.hall.path}/${segment}`, body)
  if (response.status === 201) life.endable.push(String(response.headers.location))
  return response
}

async function end(life: Life, _today: LocalDate, chance: Chances): Promise<Response | null> {
  const path = chance.any(life.endable)
  if (!path) return null
  life.endable.splice(life.endable.indexOf(path), 1)
  return life.service.delete(path)
}

async function observe(life: Life, _today: LocalDate, chance: Chances): Promise<Response> {
  const { hall, service, zone } = life
  const { roomId } = chance.any(hall.layouts)!
  const pieces = [{ furnishingId: hall.chairId, count: 1 + chance.below(20) }]
  const seenAt = isoInZone(instantPlusSeconds(service.now(), -60 * chance.below(90)), zone)
  return service.post(`${hall.path}/observations`, { roomId, seenAt, pieces })
}

async function policy(life: Life, _today: LocalDate, chance: Chances): Promise<Response> {
  return life.service.post(
    `${life.hall.path}/policies`,
    chance.oneOf<object>([
      { returnHomeAfterSeconds: chance.oneOf<number | null>([null, 6 * 3600, 40 * 3600]) },
      { planningHands: chance.below(2) },
      { justInTimeFromGapSeconds: chance.oneOf<number | null>([null, 8 * 3600]) },
      { replanTurnsMost: chance.oneOf([0, 4, 24]) },
      { paidPersonSecondsMost: chance.oneOf<number | null>([null, 3600]) },
      { walkBetweenRoomsSeconds: chance.oneOf([60, 240]) },
    ]),
  )
}

async function rates(life: Life, _today: LocalDate, chance: Chances): Promise<Response> {
  const rates = {
    trolleyHandlingSeconds: 20 + chance.below(30),
    alignPersonSecondsPerChair: 1 + chance.below(4),
  }
  return life.service.post(`${life.hall.path}/rate-sets`, { name: 'timed', rates })
}
