/**
 * The search: schedules justified to the one end of time breed lists that are scheduled from the other end, so every
 * single pass is a child and a justification at once. After Debels and Vanhoucke, A bi-population based genetic
 * algorithm for the resource-constrained project scheduling problem, ICCSA 2005, LNCS 3483, 378-387; justification:
 * Tormos and Lova, Annals of Operations Research 102 (2001) 65-81; Valls, Ballestín, Quintanilla, EJOR 165 (2005)
 * 375-386. Own: the best of all children live on, twins do not; starting afresh and reunions of the best.
 */
import { fitnessPerTick } from './fitness.ts'
import { bornGeneration, placesNeeded } from './generation.ts'
import { fillTailTicks } from './precedence.ts'
import type { Problem } from './problem.ts'
import { seededRandom } from './random.ts'
import { preparedReunion, remember, reunite } from './reunion.ts'
import { preparedSampler, sampleList } from './sampled-list.ts'
import type { Settings } from './settings.ts'
import { preparedSide, writeHandover } from './side.ts'
import { isDone, type Search, type SearchLimits, tryList } from './trial.ts'
import { preparedWork } from './work.ts'

export interface SearchResult {
  /** Undefined when no schedule within the budgets was met. */
  readonly makespanTicks: number | undefined
  readonly schedules: number
  /** By task of the problem: start ticks and modes of the best schedule. Empty when there is none. */
  readonly starts: Int32Array
  readonly modes: Int32Array
}

const noneYet = Number.MAX_SAFE_INTEGER

/** The same arguments give the same schedule, as long as `goOn` says the same. */
export function search(problem: Problem, limits: SearchLimits, settings: Settings): SearchResult {
  const { taskCount } = problem
  const random = seededRandom(limits.seed)
  const places = placesNeeded(settings.populationSize, settings.childrenPerParent)
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
    bestTicks: taskCount === 0 ? 0 : noneYet,
    spent: 0,
  }
  if (taskCount > 0) breedUntilDone(own)
  const isFound = own.bestTicks < noneYet
  return {
    makespanTicks: isFound ? own.bestTicks : undefined,
    schedules: own.spent,
    starts: isFound ? own.bestStarts : new Int32Array(0),
    modes: isFound ? own.bestModes : new Int32Array(0),
  }
}

/** Start after start; every few of them begins with what the ones before have found. Every start spends schedules. */
function breedUntilDone(own: Search): void {
  const { settings, problem } = own
  const tails = new Int32Array(problem.taskCount)
  fillTailTicks(problem.forward, problem.leastDurationTicks, tails)
  const sampler = preparedSampler(problem.taskCount)
  const reunion = preparedReunion(problem.taskCount, settings.startsPerReunion)
  for (let start = 1; !isDone(own); start++) {
    if (start % settings.startsPerReunion === 0) {
      reunite(own, reunion)
      breed(own, 1)
    } else {
      for (let place = 0; place < settings.populationSize && !isDone(own); place++) {
        sampleList(own.work, problem.forward, tails, settings.isSteep, sampler)
        tryList(own, own.sides[0], place, own.random.below(1000) < settings.parallelPerMille)
        writeHandover(own.work, own.sides[0], place)
      }
      breed(own, 0)
    }
    remember(own, reunion)
  }
}

/** Generations until none of late was better and the last stands on the forward side. */
function breed(own: Search, firstParents: 0 | 1): void {
  const hasGrown = [firstParents === 0, firstParents === 1]
  let parents = firstParents
  let quiet = 0
  let least = noneYet
  while (quiet < own.settings.patienceGenerations || parents === 1) {
    const children = parents === 0 ? 1 : 0
    if (!bornGeneration(own, own.sides[parents], own.sides[children], hasGrown[children]!)) return
    hasGrown[children] = true
    parents = children
    const score = Math.floor(own.sides[children].fitness[0]! / fitnessPerTick)
    quiet = score < least ? 0 : quiet + 1
    least = Math.min(least, score)
  }
}
