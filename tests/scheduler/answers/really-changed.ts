/** How soon a turn is ready in a hall that really was changed, asked as a decision builds and solves it. */
import type { Instant } from '../../../src/domain/instant.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { builtInstance, turnPart, workUntilAt } from '../../../src/scheduler/decide/plan/built-instance.ts'
import { readyTickOf } from '../../../src/scheduler/decide/plan/plan-of.ts'
import { rememberedNetwork } from '../../../src/scheduler/decide/plan/remembered-network.ts'
import { SEED } from '../../../src/scheduler/decide/plan/turn-search.ts'
import { turnInputOf } from '../../../src/scheduler/timeline/turn-input.ts'
import { worldOf } from '../../../src/scheduler/timeline/world.ts'
import { solve, TICK_SECONDS } from '../../../src/scheduler/turn/index.ts'

/** @param name  of the booking that the turn prepares @throws when no plan is ready by doors */
export function soonestReally(snapshot: SiteSnapshot, name: string): Instant {
  const world = worldOf(snapshot)
  const booking = world.bookings.find(({ id }) => id === `booking_${name}`)
  if (!booking) throw new Error(`there is no booking ${name}`)
  const input = turnInputOf(world, booking)
  const others = snapshot.turns.filter(({ id }) => id !== booking.turnId)
  const untilAt = workUntilAt(world, input)
  const built = builtInstance(world, [turnPart(input, rememberedNetwork(input))], others, { untilAt })
  const { schedule } = solve(built.instance, { workMost: snapshot.policy.workMost, seed: SEED })
  if (!schedule) throw new Error(`no plan for ${name}`)
  const ticks = readyTickOf(built, built.parts[0]!, schedule)
  return (built.originAt + ticks * TICK_SECONDS * 1000) as Instant
}
