/** Every booking to come has a turn that is as it follows from what stands before it, with a plan of all its work. */
import type { Booking } from '../../../domain/booking.ts'
import { homeTurnId } from '../../../domain/home-turn-id.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import type { Turn } from '../../../domain/turn.ts'
import { wayHomeBegun } from '../../timeline/return-home.ts'
import { homeTurnInputOf, type TurnInput, turnInputOf } from '../../timeline/turn-input.ts'
import { sharesSection, type World } from '../../timeline/world.ts'
import { underWaySince } from '../operations/under-way.ts'
import { eventTasks, isTurnWork } from '../plan/event-tasks.ts'
import { rememberedNetwork } from '../plan/remembered-network.ts'
import type { WholeSite } from './whole-site.ts'

export const turnsAsDerived = ({ snapshot, world }: WholeSite): string[] =>
  world.bookings.flatMap((booking) => turnsOfBookingFaults(snapshot, world, booking))

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
