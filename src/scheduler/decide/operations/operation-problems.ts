/** What is wrong with operations that cannot even be judged: the caller's mistakes, told apart from a "no". */
import { BOOKING_LONGEST_SECONDS, type Booking, isBlocking, leftAt } from '../../../domain/booking.ts'
import type { BookingId, RoomId } from '../../../domain/ids.ts'
import { secondsBetween } from '../../../domain/instant.ts'
import type { Operation } from '../../../domain/operation.ts'
import type { SetupWrite } from '../../../domain/setup.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import { dayAndTimeOf } from '../../timeline/wall-time.ts'
import { someText } from '../../wording/list-text.ts'
import { keepsNoSet, roomsOf } from './kept-as-set.ts'
import { byDoors, membersOf, withItsLink } from './linked-bookings.ts'
import { milestonesOfNobody } from './milestones-of-nobody.ts'
import { underWaySince } from './under-way.ts'

export interface OperationProblem {
  readonly code:
    | 'unknown-id'
    | 'wrong-order'
    | 'too-long'
    | 'version-mismatch'
    | 'already-begun'
    | 'hold-is-over'
    | 'not-a-hold'
    | 'not-linked'
    | 'keeps-no-set'
  /** JSON pointer to the field, '' for the whole. */
  readonly at: string
  readonly message: string
}

/** @returns in order of operations; empty: they can be decided on */
export function operationProblems(
  snapshot: SiteSnapshot,
  operations: readonly Operation[],
): OperationProblem[] {
  const problems = operations.flatMap((operation): OperationProblem[] => {
    switch (operation.kind) {
      case 'book':
      case 'hold':
        return [
          ...(operation.kind === 'hold' ? holdProblems(snapshot, operation.booking) : []),
          ...bookingProblems(snapshot, operation.booking),
          ...inThePast(snapshot, operation.booking),
          ...intoBegunTurn(snapshot, operation.booking),
        ]
      case 'change':
        return [
          ...bookingProblems(snapshot, operation.booking),
          ...changeProblems(snapshot, operation.booking),
          ...intoBegunTurn(snapshot, operation.booking),
        ]
      case 'confirm':
        return confirmProblems(snapshot, operation)
      case 'lapse':
        return lapseProblems(snapshot, operation.bookingId)
      case 'cancel':
        return cancelProblems(snapshot, operation)
      case 'clear-later':
        return clearLaterProblems(snapshot, operation)
      case 'link':
        return linkProblems(snapshot, operation)
      case 'unlink':
        return membersOf(snapshot.bookings, operation.linkId).length > 0
          ? []
          : [{ code: 'not-linked', at: '', message: `no bookings to come have the link ${operation.linkId}` }]
      case 'set-up':
        return setUpProblems(snapshot, operation)
      case 'judge':
      case 'polish':
        return []
      default:
        return operation satisfies never
    }
  })
  if (problems.length > 0) return problems
  return milestonesOfNobody(snapshot, operations).map((one) => ({ code: 'wrong-order', ...one }))
}

function bookingProblems(snapshot: SiteSnapshot, booking: Booking): OperationProblem[] {
  const problems: OperationProblem[] = []
  const say = (code: OperationProblem['code'], at: string, message: string) =>
    problems.push({ code, at, message })
  if (!snapshot.rooms.some((room) => room.id === booking.roomId)) {
    say('unknown-id', '/roomId', `there is no room ${booking.roomId} at this site`)
  }
  const layout = snapshot.layouts.find((one) => one.id === booking.layoutId)
  if (!layout) {
    say('unknown-id', '/layoutId', `there is no layout ${booking.layoutId} at this site`)
  } else if (layout.roomId !== booking.roomId) {
    say(
      'unknown-id',
      '/layoutId',
      `${booking.layoutId} is a layout of ${layout.roomId}, not of ${booking.roomId}`,
    )
  }
  if (booking.doorsAt > booking.startsAt) say('wrong-order', '/doorsAt', 'doors must not be after the start')
  if (booking.startsAt >= booking.endsAt) say('wrong-order', '/endsAt', 'the end must be after the start')
  if (booking.endsAt > booking.clearAt) say('wrong-order', '/clearAt', 'clear must not be before the end')
  if (secondsBetween(booking.doorsAt, booking.clearAt) > BOOKING_LONGEST_SECONDS) {
    say('too-long', '/clearAt', 'a booking holds a room for 31 days at most; split it')
  }
  return problems
}

function inThePast(snapshot: SiteSnapshot, booking: Booking): OperationProblem[] {
  if (booking.doorsAt > snapshot.now) return []
  return [{ code: 'already-begun', at: '/doorsAt', message: 'doors must lie in the future' }]
}

