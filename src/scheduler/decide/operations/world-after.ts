/** The world as it would be when the operations are done, before anybody asks whether they can be. */
import { type Booking, isBlocking } from '../../../domain/booking.ts'
import type { BookingId, LinkId } from '../../../domain/ids.ts'
import { earlierOf, type Instant } from '../../../domain/instant.ts'
import type { Operation } from '../../../domain/operation.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import { type World, worldOf } from '../../timeline/world.ts'
import { keptAsSet, type Rooms, roomsOf } from './kept-as-set.ts'
import { membersOf, withItsLink } from './linked-bookings.ts'
import { setupAfter } from './setup-after.ts'

export interface WorldAfter {
  readonly world: World
  /** Without the operations. */
  readonly asItWas: () => World
  /** Each booking that an operation speaks of or changes, as it was (null: new) and as it shall be; the one asked for first. */
  readonly bookings: readonly { readonly before: Booking | null; readonly after: Booking }[]
}

/** Operations were checked by `operationProblems`: a booking that is not there is a bug. */
export function worldAfter(snapshot: SiteSnapshot, operations: readonly Operation[]): WorldAfter {
  const writing = new Writing(snapshot)
  let withSetup = snapshot
  for (const operation of operations) {
    if (operation.kind === 'set-up') withSetup = setupAfter(withSetup, operation.writes)
    else if (operation.kind !== 'judge' && operation.kind !== 'polish') writing.carryOut(operation)
  }
  writing.keepAsSet()
  const bookings = writing.changes()
  let asItWas: World | null = null
  return {
    world: worldOf({
      ...withSetup,
      bookings: writing.all(),
      judgedThroughAt: judgedThroughAfter(snapshot, operations),
    }),
    asItWas: () => {
      asItWas ??= worldOf(snapshot)
      return asItWas
    },
    bookings,
  }
}

/** As far as operations say by themselves. */
function judgedThroughAfter(
  { judgedThroughAt }: SiteSnapshot,
  operations: readonly Operation[],
): Instant | null {
  return operations.reduce<Instant | null>((through, one) => {
    if (one.kind === 'judge') return one.judgedThroughAt
    if (one.kind !== 'set-up' || one.restFromAt === null) return through
    return through === null ? one.restFromAt : earlierOf(through, one.restFromAt)
  }, judgedThroughAt)
}

type BookingOperation = Exclude<Operation, { kind: 'set-up' | 'judge' | 'polish' }>

/** Bookings while operations are carried out on them, one after the other. */
class Writing {
  private readonly now: Instant
  private readonly rooms: Rooms
  private readonly stored: ReadonlyMap<BookingId, Booking>
  private readonly bookings: Map<BookingId, Booking>
  private readonly spokenOf = new Set<BookingId>()
  private readonly links = new Set<LinkId>()

  constructor(snapshot: SiteSnapshot) {
    this.now = snapshot.now
    this.rooms = roomsOf(snapshot)
    this.stored = new Map(snapshot.bookings.map((booking) => [booking.id, booking]))
    this.bookings = new Map(this.stored)
  }

  all(): Booking[] {
    return [...this.bookings.values()]
  }

  changes(): WorldAfter['bookings'] {
    return [...this.spokenOf].map((id) => ({
      before: this.stored.get(id) ?? null,
      after: this.bookings.get(id)!,
    }))
  }

  carryOut(operation: BookingOperation): void {
    switch (operation.kind) {
      case 'book':
      case 'hold':
      case 'change':
        this.put(operation.booking)
        break
      case 'confirm': {
        const holds = withItsLink(this.all(), this.known(operation.bookingId))
        for (const hold of inFront(holds, operation.bookingId)) {
          if (hold.status === 'TENTATIVE') this.change(hold, { status: 'CONFIRMED', holdExpiresAt: null })
        }
        break
      }
      case 'lapse':
      case 'cancel': {
        const all = withItsLink(this.all(), this.known(operation.bookingId))
        // What has taken place stays: a room stands as it was left then.
        const fall = all.filter(({ status, doorsAt }) => status === 'TENTATIVE' || doorsAt > this.now)
        for (const booking of inFront(fall, operation.bookingId)) {
          // A hold that ran out is told by it from one that was cancelled.
          const holdExpiresAt = operation.kind === 'lapse' ? booking.holdExpiresAt : null
          this.change(booking, { status: 'CANCELLED', holdExpiresAt, keptUntilAt: null })
        }
        break
      }
      case 'clear-later': {
        const booking = this.known(operation.bookingId)
        const nextAt = this.nextDoorsAt(booking)
        const { clearAt } = operation
        const isOver = nextAt !== null && clearAt > nextAt
        this.change(booking, {
          clearAt: isOver ? earlierOf(clearAt, nextAt) : clearAt,
          overrunsUntilAt: isOver ? clearAt : null,
        })
        break
      }
      case 'link': {
        const { linkId, bookingIds, keepAsSet } = operation
        for (const id of bookingIds) this.change(this.known(id), { linkId, keepAsSet })
        break
      }
      case 'unlink':
        for (const booking of membersOf(this.all(), operation.linkId)) {
          this.change(booking, { linkId: null, keepAsSet: false, keptUntilAt: null })
        }
        break
      default:
        operation satisfies never
    }
  }

  /** Where links were touched, what each booking keeps its room for follows anew. */
  keepAsSet(): void {
    for (const linkId of this.links) {
      for (const [id, kept] of keptAsSet(membersOf(this.all(), linkId), this.rooms)) {
        if (this.bookings.get(id)?.keptUntilAt !== kept.keptUntilAt) this.change(kept, {})
      }
    }
  }

  private known(id: BookingId): Booking {
    const booking = this.bookings.get(id)
    if (!booking) throw new Error(`the snapshot does not hold ${id}`)
    return booking
  }

  /** Its version counts up once, however often it is changed. */
  private change(booking: Booking, changed: Partial<Booking>): void {
    const stored = this.stored.get(booking.id)
    const version = stored && stored.version === booking.version ? booking.version + 1 : booking.version
    this.put({ ...booking, ...changed, version })
  }

  private put(booking: Booking): void {
    this.spokenOf.add(booking.id)
    for (const one of [booking, this.bookings.get(booking.id)]) {
      if (one && one.linkId !== null) this.links.add(one.linkId)
    }
    this.bookings.set(booking.id, booking)
  }

  private nextDoorsAt(booking: Booking): Instant | null {
    const doors = this.all()
      .filter((other) => other.id !== booking.id && isBlocking(other) && other.doorsAt >= booking.clearAt)
      .filter((other) => this.rooms.shareFloor(booking, other))
      .map(({ doorsAt }) => doorsAt)
    return doors.length === 0 ? null : doors.reduce(earlierOf)
  }
}

const inFront = (bookings: readonly Booking[], id: BookingId): Booking[] => [
  ...bookings.filter((one) => one.id === id),
  ...bookings.filter((one) => one.id !== id),
]
