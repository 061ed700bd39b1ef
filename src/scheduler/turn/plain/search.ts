/**
 * The search: schedules justified to the one end of time breed lists that are scheduled from the other end, so every
 * single pass is a child and a justification at once. After Debels and Vanhoucke, A bi-population based genetic
 * algorithm for the resource-constrained project scheduling problem, ICCSA 2005, LNCS 3483, 378-387; justification:
 * Tormos and Lova, Annals of Operations Research 102 (2001) 65-81; Valls, Ballestín, Quintanilla, EJOR 165 (2005)
 * 375-386. Own: the best of all children live on, twins do not; starting afresh and reunions of the best.
 */
import { mendBudgets, overdrawn } from './budgets.ts'
import { keepWindow, replaceWindow } from './crossing.ts'
import { fitnessOf } from './fitness.ts'
import { mutateList, mutateModes } from './mutation.ts'
import { parallelPass } from './parallel-pass.ts'
import { fillTailTicks } from './precedence.ts'
import type { Problem } from './problem.ts'
import { type SeededRandom, seededRandom } from './random.ts'
import { preparedSampler, sampleList } from './sampled-list.ts'
import { serialPass } from './serial-pass.ts'
import type { Settings } from './settings.ts'
import { isSameSchedule, moveSchedule, preparedSide, type Side, writeHandover } from './side.ts'
import { findWindow, type Window } from './window.ts'
import { preparedWork, type Work } from './work.ts'

export interface SearchResult {
  /** Undefined when no schedule within the budgets was met. */
  readonly makespanTicks: number | undefined
  readonly schedules: number
  /** By task of the problem: start ticks and modes of the best schedule. Empty when there is none. */
  readonly starts: Int32Array
  readonly modes: Int32Array
}

export interface SearchLimits {
  /** Schedules to generate at most. */
  readonly workMost: number
  readonly seed: number
  /** A schedule that takes no longer is good enough. */
  readonly ticksWanted: number
  readonly goOn: () => boolean
}

interface Search {
  readonly problem: Problem
  readonly settings: Settings
  readonly work: Work
  readonly random: SeededRandom
  readonly sides: readonly [Side, Side]
  readonly window: Window
  readonly bestStarts: Int32Array
  readonly bestModes: Int32Array
  readonly limits: SearchLimits
  bestTicks: number
  spent: number
}

/** The same arguments give the same schedule, as long as `goOn` says the same. */
export function search(problem: Problem, limits: SearchLimits, settings: Settings): SearchResult {
  const { taskCount } = problem
  const random = seededRandom(limits.seed)
  const places = settings.populationSize * (settings.childrenPerParent + 1)
  const own: Search = {
    problem,
    settings,
    work: preparedWork(problem, random),
    random,
    sides: [
      preparedSide(problem.forward, taskCount, places),
      preparedSide(problem.backward, taskCount, places),
    ],
    window: { first: 0, last: 0 },
    bestStarts: new Int32Array(taskCount),
    bestModes: new Int32Array(taskCount),
    limits,
    bestTicks: Number.MAX_SAFE_INTEGER,
    spent: 0,
  }
  if (taskCount > 0) breedUntilDone(own)
  const isFound = taskCount === 0 || own.bestTicks < Number.MAX_SAFE_INTEGER
  return {
    makespanTicks: taskCount === 0 ? 0 : isFound ? own.bestTicks : undefined,
    schedules: own.spent,
    starts: isFound ? own.bestStarts : new Int32Array(0),
    modes: isFound ? own.bestModes : new Int32Array(0),
  }
}

function isDone(own: Search): boolean {
  const { workMost, ticksWanted, goOn } = own.limits
  return own.spent >= workMost || own.bestTicks <= ticksWanted || (own.spent > 0 && !goOn())
}

function breedUntilDone(own: Search): void {
  const { settings, problem } = own
  const { taskCount } = problem
  const tails = new Int32Array(taskCount)
  fillTailTicks(problem.forward, problem.leastDurationTicks, tails)
  const sampler = preparedSampler(taskCount)
  const reunion = preparedReunion(taskCount, settings.startsPerReunion)
  for (let start = 1; !isDone(own); start++) {
    let parents: 0 | 1 = 0
    if (start % settings.startsPerReunion === 0) {
      parents = 1
      reunite(own, reunion)
    } else {
      for (let place = 0; place < settings.populationSize && !isDone(own); place++) {
        sampleList(own.work, problem.forward, tails, settings.isSteep, sampler)
        schedule(own, own.sides[0], place, own.random.below(1000) < settings.parallelPerMille)
        writeHandover(own.work, own.sides[0], place)
      }
    }
    let quiet = 0
    let leastTicks = Number.MAX_SAFE_INTEGER
    while (!isDone(own) && (quiet < settings.patienceGenerations || parents === 1)) {
      if (!bornGeneration(own, own.sides[parents], own.sides[1 - parents]!)) break
      parents = parents === 0 ? 1 : 0
      const ticks = own.sides[parents].makespanTicks[0]!
      quiet = ticks < leastTicks ? 0 : quiet + 1
      leastTicks = Math.min(leastTicks, ticks)
    }
    remember(own, reunion)
  }
}

