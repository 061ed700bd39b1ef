import type { Closure } from '../../../domain/closure.ts'
import { dayAndTimeOf } from '../../timeline/wall-time.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** When the last exit of a room shuts while the room stays open. Closures that are over do not matter any more. */
export function exitsAllClosed(reading: SetupReading): Found[] {
  const { setup, now, exitsOf } = reading
  const closures = setup.closures.filter(({ fromAt, toAt }) => toAt > now && fromAt < toAt)
  return setup.rooms.flatMap((room): Found[] => {
    const exits = exitsOf(room)
    if (exits.length === 0) return []
    // Exits shut when a closure begins, so it is enough to look then.
    const shutting = closures
      .filter(({ exitIds }) => exits.some(({ id }) => exitIds.includes(id)))
      .sort((a, b) => a.fromAt - b.fromAt || (a.id < b.id ? -1 : 1))
      .find(({ fromAt }) => {
        const then = closures.filter((other) => other.fromAt <= fromAt && fromAt < other.toAt)
        const isOpen = then.every(({ sectionIds }) => !room.sectionIds.some((id) => sectionIds.includes(id)))
        return isOpen && exits.every(({ id }) => then.some(({ exitIds }) => exitIds.includes(id)))
      })
    return shutting ? [finding(reading, room.name, exits.length, shutting)] : []
  })
}

function finding({ setup }: SetupReading, room: string, exits: number, closure: Closure): Found {
  const { zone } = setup.site
  const which = exits === 1 ? 'the only exit' : `all ${exits} exits`
  return {
    code: 'exits-all-closed',
    about: aboutRow('closure', { id: closure.id, name: closure.reason }),
    message: `${which} of ${room} ${exits === 1 ? 'is' : 'are'} closed from ${dayAndTimeOf(closure.fromAt, zone)}, and the room is not`,
    fix: `close ${room} for that time too, or leave an exit open`,
    field: '/exitIds',
  }
}
