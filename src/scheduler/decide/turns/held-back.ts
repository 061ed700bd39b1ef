/**
 * What keeps a turn from being ready whatever hands there are: a device that those in the other room still have, or quiet
 * that somebody next door needs. Whoever hears of hands then is sent the wrong way.
 */

import { leftAt } from '../../../domain/booking.ts'
import { overlaps } from '../../../domain/half-open-interval.ts'
import type { HeldBack } from '../../../domain/reason.ts'
import type { Turn } from '../../../domain/turn.ts'
import { lastBeyond } from '../../timeline/device-before.ts'
import type { World } from '../../timeline/world.ts'
import { type BuiltPart, builtInstance, workFromAt, workUntilAt } from '../plan/built-instance.ts'
import { isTurnWork } from '../plan/event-tasks.ts'
import { rememberedNetwork } from '../plan/remembered-network.ts'
import { readyAtOf, readyOrLate } from '../plan/turn-search.ts'

/**
 * @param part  of a turn that is not ready by doors
 * @returns without which it would be; of two that both have to go, both; empty: it is something else that is short
 */
export function heldBack(world: World, part: BuiltPart, others: readonly Turn[]): HeldBack[] {
  const devices = devicesHeld(world, part)
  const quiet = quietHeld(world, part, others)
  const tries = [devices, quiet, [...devices, ...quiet]].filter(
    (one, index) => one.length > 0 && (index < 2 || (devices.length > 0 && quiet.length > 0)),
  )
  return tries.find((without) => isReadyWithout(world, part, others, without)) ?? []
}

/** Those that are held into the time for the work, by id. */
function devicesHeld(world: World, { input }: BuiltPart): HeldBack[] {
  const fromAt = workFromAt(world, input)
  return input.asks.devicesHeld
    .filter(({ untilAt }) => untilAt > fromAt)
    .map(({ equipmentId, untilAt }): HeldBack => {
      const equipment = world.setup.equipment.find(({ id }) => id === equipmentId)
      const holder = equipment
        ? lastBeyond(world, input.booking, equipment).find((booking) => leftAt(booking) === untilAt)
        : undefined
      return { kind: 'device', equipmentId, bookingId: holder?.id ?? null, untilAt }
    })
}

/** Of all that need it in that time the one that needs it longest. */
function quietHeld(world: World, { input, network }: BuiltPart, others: readonly Turn[]): HeldBack[] {
  const span = { fromAt: workFromAt(world, input), toAt: input.dueAt }
  const own = new Set(network.resources.map(({ key }) => key).filter((key) => key.startsWith('quiet:')))
  const held = others.flatMap(({ bookingId, roomId, plan }) =>
    (plan?.tasks ?? [])
      .filter((task) => !isTurnWork(task) && task.uses.some(({ resource }) => own.has(resource)))
      .filter(({ startsAt, endsAt }) => overlaps({ fromAt: startsAt, toAt: endsAt }, span))
      .map(({ endsAt }): HeldBack => ({ kind: 'quiet', roomId, bookingId, untilAt: endsAt })),
  )
  return held
    .sort((a, b) => b.untilAt - a.untilAt || ((a.bookingId ?? '') < (b.bookingId ?? '') ? -1 : 1))
    .slice(0, 1)
}

function isReadyWithout(
  world: World,
  { input, events }: BuiltPart,
  others: readonly Turn[],
  without: readonly HeldBack[],
): boolean {
  const isFree = without.some(({ kind }) => kind === 'device')
  const asks = isFree ? { ...input.asks, devicesHeld: [] } : input.asks
  const part = { input: { ...input, asks }, network: rememberedNetwork(input), events }
  const beside = without.some(({ kind }) => kind === 'quiet') ? others.map(needingNoQuiet) : others
  const built = builtInstance(world, [part], beside, { untilAt: workUntilAt(world, input) })
  const readyAt = readyAtOf(readyOrLate(world, built, world.setup.policy.workMost), built.parts[0]!)
  return readyAt !== null && readyAt <= input.dueAt
}

const needingNoQuiet = (turn: Turn): Turn =>
  turn.plan === null
    ? turn
    : {
        ...turn,
        plan: {
          ...turn.plan,
          tasks: turn.plan.tasks.map((task) => (isTurnWork(task) ? task : { ...task, uses: [] })),
        },
      }
