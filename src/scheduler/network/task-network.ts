/** From what stands to what is wanted: the tasks of one turn, what each must wait for, and what they share. */
import type { FurnishingId } from '../../domain/ids.ts'
import type { PieceMove } from '../../domain/piece-move.ts'
import type { Reckoning } from '../../domain/reckoning.ts'
import type { Task, TaskKey, TaskNetwork, TaskResource } from '../../domain/task.ts'
import { arrows } from './arrows.ts'
import { binsTasks } from './bins.ts'
import { briefingTasks } from './briefing.ts'
import { cleanSteps, cleanTaskCount } from './clean.ts'
import { deviceSwitches, needFloorClear } from './device-switches.ts'
import type { LotSize } from './lots.ts'
import { alignStep, markAndAlignTaskCount, markOutStep } from './mark-and-align.ts'
import { networkMilestones } from './milestones.ts'
import type { NetworkInput } from './network-input.ts'
import { chainedInZones, type TurnOutline } from './outline.ts'
import { type Parked, parkedPieces } from './parking.ts'
import { passageKey, passageResource } from './passage-use.ts'
import { pieceJobs, trolleyKey } from './piece-jobs.ts'
import { type PieceMoves, pieceMoves } from './piece-moves.ts'
import { pieceTaskCount, setSteps, strikeSteps } from './piece-tasks.ts'
import { piecesInFront } from './pieces-in-front.ts'
import { addQuietAndDark } from './quiet-and-dark.ts'
import {
  putBackTasks,
  type RestackKeys,
  restackTaskCount,
  restackTasks,
  restackTasksOfJustStruck,
} from './restack.ts'
import { signOffTask } from './sign-off.ts'
import { earlySwitchTasks, lateSwitchTasks, switchTaskCount } from './switch.ts'
import { toolKey, toolResource } from './tool-use.ts'
import { walkthroughTask } from './walkthrough.ts'
import { floorPlan, zonesMost } from './zones.ts'

/** A longer list is no use to a crew. Work is cut more coarsely until it is no longer than this. */
const TASKS_MOST = 120

/** Lots grow up to 16 times, so to 80 minutes of a pair, before zones are put together. */
const LOT_GROWTHS = [1, 1.5, 2, 3, 4, 6, 8, 12, 16] as const
/** When one zone is still too many tasks: about four hours of a pair, then undivided. */
const LOT_GROWTHS_OF_LAST_RESORT = [50, 1_000_000] as const

/**
 * The tasks of a turn, each after those it waits for, ending with the sign-off; never empty. Usually 20 to 45 tasks,
 * at most 120 as long as one task for each furnishing, direction and step of a device is not more than that already.
 * The same input gives the same network.
 * @throws StateUnreachable when a device cannot be brought into the state that is wanted
 * @throws Error when the input names a furnishing, store, passage or device that is not in it
 */
export const taskNetwork = (input: NetworkInput): TaskNetwork => networkOf(input, null).network

export interface ReckonedNetwork {
  readonly network: TaskNetwork
  /** Of every task. */
  readonly reckonings: ReadonlyMap<TaskKey, Reckoning>
  /** Of the furnishings whose places are known: which piece goes where. */
  readonly moves: readonly PieceMove[]
}

/** The same network, with how the minutes of each of its tasks come about and which piece goes where. */
export function reckonedNetwork(input: NetworkInput): ReckonedNetwork {
  const reckonings = new Map<TaskKey, Reckoning>()
  const { network, moves, parked } = networkOf(input, reckonings)
  return { network, reckonings, moves: arrows(moves, parked) }
}

interface Made {
  readonly network: TaskNetwork
  readonly moves: readonly PieceMoves[]
  readonly parked: ReadonlyMap<FurnishingId, Parked>
}

function networkOf(input: NetworkInput, reckonings: Map<TaskKey, Reckoning> | null): Made {
  const switches = deviceSwitches(input)
  const floorMustBeClear = needFloorClear(switches)
  // What stands must go and come back if the floor has to be clear in between.
  const staysAsItIs = input.sameLayout && !floorMustBeClear
  const moves = pieceMoves(input, { floorMustBeClear, staysAsItIs })
  const parked = parkedPieces(input, moves)
  const cutAs = ({ zones, lotSize }: Cut): TurnOutline => {
    const plan = floorPlan(input, zones)
    const jobs = pieceJobs(input, moves, parked, plan)
    const inFront = piecesInFront(input, jobs)
    return {
      input,
      zones: plan.zones,
      lotSize,
      jobs,
      inFront,
      deviceSwitches: switches,
      staysAsItIs,
      reckonings,
    }
  }
  return { network: outlinedNetwork(finestOutline(zonesMost(input), cutAs)), moves, parked }
}

interface Cut {
  readonly zones: number
  readonly lotSize: LotSize
}

/** The finest way to cut the work that is not too many tasks, or the coarsest there is. */
function finestOutline(zones: number, cutAs: (cut: Cut) => TurnOutline): TurnOutline {
  let outline: TurnOutline | null = null
  for (const cut of cutsFromFine(zones)) {
    const recut: TurnOutline =
      outline?.zones.length === cut.zones ? { ...outline, lotSize: cut.lotSize } : cutAs(cut)
    outline = recut
    if (taskCount(recut) <= TASKS_MOST) break
  }
  return outline!
}

