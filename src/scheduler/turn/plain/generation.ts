/** A generation: children of the schedules justified to the one end become those justified to the other. */
import { keepWindow, replaceWindow } from './crossing.ts'
import { mutateList, mutateModes } from './mutation.ts'
import { isSameSchedule, moveSchedule, type Side, writeHandover } from './side.ts'
import { isDone, type Search, tryList } from './trial.ts'
import { findWindow } from './window.ts'

/** Places a side needs: the grown, their children, and the grown once more while both are compared. */
export function placesNeeded(populationSize: number, childrenPerParent: number): number {
  return populationSize * (childrenPerParent + 2)
}

/**
 * The best of the children, and with elders also of those who stood there before, become the grown of their side, in
 * the order of their fitness, no two the same as long as there are enough. False when the search ended on the way.
 */
export function bornGeneration(own: Search, parents: Side, children: Side, hasGrown: boolean): boolean {
  const { settings, problem, work } = own
  const { taskCount } = problem
  const size = settings.populationSize
  const count = size * settings.childrenPerParent
  const candidates: number[] = []
  for (let child = 0; child < count; child++) {
    if (isDone(own)) return false
    conceive(own, parents, children, child % size)
    tryList(own, children, size + child, false)
    candidates.push(size + child)
  }
  if (settings.hasElders && hasGrown) {
    for (let elder = 0; elder < size; elder++) {
      moveSchedule(children, taskCount, elder, size + count + elder)
      candidates.push(size + count + elder)
    }
  }
  candidates.sort((left, right) => children.fitness[left]! - children.fitness[right]! || left - right)
  let grown = 0
  for (let at = 0; grown < size; at++) {
    const candidate = candidates[at]!
    const isNeeded = size - grown >= candidates.length - at
    if (!isNeeded && hasTwin(children, taskCount, grown, candidate)) continue
    moveSchedule(children, taskCount, candidate, grown)
    writeHandover(work, children, grown)
    grown++
  }
  return true
}

function hasTwin(side: Side, taskCount: number, grown: number, candidate: number): boolean {
  for (let back = grown - 1; back >= 0 && side.fitness[back] === side.fitness[candidate]; back--) {
    if (isSameSchedule(side, taskCount, back, candidate)) return true
  }
  return false
}

/** Writes work.list and work.modes. */
function conceive(own: Search, parents: Side, children: Side, father: number): void {
  const { settings, random, work, window } = own
  const mother = chosenMother(own, parents, father)
  const spread = settings.largestWindowPerMille - settings.leastWindowPerMille
  const span = settings.leastWindowPerMille + random.below(spread + 1)
  const isReplacing = random.below(1000) < settings.replaceWindowPerMille
  findWindow(work, parents, father, span, !isReplacing, window)
  if (isReplacing) replaceWindow(work, parents, father, mother, window)
  else keepWindow(work, parents, father, mother, window)
  mutateList(work, children.direction, settings.movesPerHundredChildren)
  mutateModes(work, settings.changeModePerMille)
  if (isHandover(own, parents, father) || isHandover(own, parents, mother)) {
    mutateList(work, children.direction, settings.movesPerHundredCopies)
  }
}

/** The better of two, never the father; with `likesUnlike` the one of two such that is less like the father. */
function chosenMother(own: Search, parents: Side, father: number): number {
  const mother = betterOfTwo(own, father)
  if (!own.settings.likesUnlike) return mother
  const other = betterOfTwo(own, father)
  return distance(own, parents, father, other) > distance(own, parents, father, mother) ? other : mother
}

/** Parents stand in the order of their fitness. */
function betterOfTwo(own: Search, father: number): number {
  const size = own.settings.populationSize
  const better = Math.min(own.random.below(size), own.random.below(size))
  return better === father ? (better + 1 + own.random.below(size - 1)) % size : better
}

/** Ticks the starts lie apart, summed over the tasks. */
function distance(own: Search, side: Side, left: number, right: number): number {
  const { taskCount } = own.problem
  let sum = 0
  for (let task = 0; task < taskCount; task++) {
    sum += Math.abs(side.starts[left * taskCount + task]! - side.starts[right * taskCount + task]!)
  }
  return sum
}

/** True when work.list is what the parent itself hands over: the pass would teach nothing new. */
function isHandover(own: Search, side: Side, place: number): boolean {
  const { taskCount } = own.problem
  for (let at = 0; at < taskCount; at++) {
    if (own.work.list[at] !== side.handover[place * taskCount + at]) return false
  }
  return true
}
