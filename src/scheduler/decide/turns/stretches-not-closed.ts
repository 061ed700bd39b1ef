import { type HalfOpenInterval, unionOf } from '../../../domain/half-open-interval.ts'
import { laterOf } from '../../../domain/instant.ts'
import type { Room } from '../../../domain/room.ts'
import { sharesSection, type World } from '../../timeline/world.ts'

/** The window without the time when part of the room is closed: nobody works there then. */
export function stretchesNotClosed(world: World, room: Room, window: HalfOpenInterval): HalfOpenInterval[] {
  const stretches: HalfOpenInterval[] = []
  let fromAt = window.fromAt
  for (const closure of unionOf(world.closures.filter((one) => sharesSection(one, room)))) {
    if (closure.fromAt >= window.toAt) break
    if (closure.fromAt > fromAt) stretches.push({ fromAt, toAt: closure.fromAt })
    fromAt = laterOf(fromAt, closure.toAt)
  }
  return fromAt < window.toAt ? [...stretches, { fromAt, toAt: window.toAt }] : stretches
}