/** From the finest to the coarsest way to cut the work; not empty. */
function* cutsFromFine(zonesMost: number): Generator<Cut> {
  for (let zones = zonesMost; ; zones = Math.ceil(zones / 2)) {
    for (const growth of LOT_GROWTHS) yield { zones, lotSize: { growth } }
    if (zones === 1) break
  }
  for (const growth of LOT_GROWTHS_OF_LAST_RESORT) yield { zones: 1, lotSize: { growth } }
}

/** Tasks that `outlinedNetwork` would make; briefing and bins are counted whether there are any or not. */
function taskCount(outline: TurnOutline): number {
  const briefingWalkthroughBinsSignOff = 4
  return (
    briefingWalkthroughBinsSignOff +
    switchTaskCount(outline) +
    restackTaskCount(outline) +
    pieceTaskCount(outline) +
    cleanTaskCount(outline) +
    markAndAlignTaskCount(outline)
  )
}

function outlinedNetwork(outline: TurnOutline): TaskNetwork {
  const { input, zones } = outline
  const briefing = briefingTasks(outline)
  const walkthrough = walkthroughTask(
    outline,
    briefing.map((task) => task.key),
  )
  const start = [walkthrough.key]
  const started = zones.map(() => start)
  const restacked = restackTasks(outline, start)
  const struck = chainedInZones(zones, started, strikeSteps(outline, restacked.beforePuttingAway))
  const struckEnds = distinct(struck.endsByZone.flat())
  const bins = binsTasks(outline, start)
  const switchedEarly = earlySwitchTasks(outline, start, [...struckEnds, ...bins.map((task) => task.key)])
  // No mop under a moving wall, and no wall over a wet floor.
  const cleaned = chainedInZones(
    zones,
    struck.endsByZone.map((keys) => [...keys, ...switchedEarly.floorClearEnds]),
    cleanSteps(outline),
  )
  const restackedLater = restackTasksOfJustStruck(outline, struck.tasks)
  const set = chainedInZones(zones, cleaned.endsByZone, [
    markOutStep(outline),
    ...setSteps(outline, joined(restacked.beforeFetching, restackedLater.beforeFetching)),
    alignStep(outline),
  ])
  const putBack = putBackTasks(outline, [...struck.tasks, ...set.tasks])
  const inRoom = [
    ...bins,
    ...restacked.tasks,
    ...struck.tasks,
    ...restackedLater.tasks,
    ...cleaned.tasks,
    ...set.tasks,
  ]
  const roomKeys = inRoom.length > 0 ? keysNothingWaitsFor(inRoom) : start
  const switched = lateSwitchTasks(outline, switchedEarly, roomKeys)
  const tasks = [
    ...briefing,
    walkthrough,
    ...bins,
    ...restacked.tasks,
    ...struck.tasks,
    ...restackedLater.tasks,
    ...switchedEarly.tasks,
    ...cleaned.tasks,
    ...set.tasks,
    ...putBack,
    ...switched.tasks,
  ]
  tasks.push(signOffTask(outline, keysNothingWaitsFor(tasks)))
  const quietAndDark = addQuietAndDark(input, tasks, switched)
  return {
    tasks,
    resources: [...resourcesUsed(input, tasks), ...quietAndDark].sort((a, b) => (a.key < b.key ? -1 : 1)),
    milestones: networkMilestones(input, tasks, struckEnds, start, switched.deviceEnds),
  }
}

function joined(a: RestackKeys, b: RestackKeys): RestackKeys {
  if (b.size === 0) return a
  return new Map([...a.keys(), ...b.keys()].map((id) => [id, [...(a.get(id) ?? []), ...(b.get(id) ?? [])]]))
}

function keysNothingWaitsFor(tasks: readonly Task[]): TaskKey[] {
  const waitedFor = new Set(tasks.flatMap((task) => task.after))
  return tasks.map((task) => task.key).filter((key) => !waitedFor.has(key))
}

/** The trolleys, tools and passages that any task holds. */
function resourcesUsed(
  { furnishings, passages, tools }: NetworkInput,
  tasks: readonly Task[],
): TaskResource[] {
  const used = new Set(tasks.flatMap((task) => task.uses.map((use) => use.resource)))
  if (used.size === 0) return []
  return [
    ...furnishings.flatMap((furnishing): TaskResource[] => {
      const key = trolleyKey(furnishing)
      if (!furnishing.trolley || !used.has(key)) return []
      return [{ key, label: `Trolley for ${furnishing.namePlural}`, capacity: furnishing.trolley.countOwned }]
    }),
    ...tools.filter((tool) => used.has(toolKey(tool))).map(toolResource),
    ...passages.filter((passage) => used.has(passageKey(passage))).map(passageResource),
  ]
}

const distinct = (keys: readonly TaskKey[]): TaskKey[] => [...new Set(keys)]
