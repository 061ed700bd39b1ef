/**
 * What must be true of a site after every write: one checker for all tests. It derives each turn anew from the
 * bookings and compares it with what is stored.
 */
import { type Booking, isBlocking } from '../../domain/booking.ts'
import { covers } from '../../domain/half-open-interval.ts'
import type { LaneId, RoomId } from '../../domain/ids.ts'
import type { SiteSnapshot } from '../../domain/snapshot.ts'
import { amountUsed } from '../../domain/task.ts'
import type { Turn } from '../../domain/turn.ts'
import { lanesOnDuty } from '../timeline/lanes-on-duty.ts'
import { turnInputOf } from '../timeline/turn-input.ts'
import { roomOf, sharesSection, type World, worldOf } from '../timeline/world.ts'
import { planFaults } from './plan-faults.ts'
import { underWaySince } from './under-way.ts'

/** @param snapshot  everything of the site @returns one sentence a broken promise; empty: all hold */
export function brokenInvariants(snapshot: SiteSnapshot): string[] {
  const world = worldOf(snapshot)
  const planned = snapshot.turns.filter((turn) => turn.plan !== null)
  const toCome = planned.filter((turn) => underWaySince(turn, snapshot.now) === null)
  return [
    ...sectionsTakenTwice(world),
    ...world.bookings
      .filter((booking) => booking.doorsAt > snapshot.now)
      .flatMap((b) => turnFaults(world, b)),
    ...snapshot.turns.flatMap(planFaults),
    // A shift may be changed after what was done in it.
    ...toCome.flatMap((turn) => handsOffDuty(world, turn)),
    ...handsHeldTwice(world, planned),
    ...trolleysOverCount(toCome),
    ...snapshot.bookings
      .filter((booking) => !isBlocking(booking))
      .flatMap((b) => cancelledHolds(snapshot, b)),
  ]
}

function sectionsTakenTwice(world: World): string[] {
  return world.bookings.flatMap((booking, index) =>
    world.bookings
      .slice(index + 1)
      .filter(
        (other) =>
          other.doorsAt < booking.clearAt &&
          booking.doorsAt < other.clearAt &&
          sharesSection(roomOf(world, other.roomId), roomOf(world, booking.roomId)),
      )
      .map((other) => `${booking.id} and ${other.id} are in one place at once`),
  )
}

/** A booking to come has a turn that starts from what stands before it, with a plan or an open warning. */
function turnFaults(world: World, booking: Booking): string[] {
  const turn = world.turnsByBooking.get(booking.id)
  if (!turn) return [`${booking.id} has no turn`]
  const faults: string[] = []
  if (turn.id !== booking.turnId) faults.push(`${booking.id} names ${booking.turnId} and has ${turn.id}`)
  const input = turnInputOf(world, booking)
  if (turn.releaseAt !== input.releaseAt)
    faults.push(`${turn.id} does not start when its predecessors are clear`)
  if (turn.dueAt !== input.dueAt) faults.push(`${turn.id} is not due at doors`)
  if (turn.predecessorBookingIds.join() !== input.predecessorBookingIds.join()) {
    faults.push(`${turn.id} does not start from what its predecessors leave`)
  }
  // What is under way goes on as it was planned, until somebody says what really stands.
  const isUnderWay = underWaySince(turn, world.now) !== null
  if (turn.inputHash !== input.inputHash && !isUnderWay)
    faults.push(`${turn.id} was judged on other inputs than it has`)
  if (turn.status === 'failing' && turn.judgement.reasons.length === 0)
    faults.push(`${turn.id} fails without a reason`)
  if (turn.status === 'dropped') faults.push(`${turn.id} is dropped and its booking stands`)
  return faults
}

function handsOffDuty(world: World, turn: Turn): string[] {
  const tasks = turn.plan?.tasks ?? []
  const lanes = lanesOnDuty(world.setup, { fromAt: turn.releaseAt, toAt: turn.dueAt })
  const byId = new Map(lanes.map((lane) => [lane.laneId, lane]))
  return tasks.flatMap((task) => {
    const span = { fromAt: task.startsAt, toAt: task.endsAt }
    const crew = task.laneIds.map((laneId) => byId.get(laneId))
    const faults = task.laneIds
      .filter((_, index) => !crew[index]?.onDuty.some((duty) => covers(duty, span)))
      .map((laneId) => `${turn.id}: ${laneId} is not on duty for all of ${task.key}`)
    if (
      task.skill !== null &&
      task.hands > 0 &&
      !crew.some((lane) => lane?.skills.includes(task.skill ?? ''))
    ) {
      faults.push(`${turn.id}: nobody at ${task.key} has the skill ${task.skill}`)
    }
    if (task.adultsOnly && crew.some((lane) => !lane?.adult))
      faults.push(`${turn.id}: a minor at ${task.key}`)
    return faults
  })
}

interface Held {
  readonly turn: Turn
  readonly roomId: RoomId
  readonly from: number
  readonly to: number
}

function handsHeldTwice(world: World, turns: readonly Turn[]): string[] {
  const byLane = new Map<LaneId, Held[]>()
  for (const turn of turns) {
    for (const task of turn.plan?.tasks ?? []) {
      for (const laneId of task.laneIds) {
        const held = { turn, roomId: turn.roomId, from: task.startsAt as number, to: task.endsAt as number }
        byLane.set(laneId, [...(byLane.get(laneId) ?? []), held])
      }
    }
  }
  const walkMs = world.setup.policy.walkBetweenRoomsSeconds * 1000
  return [...byLane].flatMap(([laneId, list]) => {
    const inOrder = [...list].sort((a, b) => a.from - b.from)
    return inOrder.slice(1).flatMap((next, index) => {
      const previous = inOrder[index]!
      const walk = previous.roomId === next.roomId ? 0 : walkMs
      // A policy of longer walks than the plans were made under makes them stale, not wrong.
      const underThisPolicy = [previous, next].every(
        (h) => h.turn.judgement.policyId === world.setup.policy.id,
      )
      return previous.to + (underThisPolicy ? walk : 0) <= next.from
        ? []
        : [`${laneId} is held by ${previous.turn.id} and ${next.turn.id} at once`]
    })
  })
}

function trolleysOverCount(turns: readonly Turn[]): string[] {
  const tasks = turns.flatMap((turn) => turn.plan?.tasks ?? []).filter((task) => task.uses.length > 0)
  const capacity = new Map(
    turns.flatMap((turn) => turn.plan?.resources ?? []).map((one) => [one.key, one.capacity]),
  )
  return tasks.flatMap((task) =>
    task.uses.flatMap(({ resource }) => {
      const held = tasks
        .filter((other) => other.startsAt <= task.startsAt && task.startsAt < other.endsAt)
        .flatMap((other) =>
          other.uses.filter((use) => use.resource === resource).map((use) => amountUsed(use, other.hands)),
        )
        .reduce((sum, amount) => sum + amount, 0)
      const most = capacity.get(resource) ?? 0
      return held > most ? [`${held} of ${most} ${resource} are in use at once`] : []
    }),
  )
}

function cancelledHolds(snapshot: SiteSnapshot, booking: Booking): string[] {
  const turn = snapshot.turns.find((one) => one.bookingId === booking.id)
  return turn && turn.status !== 'dropped' ? [`${booking.id} is cancelled and its turn still stands`] : []
}
