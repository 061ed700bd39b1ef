/** One stored turn as it really is today: its work, the hands there are, and what other plans leave of everything. */
import type { SiteSnapshot } from '../../domain/snapshot.ts'
import type { TaskNetwork } from '../../domain/task.ts'
import type { Turn } from '../../domain/turn.ts'
import {
  type BuiltInstance,
  type BuiltPart,
  builtInstance,
  lateUntilAt,
  spanLookedAt,
  turnPart,
} from '../decide/plan/built-instance.ts'
import { impossibleEvents } from '../decide/plan/find-plan.ts'
import { StandingTurns } from '../decide/plan/standing-turns.ts'
import { networkOrUnreachable } from '../decide/turns/judge-turn.ts'
import { homeTurnInputOf, turnInputOf } from '../timeline/turn-input.ts'
import { type World, worldOf } from '../timeline/world.ts'

export interface Circumstances {
  readonly world: World
  readonly built: BuiltInstance
  readonly part: BuiltPart
}

/**
 * Work may end until a day after doors, so that it can be said how late it would be. What the event itself takes and
 * cannot have anyway is left out.
 * @param networkAfter  other work than what follows from the snapshot
 * @returns null: the turn is of no booking that is there, or a device cannot be got into the state that is wanted
 */
export function circumstancesOf(
  snapshot: SiteSnapshot,
  { id, purpose, bookingId }: Turn,
  networkAfter: (network: TaskNetwork) => TaskNetwork = (network) => network,
): Circumstances | null {
  const world = worldOf(snapshot)
  const booking = world.bookings.find((one) => one.id === bookingId)
  if (!booking) return null
  const input = purpose === 'prepare' ? turnInputOf(world, booking) : homeTurnInputOf(world, booking)
  if (!input) return null
  const network = networkOrUnreachable(input)
  if (network instanceof Error) return null
  const standing = new StandingTurns(snapshot.turns)
  standing.remove(id)
  const others = standing.during(spanLookedAt(world, input))
  const whole = turnPart(input, networkAfter(network))
  const impossible = impossibleEvents(world, whole, others, 0)
  const possible = { ...whole, events: whole.events.filter((event) => !impossible.includes(event)) }
  const built = builtInstance(world, [possible], others, { untilAt: lateUntilAt(world, input) })
  return { world, built, part: built.parts[0]! }
}