function holdProblems(snapshot: SiteSnapshot, { holdExpiresAt }: Booking): OperationProblem[] {
  if (holdExpiresAt !== null && holdExpiresAt > snapshot.now) return []
  return [{ code: 'wrong-order', at: '/hold/expiresAt', message: 'a hold must end in the future' }]
}

type OnBooking<Kind extends Operation['kind']> = Extract<Operation, { kind: Kind }>

function confirmProblems(
  snapshot: SiteSnapshot,
  { bookingId, versionExpected }: OnBooking<'confirm'>,
): OperationProblem[] {
  const stored = snapshot.bookings.find(({ id }) => id === bookingId)
  if (!stored || !isBlocking(stored)) return [unknownBooking(bookingId)]
  if (versionExpected !== null && versionExpected !== stored.version) return [versionMismatch(stored)]
  if (stored.status !== 'TENTATIVE')
    return [{ code: 'not-a-hold', at: '', message: `${stored.title} is firm already` }]
  // With one of a link that is over all of it falls.
  const over = withItsLink(snapshot.bookings, stored).find((hold) => isOver(snapshot, hold))
  if (!over?.holdExpiresAt) return []
  const since = dayAndTimeOf(over.holdExpiresAt, snapshot.site.zone)
  const which = over === stored ? 'the hold' : `the hold of ${over.title}, which it is linked with,`
  return [{ code: 'hold-is-over', at: '', message: `${which} was over at ${since}; ask for the time anew` }]
}

const isOver = (snapshot: SiteSnapshot, { status, holdExpiresAt }: Booking): boolean =>
  status === 'TENTATIVE' && holdExpiresAt !== null && holdExpiresAt <= snapshot.now

function lapseProblems(snapshot: SiteSnapshot, bookingId: BookingId): OperationProblem[] {
  const stored = snapshot.bookings.find(({ id }) => id === bookingId)
  if (!stored) return [unknownBooking(bookingId)]
  if (isOver(snapshot, stored)) return []
  return [{ code: 'not-a-hold', at: '', message: `${stored.title} is no hold that is over` }]
}

function clearLaterProblems(
  snapshot: SiteSnapshot,
  { bookingId, clearAt, versionExpected }: OnBooking<'clear-later'>,
): OperationProblem[] {
  const stored = snapshot.bookings.find(({ id }) => id === bookingId)
  if (!stored || !isBlocking(stored)) return [unknownBooking(bookingId)]
  if (versionExpected !== null && versionExpected !== stored.version) return [versionMismatch(stored)]
  if (clearAt <= leftAt(stored)) {
    const planned = dayAndTimeOf(leftAt(stored), snapshot.site.zone)
    return [
      { code: 'wrong-order', at: '/clearAt', message: `clear is planned for ${planned}; give a later one` },
    ]
  }
  if (secondsBetween(stored.doorsAt, clearAt) > BOOKING_LONGEST_SECONDS)
    return [
      { code: 'too-long', at: '/clearAt', message: 'a booking holds a room for 31 days at most; split it' },
    ]
  return []
}

function linkProblems(snapshot: SiteSnapshot, operation: OnBooking<'link'>): OperationProblem[] {
  const members: Booking[] = []
  for (const [index, id] of operation.bookingIds.entries()) {
    const booking = snapshot.bookings.find((one) => one.id === id)
    const at = `/bookingIds/${index}`
    if (!booking || !isBlocking(booking)) return [{ ...unknownBooking(id), at }]
    if (operation.bookingIds.indexOf(id) !== index)
      return [{ code: 'wrong-order', at, message: `${id} is named twice` }]
    members.push(booking)
  }
  const holds = members.filter(({ status }) => status === 'TENTATIVE')
  if (holds.length > 0 && holds.length < members.length)
    return [{ code: 'keeps-no-set', at: '/bookingIds', message: holdsWithFirm(holds) }]
  if (!operation.keepAsSet) return []
  const message = keepsNoSet(members.sort(byDoors), roomsOf(snapshot))
  return message === null ? [] : [{ code: 'keeps-no-set', at: '/keepAsSet', message }]
}

/** A hold lapses by itself, and nothing firm may fall by that. @param holds  at least one */
function holdsWithFirm(holds: readonly Booking[]): string {
  const titles = someText(holds.map(({ title }) => `“${title}”`))
  return holds.length === 1
    ? `${titles} is only a hold: if it lapsed, the firm ones would fall with it; confirm the hold first, then link them`
    : `${titles} are only holds: if they lapsed, the firm ones would fall with them; confirm the holds first, then link them`
}

