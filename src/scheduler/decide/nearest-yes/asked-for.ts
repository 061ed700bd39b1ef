/** The one booking that is asked for, with what else could be asked in its place. */
import type { Booking } from '../../../domain/booking.ts'
import type { Operation } from '../../../domain/operation.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import type { World } from '../../timeline/world.ts'
import { worldAfter } from '../operations/world-after.ts'

export interface AskedFor {
  readonly snapshot: SiteSnapshot
  /** With the booking in it, as it was asked for. */
  readonly world: World
  readonly booking: Booking
  /** The same, for the booking as it would be instead. */
  readonly instead: (booking: Booking) => Operation
}

/** @returns null: several things are asked at once, or nothing that could be had otherwise */
export function askedFor(snapshot: SiteSnapshot, operations: readonly Operation[]): AskedFor | null {
  const [operation] = operations
  if (!operation || operations.length > 1) return null
  if (operation.kind !== 'book' && operation.kind !== 'hold' && operation.kind !== 'change') return null
  const { booking } = operation
  // It keeps its room for the next of its link: moved alone it would keep it for nobody.
  if (booking.keepAsSet) return null
  const { world } = worldAfter(snapshot, operations)
  return { snapshot, world, booking, instead: (other) => ({ ...operation, booking: other }) }
}
