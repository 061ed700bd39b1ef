/** Bookings and turns name each other, a turn is dropped with its booking, and its plan is whole and its own. */
import type { Booking } from '../domain/booking.ts'
import { homeTurnId } from '../domain/home-turn-id.ts'
import type { BookingId, SiteId } from '../domain/ids.ts'
import { Plan } from '../domain/plan.ts'
import { planTextHash } from '../store/plan-hash.ts'
import type { StoredFile } from '../store/stored-file.ts'
import { ROWS_A_PAGE, readableBookings, readableTurns, storedRows, type TurnAlone } from './read-columns.ts'
import { type StoredFault, whyUnreadable } from './stored-fault.ts'

type Named = Pick<Booking, 'turnId' | 'status'>

export function* turnFaults(file: StoredFile, siteId: SiteId): Generator<StoredFault> {
  const bookings = new Map<BookingId, Named>()
  for (const { id, turnId, status } of readableBookings(file, siteId)) bookings.set(id, { turnId, status })
  const found = new Set<BookingId>()
  for (const turn of readableTurns(file, siteId)) {
    const booking = bookings.get(turn.bookingId)
    if (booking?.turnId === turn.id) found.add(turn.bookingId)
    for (const what of booking ? faultsBeside(turn, booking) : [])
      yield { siteId, where: `turn ${turn.id}`, what }
  }
  for (const [id, { turnId }] of bookings)
    if (!found.has(id)) yield { siteId, where: `booking ${id}`, what: `its turn ${turnId} is not there` }
  yield* planFaults(file, siteId)
}

function faultsBeside(turn: TurnAlone, booking: Named): string[] {
  const faults: string[] = []
  if (turn.purpose === 'prepare' && booking.turnId !== turn.id)
    faults.push(`prepares ${turn.bookingId}, which names ${booking.turnId}`)
  if (turn.purpose === 'return-home' && homeTurnId(booking.turnId) !== turn.id)
    faults.push(`follows ${turn.bookingId}, whose turn is ${booking.turnId}`)
  if (booking.status === 'CANCELLED' && turn.status !== 'dropped')
    faults.push(`stands, and ${turn.bookingId} is cancelled`)
  if (turn.purpose === 'prepare' && booking.status !== 'CANCELLED' && turn.status === 'dropped')
    faults.push(`is dropped, and ${turn.bookingId} stands`)
  return faults
}

/** What the row of a turn says of its plan. */
interface Told {
  readonly startsAt: unknown
  readonly readyAt: unknown
  /** null: the plan holds nothing once the turn is due. */
  readonly heldUntilAt: unknown
  readonly dueAt: number
  readonly status: unknown
}

function* planFaults(file: StoredFile, siteId: SiteId): Generator<StoredFault> {
  const toldOf = new Map<string, Told>()
  for (const { id, planStartsAt, planReadyAt, heldUntilAt, dueAt, status } of storedRows(
    file,
    'turn',
    siteId,
  ))
    toldOf.set(String(id), {
      startsAt: planStartsAt,
      readyAt: planReadyAt,
      heldUntilAt,
      dueAt: Number(dueAt),
      status,
    })
  for (const { turnId, hash, document } of storedPlans(file, siteId)) {
    const told = toldOf.get(turnId)
    toldOf.delete(turnId)
    const at = { siteId, where: `plan of ${turnId}` }
    if (planTextHash(document) !== hash) yield { ...at, what: 'its hash is not that of what is stored' }
    const plan = readPlan(document)
    if ('unreadable' in plan) yield { ...at, what: `cannot be read: ${plan.unreadable}` }
    else if (told && !tellsTimesOf(told, plan))
      yield { ...at, what: 'its turn says other times for its start and its end' }
    if (told?.status === 'dropped') yield { ...at, what: 'is kept, and its turn is dropped' }
  }
  for (const [turnId, { startsAt, readyAt, heldUntilAt, status }] of toldOf) {
    if (status === 'ready' || startsAt !== null || readyAt !== null || heldUntilAt !== null)
      yield { siteId, where: `plan of ${turnId}`, what: 'is not there, and its turn speaks of it' }
  }
}

function tellsTimesOf({ startsAt, readyAt, heldUntilAt, dueAt }: Told, plan: Plan): boolean {
  const lastEndsAt = Math.max(...plan.tasks.map((task) => task.endsAt))
  return (
    startsAt === plan.startsAt &&
    readyAt === plan.readyAt &&
    heldUntilAt === (lastEndsAt > dueAt ? lastEndsAt : null)
  )
}

function readPlan(document: string): Plan | { readonly unreadable: string } {
  try {
    return Plan.parse(JSON.parse(document))
  } catch (error) {
    return { unreadable: whyUnreadable(error) }
  }
}

/** One page in memory at a time: plans are large. */
function* storedPlans(file: StoredFile, siteId: SiteId) {
  let afterTurnId = ''
  for (;;) {
    const page = file.plans(siteId, afterTurnId, ROWS_A_PAGE)
    yield* page
    const last = page.at(-1)
    if (!last || page.length < ROWS_A_PAGE) return
    afterTurnId = last.turnId
  }
}