interface Reunion {
  readonly lists: Int32Array
  readonly modes: Int32Array
  readonly room: number
  known: number
}

function preparedReunion(taskCount: number, room: number): Reunion {
  return { lists: new Int32Array(room * taskCount), modes: new Int32Array(room * taskCount), room, known: 0 }
}

function remember(own: Search, reunion: Reunion): void {
  const { taskCount } = own.problem
  const at = (reunion.known % reunion.room) * taskCount
  reunion.lists.set(own.sides[0].handover.subarray(0, taskCount), at)
  reunion.modes.set(own.sides[0].modes.subarray(0, taskCount), at)
  reunion.known++
}

/** Fills the backward side with what was remembered, and with changed copies of it. */
function reunite(own: Search, reunion: Reunion): void {
  const { work, settings, problem } = own
  const { taskCount } = problem
  const known = Math.min(reunion.known, reunion.room)
  for (let place = 0; place < settings.populationSize && !isDone(own); place++) {
    const at = (place % known) * taskCount
    work.list.set(reunion.lists.subarray(at, at + taskCount))
    work.modes.set(reunion.modes.subarray(at, at + taskCount))
    if (place >= known) {
      mutateList(work, problem.backward, 50)
      mutateModes(work, settings.changeModePerMille)
    }
    schedule(own, own.sides[1], place, false)
    writeHandover(work, own.sides[1], place)
  }
  reunion.known = 0
}

/** One pass over work.list into `place`; the best of all is kept. */
function schedule(own: Search, side: Side, place: number, isParallel: boolean): void {
  const { work, problem, settings } = own
  const { taskCount } = problem
  const at = place * taskCount
  let excess = mendBudgets(work)
  if (isParallel) side.makespanTicks[place] = parallelPass(work, side.direction, side.starts, at)
  else {
    side.makespanTicks[place] = serialPass(
      work,
      side.direction,
      side.starts,
      at,
      settings.chooseModeSixteenths,
    )
    if (excess > 0) excess = overdrawn(work)
  }
  side.modes.set(work.modes, at)
  side.fitness[place] = fitnessOf(work, side, place, excess)
  own.spent++
  if (excess === 0 && side.makespanTicks[place]! < own.bestTicks) keepBest(own, side, place)
}

/** Backward schedules are turned round. */
function keepBest(own: Search, side: Side, place: number): void {
  const { taskCount, modeDurationTicks } = own.problem
  const at = place * taskCount
  const makespan = side.makespanTicks[place]!
  own.bestTicks = makespan
  for (let task = 0; task < taskCount; task++) {
    const mode = side.modes[at + task]!
    const start = side.starts[at + task]!
    own.bestModes[task] = mode
    own.bestStarts[task] = side.direction.isForward ? start : makespan - start - modeDurationTicks[mode]!
  }
}

/** Children of the one side become the other side. False when the search ended on the way. */
function bornGeneration(own: Search, parents: Side, children: Side): boolean {
  const { settings, problem, work } = own
  const { taskCount } = problem
  const size = settings.populationSize
  const count = size * settings.childrenPerParent
  for (let child = 0; child < count; child++) {
    if (isDone(own)) return false
    conceive(own, parents, children, child % size)
    schedule(own, children, size + child, false)
  }
  const order = Array.from({ length: count }, (_, child) => size + child)
  order.sort((left, right) => children.fitness[left]! - children.fitness[right]! || left - right)
  let kept = 0
  for (let at = 0; kept < size; at++) {
    const child = order[at]!
    const isNeeded = size - kept >= count - at
    if (!isNeeded && hasTwin(children, taskCount, kept, child)) continue
    moveSchedule(children, taskCount, child, kept)
    writeHandover(work, children, kept)
    kept++
  }
  return true
}

function hasTwin(side: Side, taskCount: number, kept: number, child: number): boolean {
  for (let back = kept - 1; back >= 0 && side.fitness[back] === side.fitness[child]; back--) {
    if (isSameSchedule(side, taskCount, back, child)) return true
  }
  return false
}

/** Writes work.list and work.modes. Parents stand in the order of their fitness, the mother is the better of two. */
function conceive(own: Search, parents: Side, children: Side, father: number): void {
  const { settings, random, work, window } = own
  const size = settings.populationSize
  let mother = Math.min(random.below(size), random.below(size))
  if (mother === father) mother = (mother + 1 + random.below(size - 1)) % size
  const spread = settings.largestWindowPerMille - settings.leastWindowPerMille
  const span = settings.leastWindowPerMille + random.below(spread + 1)
  const isReplacing = random.below(1000) < settings.replaceWindowPerMille
  findWindow(work, parents, father, span, !isReplacing, window)
  if (isReplacing) replaceWindow(work, parents, father, mother, window)
  else keepWindow(work, parents, father, mother, window)
  mutateList(work, children.direction, settings.moveTaskPerMille)
  mutateModes(work, settings.changeModePerMille)
  if (isList(work, parents, father) || isList(work, parents, mother))
    mutateList(work, children.direction, 100)
}

function isList(work: Work, side: Side, place: number): boolean {
  const { taskCount } = work.problem
  for (let at = 0; at < taskCount; at++) {
    if (work.list[at] !== side.handover[place * taskCount + at]) return false
  }
  return true
}
