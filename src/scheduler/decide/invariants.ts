/**
 * What must be true of a site after every write: one checker for all tests and for `npm run verify`. It derives each
 * turn anew from the bookings and compares it with what is stored.
 */
import { type Booking, heldUntilAt, isBlocking } from '../../domain/booking.ts'
import { HELPERS_PER_LEAD } from '../../domain/booking-terms.ts'
import { covers } from '../../domain/half-open-interval.ts'
import { homeTurnId } from '../../domain/home-turn-id.ts'
import type { LaneId, RoomId } from '../../domain/ids.ts'
import { earlierOf, laterOf } from '../../domain/instant.ts'
import type { PlannedTask } from '../../domain/plan.ts'
import { speaksAgainst } from '../../domain/reason.ts'
import type { SiteSnapshot } from '../../domain/snapshot.ts'
import { amountUsed } from '../../domain/task.ts'
import type { Turn } from '../../domain/turn.ts'
import { lanesOnDuty } from '../timeline/lanes-on-duty.ts'
import { wayHomeBegun } from '../timeline/return-home.ts'
import { homeTurnInputOf, type TurnInput, turnInputOf } from '../timeline/turn-input.ts'
import { roomOf, sharesSection, type World, worldOf } from '../timeline/world.ts'
import { underWaySince } from './operations/under-way.ts'
import { eventTasks, isTurnWork } from './plan/event-tasks.ts'
import { planFaults } from './plan/plan-faults.ts'
import { rememberedNetwork } from './plan/remembered-network.ts'

/** @param snapshot  everything of the site @returns one sentence a broken promise; empty: all hold */
export function brokenInvariants(snapshot: SiteSnapshot): string[] {
  const world = worldOf(snapshot)
  const planned = snapshot.turns.filter((turn) => turn.plan !== null)
  const isJudged = ({ dueAt }: Turn) => snapshot.judgedThroughAt === null || dueAt < snapshot.judgedThroughAt
  const toCome = planned.filter((turn) => underWaySince(turn, snapshot.now) === null && isJudged(turn))
  return [
    ...sectionsTakenTwice(world),
    ...world.bookings.flatMap((booking) => turnsOfBookingFaults(snapshot, world, booking)),
    ...snapshot.turns.flatMap(planFaults),
    ...snapshot.turns.flatMap(warningFaults),
    // A shift may be changed after what was done in it.
    ...toCome.flatMap((turn) => handsOffDuty(world, turn)),
    ...handsHeldTwice(world, planned),
    ...resourcesOverCount(toCome),
    ...linkFaults(world),
    ...snapshot.bookings
      .filter((booking) => !isBlocking(booking))
      .flatMap((booking) => cancelledHolds(world, booking)),
  ]
}

function sectionsTakenTwice(world: World): string[] {
  return world.bookings.flatMap((booking, index) => {
    const faults: string[] = []
    for (const other of world.bookings.slice(index + 1)) {
      // By doors: no later one can meet it.
      if (other.doorsAt >= heldUntilAt(booking)) break
      if (sharesSection(roomOf(world, other.roomId), roomOf(world, booking.roomId)))
        faults.push(`${booking.id} and ${other.id} are in one place at once`)
    }
    return faults
  })
}

function turnsOfBookingFaults(snapshot: SiteSnapshot, world: World, booking: Booking): string[] {
  const { now, judgedThroughAt } = snapshot
  const faults: string[] = []
  if (booking.doorsAt > now) {
    const turn = world.turnsById.get(booking.turnId)
    if (turn) faults.push(...turnFaults(world, turn, turnInputOf(world, booking), judgedThroughAt))
    else faults.push(`${booking.id} has no turn`)
  }
  return [...faults, ...wayHomeFaults(snapshot, world, booking)]
}

/** What is begun goes on, whatever the policy says by now and whoever comes sooner than was known then. */
function wayHomeFaults({ now, judgedThroughAt }: SiteSnapshot, world: World, booking: Booking): string[] {
  const home = world.turnsById.get(homeTurnId(booking.turnId))
  const input = homeTurnInputOf(world, booking)
  const dueAt = home?.dueAt ?? input?.dueAt ?? now
  const isStale = judgedThroughAt !== null && dueAt >= judgedThroughAt
  if (dueAt <= now || isStale || wayHomeBegun(world, booking)) return []
  if (home && input) return turnFaults(world, home, input, judgedThroughAt)
  return home
    ? [`${home.id} puts a room back that somebody needs`]
    : [`${booking.id} is not followed by its way home`]
}