function changeProblems(snapshot: SiteSnapshot, booking: Booking): OperationProblem[] {
  const stored = snapshot.bookings.find((one) => one.id === booking.id)
  if (!stored) return [unknownBooking(booking.id)]
  if (stored.version + 1 !== booking.version) return [versionMismatch(stored)]
  const begun = begunAt(snapshot, stored)
  const moves =
    stored.roomId !== booking.roomId ||
    stored.layoutId !== booking.layoutId ||
    stored.doorsAt !== booking.doorsAt
  if (begun !== null && moves) {
    const since = dayAndTimeOf(begun, snapshot.site.zone)
    const message = `its room is being set up since ${since}: room, layout and doors stay; the end may still move`
    return [{ code: 'already-begun', at: '', message }]
  }
  return stored.doorsAt === booking.doorsAt ? [] : inThePast(snapshot, booking)
}

function cancelProblems(
  snapshot: SiteSnapshot,
  operation: Extract<Operation, { kind: 'cancel' }>,
): OperationProblem[] {
  const stored = snapshot.bookings.find((one) => one.id === operation.bookingId)
  if (!stored) return [unknownBooking(operation.bookingId)]
  if (operation.versionExpected !== null && operation.versionExpected !== stored.version)
    return [versionMismatch(stored)]
  if (stored.doorsAt > snapshot.now) return []
  return [
    {
      code: 'already-begun',
      at: '',
      message: 'its doors are open already: change its end and clear instead of cancelling',
    },
  ]
}

/** Somebody may have changed or retired a row since the one that is to be changed was read. */
function setUpProblems(
  snapshot: SiteSnapshot,
  { writes }: Extract<Operation, { kind: 'set-up' }>,
): OperationProblem[] {
  return writes.flatMap(({ kind, before, after }): OperationProblem[] => {
    if (before === null || kind === 'policy' || kind === 'rateSet') return []
    const known = rowsOfKind(snapshot, kind)
    // Closures and observations outside the window are not in the snapshot; the commit looks at them itself.
    if (known === null || known.some(({ id }) => id === after.id)) return []
    const message = `${after.id} is not in force any more; read it again`
    return [{ code: 'version-mismatch', at: '', message }]
  })
}

function rowsOfKind(
  snapshot: SiteSnapshot,
  kind: SetupWrite['kind'],
): readonly { readonly id: string }[] | null {
  switch (kind) {
    case 'shift':
      return snapshot.shifts
    case 'room':
      return snapshot.rooms
    case 'layout':
      return snapshot.layouts
    case 'equipment':
      return snapshot.equipment
    case 'furnishing':
      return snapshot.furnishings
    case 'storagePlace':
      return snapshot.storagePlaces
    default:
      return null
  }
}

/** When work for it began: its turn is under way or done, or its doors are open. null: not yet. */
function begunAt(snapshot: SiteSnapshot, booking: Booking) {
  const turn = snapshot.turns.find(({ id }) => id === booking.turnId)
  const begun = turn ? underWaySince(turn, snapshot.now) : null
  if (begun !== null) return begun
  return booking.doorsAt <= snapshot.now ? booking.doorsAt : null
}

/**
 * The room is already being set up for what comes next. What a booking in between would start from is then neither
 * the layout before nor the one after, and nobody has said what it is: no verdict would be worth anything.
 */
function intoBegunTurn(snapshot: SiteSnapshot, booking: Booking): OperationProblem[] {
  const stored = snapshot.bookings.find(({ id }) => id === booking.id)
  // That its doors are past is said already.
  if (booking.doorsAt <= snapshot.now && booking.doorsAt !== stored?.doorsAt) return []
  const sectionsOf = (roomId: RoomId) => snapshot.rooms.find((room) => room.id === roomId)?.sectionIds ?? []
  const wanted = sectionsOf(booking.roomId)
  const turnsById = new Map(snapshot.turns.map((turn) => [turn.id, turn]))
  return snapshot.bookings
    .filter((other) => other.id !== booking.id && isBlocking(other) && other.doorsAt > booking.doorsAt)
    .filter((other) => sectionsOf(other.roomId).some((sectionId) => wanted.includes(sectionId)))
    .filter(
      (other) => (turnsById.get(other.turnId)?.plan?.startsAt ?? Number.POSITIVE_INFINITY) <= snapshot.now,
    )
    .sort((a, b) => a.doorsAt - b.doorsAt || (a.id < b.id ? -1 : 1))
    .slice(0, 1)
    .map((other) => ({
      code: 'already-begun',
      at: '/doorsAt',
      message: `the room is already being set up for ${other.id}; take doors after ${dayAndTimeOf(other.clearAt, snapshot.site.zone)}`,
    }))
}

const unknownBooking = (id: string): OperationProblem => ({
  code: 'unknown-id',
  at: '',
  message: `there is no booking ${id} at this site that could be changed`,
})

const versionMismatch = (stored: Booking): OperationProblem => ({
  code: 'version-mismatch',
  at: '',
  message: `the booking has changed since it was read: it is at version ${stored.version}; read it again`,
})
