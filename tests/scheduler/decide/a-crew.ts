/** A hall with a crew to share out: on top of aHall, with what a policy, a shift or a booking may say beside. */
import { expect } from 'vitest'
import { Booking } from '../../../src/domain/booking.ts'
import { Closure } from '../../../src/domain/closure.ts'
import type { AnsweredReason, Decision } from '../../../src/domain/decision.ts'
import type { LaneId } from '../../../src/domain/ids.ts'
import { Layout } from '../../../src/domain/layout.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import type { Plan, PlannedTask } from '../../../src/domain/plan.ts'
import { Policy } from '../../../src/domain/policy.ts'
import type { ReasonCode } from '../../../src/domain/reason.ts'
import { Room } from '../../../src/domain/room.ts'
import { Section } from '../../../src/domain/section.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { StoragePlace } from '../../../src/domain/storage-place.ts'
import type { Turn } from '../../../src/domain/turn.ts'
import { brokenInvariants, decide } from '../../../src/scheduler/decide/index.ts'
import { aBooking, aHall, aShift, at, type BookingWishes, type HallWishes, snapshotAfter } from './a-hall.ts'

/** On 5 June 2026, the day of these tests. */
export const on5th = (time: string) => at(`2026-06-05T${time}`)

/** Unnamed adults on duty on 5 June. */
export const duty = (name: string, hands: number, from: string, to: string, skills: readonly string[] = []) =>
  aShift(name, hands, `2026-06-05T${from}`, `2026-06-05T${to}`, skills)

/** A section in which nobody can work in the days before, until a time of 5 June. */
export const locked = (section: string, until: string): Closure =>
  Closure.parse({
    id: `closure_${section}`,
    siteId: 'site_test',
    sectionIds: [`section_${section}`],
    fromAt: at('2026-06-01T00:00'),
    toAt: on5th(until),
    reason: 'locked',
  })

export interface CrewWishes extends HallWishes {
  readonly policy?: Partial<Policy>
  /** The side room and the others hear each other. */
  readonly isJoined?: boolean
}

export function aCrew({ policy, isJoined = false, ...wishes }: CrewWishes): SiteSnapshot {
  const hall = aHall(wishes)
  return {
    ...hall,
    policy: Policy.parse({ ...hall.policy, workMost: 20, ...policy }),
    // That one of them says so is enough.
    rooms: hall.rooms.map((room) =>
      isJoined && room.id === 'room_side'
        ? {
            ...room,
            acousticallyJoinedRoomIds: hall.rooms.map(({ id }) => id).filter((id) => id !== room.id),
          }
        : room,
    ),
  }
}

/** Doors and clear by the clock of 5 June, or in full; beside them whatever a booking may say. */
export function aUse(
  name: string,
  layout: string,
  doors: string,
  clear: string,
  beside: object = {},
): Booking {
  const inFull = (time: string) => (time.includes('T') ? time : `2026-06-05T${time}`)
  const wishes: BookingWishes = { name, layout, doors: inFull(doors), clear: inFull(clear) }
  return Booking.parse({ ...aBooking(wishes), ...beside })
}

export const asked = (booking: Booking): Operation => ({ kind: 'book', booking })

export const changed = (booking: Booking): Operation => ({
  kind: 'change',
  booking: { ...booking, version: booking.version + 1 },
})

export interface Decided {
  readonly decision: Decision
  readonly snapshot: SiteSnapshot
}

/** What is decided is written, and all that must be true of a site then is. */
export function decided(snapshot: SiteSnapshot, ...operations: readonly Operation[]): Decided {
  const decision = decide(snapshot, operations, { withoutAlternatives: true })
  if (decision.changes === null) return { decision, snapshot }
  const next = snapshotAfter(snapshot, decision.changes)
  expect(brokenInvariants(next)).toEqual([])
  return { decision, snapshot: next }
}

/** One after the other; none may be refused. */
export const withBookings = (hall: SiteSnapshot, ...bookings: readonly Booking[]): SiteSnapshot =>
  bookings.reduce((before, booking) => {
    const { decision, snapshot } = decided(before, asked(booking))
    if (decision.changes === null) throw new Error(`refused: ${sentences(decision).join(' ')}`)
    return snapshot
  }, hall)

export const sentences = ({ reasons }: Decision): string[] => reasons.map(({ message }) => message)

export function reasonIn<Code extends ReasonCode>(
  { reasons }: Decision,
  code: Code,
): Extract<AnsweredReason, { code: Code }> {
  const found = reasons.find(
    (reason): reason is Extract<AnsweredReason, { code: Code }> => reason.code === code,
  )
  if (!found) throw new Error(`no ${code} among ${reasons.map((one) => one.code).join(', ') || 'no reasons'}`)
  return found
}

export function turnOf({ turns }: SiteSnapshot, name: string): Turn {
  const turn = turns.find(({ id }) => id === `turn_${name}`)
  if (!turn) throw new Error(`${name} has no turn`)
  return turn
}

export function planOf(snapshot: SiteSnapshot, name: string): Plan {
  const { plan } = turnOf(snapshot, name)
  if (!plan) throw new Error(`the turn of ${name} has no plan`)
  return plan
}

/** Hands at what the event itself asks for. */
export const dutiesIn = ({ tasks }: Plan): PlannedTask[] => tasks.filter(({ kind }) => kind === 'duty')
/** Hands at the work of the turn. */
export const workIn = ({ tasks }: Plan): PlannedTask[] =>
  tasks.filter(({ kind }) => kind !== 'duty' && kind !== 'event')

export const handsAt = (tasks: readonly PlannedTask[]): LaneId[] =>
  [...new Set(tasks.flatMap(({ laneIds }) => laneIds))].sort()

export const during = (tasks: readonly PlannedTask[], fromAt: number, toAt: number): PlannedTask[] =>
  tasks.filter(({ startsAt, endsAt }) => startsAt < toAt && fromAt < endsAt)

/** As many rooms more, each with one layout of so many chairs: `layout_r1-chairs` in `room_r1`, and so on. */
export function withSmallRooms(hall: SiteSnapshot, count: number, chairs = 8): SiteSnapshot {
  const names = Array.from({ length: count }, (_, index) => `r${index + 1}`)
  const { siteId } = hall.policy
  const [store, ...stores] = hall.storagePlaces
  return {
    ...hall,
    sections: [
      ...hall.sections,
      ...names.map((name) =>
        Section.parse({ id: `section_${name}`, siteId, name, areaSquareMetres: 40, floorKind: 'vinyl' }),
      ),
    ],
    rooms: [
      ...hall.rooms,
      ...names.map((name) =>
        Room.parse({
          id: `room_${name}`,
          siteId,
          name,
          sectionIds: [`section_${name}`],
          occupantLimitPosted: 60,
          homeLayoutId: null,
          openingHours: null,
        }),
      ),
    ],
    layouts: [
      ...hall.layouts,
      ...names.map((name) =>
        Layout.parse({
          id: `layout_${name}-chairs`,
          siteId,
          roomId: `room_${name}`,
          name: `${name} chairs`,
          kind: 'meeting',
          seats: 30,
          furnishings: [{ furnishingId: 'furnishing_chair', count: chairs }],
          equipment: [],
        }),
      ),
    ],
    storagePlaces: [
      StoragePlace.parse({
        ...store,
        routes: [...store!.routes, ...names.map((name) => ({ roomId: `room_${name}`, distanceMetres: 10 }))],
      }),
      ...stores,
    ],
  }
}