/** It starts from what stands before it, with a plan or an open warning. */
function turnFaults(
  world: World,
  turn: Turn,
  input: TurnInput,
  judgedThroughAt: SiteSnapshot['judgedThroughAt'],
): string[] {
  const faults: string[] = []
  if (judgedThroughAt !== null && turn.dueAt >= judgedThroughAt && turn.dueAt === input.dueAt) return faults
  // What is under way goes on as it was planned, until somebody says what really stands.
  const isUnderWay = underWaySince(turn, world.now) !== null
  if (turn.releaseAt !== input.releaseAt && !isUnderWay)
    faults.push(`${turn.id} does not start when its predecessors are clear`)
  if (turn.dueAt !== input.dueAt) faults.push(`${turn.id} is not due when it must be ready`)
  // Late, a hold may be given up in whose place it is under way.
  if (turn.predecessorBookingIds.join() !== input.predecessorBookingIds.join() && !isUnderWay) {
    faults.push(`${turn.id} does not start from what its predecessors leave`)
  }
  if (turn.inputHash !== input.inputHash && !isUnderWay)
    faults.push(`${turn.id} was judged on other inputs than it has`)
  else if (!isUnderWay) faults.push(...planOfInputFaults(world, turn, input))
  return faults
}

/** Made by the numbers that are in force, of all the work there is, and of none while the room is closed. */
function planOfInputFaults(world: World, turn: Turn, input: TurnInput): string[] {
  const { policy, rateSet } = world.setup
  const faults: string[] = []
  if (turn.judgement.policyId !== policy.id || turn.judgement.rateSetId !== (rateSet?.id ?? null))
    faults.push(`${turn.id} was judged by a policy or rate set that is not in force`)
  if (turn.status !== 'ready' || turn.plan === null) return faults
  const wanted = [...rememberedNetwork(input).tasks, ...eventTasks(input).map(({ task }) => task)]
  const planned = new Set(turn.plan.tasks.map(({ key }) => key))
  const missing = wanted.find(({ key }) => !planned.has(key))
  if (missing || planned.size !== wanted.length)
    faults.push(`${turn.id} is planned with other work than there is: ${missing?.key ?? 'some is too much'}`)
  const closed = world.closures.filter((closure) => sharesSection(closure, input.room))
  const inside = turn.plan.tasks
    .filter(isTurnWork)
    .find(({ startsAt, endsAt }) => closed.some(({ fromAt, toAt }) => startsAt < toAt && fromAt < endsAt))
  if (inside) faults.push(`${turn.id} does ${inside.key} while its room is closed`)
  return faults
}

/** The warnings are exactly those of turns that fail or rest on hands that nobody has promised. */
function warningFaults(turn: Turn): string[] {
  const { judgement, status } = turn
  const isWarned = judgement.warnedSince !== null
  if (status === 'dropped') return isWarned ? [`${turn.id} is dropped and still warned of`] : []
  if (status === 'failing' && !judgement.reasons.some(speaksAgainst))
    return [`${turn.id} fails without a reason`]
  if (status === 'ready' && judgement.reasons.some(speaksAgainst))
    return [`${turn.id} is said to be ready, and something speaks against it`]
  const isInTrouble = status === 'failing' || judgement.hands.assumed > 0
  if (isInTrouble && !isWarned) return [`${turn.id} is in trouble and nobody is warned`]
  return isWarned && !isInTrouble ? [`${turn.id} is warned of without need`] : []
}

