/**
 * Which sections a booking holds. They are those of its room when it was last written; where its room was made of others
 * later, a booking that was not over by then has those, and one that was over keeps what it had.
 */
import { type Booking, heldUntilAt } from '../domain/booking.ts'
import type { Room } from '../domain/room.ts'
import type { AuditEntry } from '../store/store.ts'

interface MadeOf {
  readonly sequence: number
  readonly at: number
  readonly sectionIds: readonly string[]
}

/** To be told every entry of the audit of a site, oldest first. */
export class SectionsOfRooms {
  readonly #history = new Map<string, MadeOf[]>()
  readonly #lastWrittenBy = new Map<string, number>()

  take({ sequence, at, effects }: AuditEntry): void {
    for (const { table, id, after } of effects) {
      if (table === 'booking') this.#lastWrittenBy.set(id, sequence)
      if (table !== 'room' || !isRoom(after)) continue
      const history = this.#history.get(id) ?? []
      const { sectionIds } = after
      if (sameIds(history.at(-1)?.sectionIds, sectionIds)) continue
      this.#history.set(id, [...history, { sequence, at, sectionIds }])
    }
  }

  /** @param room  as it is now, for one that the audit does not know of */
  of(booking: Booking, room: Pick<Room, 'sectionIds'> | undefined): readonly string[] {
    const history = this.#history.get(booking.roomId) ?? []
    const writtenBy = this.#lastWrittenBy.get(booking.id) ?? 0
    let sectionIds: readonly string[] | undefined
    for (const madeOf of history) {
      if (madeOf.sequence <= writtenBy || heldUntilAt(booking) > madeOf.at) sectionIds = madeOf.sectionIds
    }
    return sectionIds ?? room?.sectionIds ?? []
  }
}

const isRoom = (row: unknown): row is { readonly sectionIds: readonly string[] } =>
  typeof row === 'object' && row !== null && 'sectionIds' in row && Array.isArray(row.sectionIds)

const sameIds = (a: readonly string[] | undefined, b: readonly string[]): boolean =>
  a !== undefined && [...a].sort().join() === [...b].sort().join()