function handsOffDuty(world: World, turn: Turn): string[] {
  const tasks = turn.plan?.tasks ?? []
  if (tasks.length === 0) return []
  const span = {
    fromAt: tasks.map(({ startsAt }) => startsAt).reduce(earlierOf),
    toAt: tasks.map(({ endsAt }) => endsAt).reduce(laterOf),
  }
  const lanes = lanesOnDuty(world.setup, span)
  return tasks.flatMap((task) => {
    const during = { fromAt: task.startsAt, toAt: task.endsAt }
    const crew = task.laneIds.map(
      (laneId) =>
        lanes.find((lane) => lane.laneId === laneId && lane.onDuty.some((duty) => covers(duty, during))) ??
        unnamedHand(world, turn, task, laneId),
    )
    const faults = task.laneIds
      .filter((_, index) => !crew[index])
      .map((laneId) => `${turn.id}: ${laneId} is not on duty for all of ${task.key}`)
    const skilled = crew.filter((lane) => lane?.skills.includes(task.skill ?? '')).length
    const skilledNeeded = task.kind === 'duty' ? task.hands : 1
    if (task.skill !== null && task.hands > 0 && skilled < skilledNeeded)
      faults.push(`${turn.id}: nobody at ${task.key} has the skill ${task.skill}`)
    if (task.adultsOnly && crew.some((lane) => !lane?.adult))
      faults.push(`${turn.id}: a minor at ${task.key}`)
    return faults
  })
}

interface Hand {
  readonly skills: readonly string[]
  readonly adult: boolean
}

/** One that nobody has promised, as far as the policy counts on them; or one of a group, in its own time. */
function unnamedHand(world: World, turn: Turn, task: PlannedTask, laneId: LaneId): Hand | null {
  const [owner = '', number = ''] = laneId.split('#')
  const index = Number(number)
  if (owner === 'assumed')
    return index <= world.setup.policy.planningHands ? { skills: [], adult: true } : null
  const group = world.bookings.find(({ id }) => id === owner)
  if (!group?.ownHelp || !turn.predecessorBookingIds.includes(group.id)) return null
  const fromAt = laterOf(group.clearAt, group.overrunsUntilAt ?? group.clearAt)
  const isInTime = task.startsAt >= fromAt && task.endsAt <= fromAt + group.ownHelp.seconds * 1000
  const isOne = index <= Math.min(group.ownHelp.hands, HELPERS_PER_LEAD * 100)
  return isInTime && isOne ? { skills: [], adult: false } : null
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
        const list = byLane.get(laneId)
        if (list) list.push(held)
        else byLane.set(laneId, [held])
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

/** Trolleys, tools, doorways, quiet and dark: what is in use wherever some task begins. */
function resourcesOverCount(turns: readonly Turn[]): string[] {
  const capacity = new Map(
    turns.flatMap((turn) => turn.plan?.resources ?? []).map((one) => [one.key, one.capacity]),
  )
  const uses = new Map<string, { from: number; to: number; amount: number }[]>()
  for (const task of turns.flatMap((turn) => turn.plan?.tasks ?? [])) {
    for (const use of task.uses) {
      const one = { from: task.startsAt, to: task.endsAt, amount: amountUsed(use, task.hands) }
      const list = uses.get(use.resource)
      if (list) list.push(one)
      else uses.set(use.resource, [one])
    }
  }
  return [...uses].flatMap(([key, list]) => {
    const most = capacity.get(key) ?? 0
    const steps = list
      .flatMap(({ from, to, amount }) => [
        { at: from, change: amount },
        { at: to, change: -amount },
      ])
      .sort((a, b) => a.at - b.at || a.change - b.change)
    let held = 0
    let highest = 0
    for (const { change } of steps) {
      held += change
      highest = Math.max(highest, held)
    }
    return highest > most ? [`${highest} of ${most} ${key} are in use at once`] : []
  })
}

/** Who keeps a room as set keeps it until the next of its link, and for nobody else. */
function linkFaults(world: World): string[] {
  return world.bookings.flatMap((booking) => {
    const { keptUntilAt, linkId } = booking
    if (keptUntilAt === null) return []
    const next = world.bookings.find((one) => one.linkId === linkId && one.doorsAt === keptUntilAt)
    return next && linkId !== null ? [] : [`${booking.id} keeps its room as set for nobody`]
  })
}

function cancelledHolds(world: World, booking: Booking): string[] {
  const turns = [booking.turnId, homeTurnId(booking.turnId)]
  return turns.some((turnId) => world.turnsById.has(turnId))
    ? [`${booking.id} is cancelled and its turn still stands`]
    : []
}
