/** From what stands to what is wanted: the tasks of one turn, what each must wait for, and what they share. */
import type { Task, TaskKey, TaskNetwork, TaskResource } from '../../domain/task.ts'
import { briefingTasks } from './briefing.ts'
import { cleanTaskCount, cleanTasks } from './clean.ts'
import { deviceSwitches, needFloorClear } from './device-switches.ts'
import type { LotSize } from './lots.ts'
import type { NetworkInput } from './network-input.ts'
import type { TurnOutline } from './outline.ts'
import { pieceMoves } from './piece-moves.ts'
import { trolleyKey } from './piece-tasks.ts'
import { setTaskCount, setTasks } from './set.ts'
import { signOffTask } from './sign-off.ts'
import { strikeTaskCount, strikeTasks } from './strike.ts'
import { switchTasks } from './switch.ts'
import { walkthroughTask } from './walkthrough.ts'
import { zoneCount, zonesOf } from './zones.ts'

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
 * @throws Error when the input names a furnishing, store or device that is not in it
 */
export function taskNetwork(input: NetworkInput): TaskNetwork {
  const switches = deviceSwitches(input)
  const floorMustBeClear = needFloorClear(switches)
  const base = {
    input,
    deviceSwitches: switches,
    // What stands must go and come back if the floor has to be clear in between.
    staysAsItIs: input.sameLayout && !floorMustBeClear,
  }
  const moves = base.staysAsItIs ? [] : pieceMoves(input, floorMustBeClear)
  const cutAs = ({ zones, lotSize }: Cut): TurnOutline => ({
    ...base,
    pieceMoves: moves,
    zones: zonesOf(input.areaSquareMetres, zones),
    lotSize,
  })
  const cuts = cutsFromFine(zoneCount(input.areaSquareMetres, input.policy.zoneSquareMetres))
  const cut = cuts.find((one) => taskCount(cutAs(one)) <= TASKS_MOST) ?? cuts.at(-1)!
  const outline = cutAs(cut)
  const tasks = turnTasks(outline)
  return { tasks, resources: trolleysUsed(input, tasks) }
}

interface Cut {
  readonly zones: number
  readonly lotSize: LotSize
}

/** From the finest to the coarsest way to cut the work; not empty. */
function cutsFromFine(zonesMost: number): Cut[] {
  const zoneCounts = [zonesMost]
  while (zoneCounts.at(-1)! > 1) zoneCounts.push(Math.ceil(zoneCounts.at(-1)! / 2))
  return [
    ...zoneCounts.flatMap((zones) => LOT_GROWTHS.map((growth) => ({ zones, lotSize: { growth } }))),
    ...LOT_GROWTHS_OF_LAST_RESORT.map((growth) => ({ zones: 1, lotSize: { growth } })),
  ]
}

/** Tasks that `turnTasks` would make; a briefing is counted whether there is one or not. */
function taskCount(outline: TurnOutline): number {
  const briefingWalkthroughSignOff = 3
  const switchSteps = outline.deviceSwitches.reduce((sum, { steps }) => sum + steps.length, 0)
  const divisible = strikeTaskCount(outline) + cleanTaskCount(outline) + setTaskCount(outline)
  return briefingWalkthroughSignOff + switchSteps + divisible
}

function turnTasks(outline: TurnOutline): Task[] {
  const briefing = briefingTasks(outline)
  const walkthrough = walkthroughTask(
    outline,
    briefing.map((task) => task.key),
  )
  const started = outline.zones.map(() => [walkthrough.key])
  const struck = strikeTasks(outline, started)
  const cleaned = cleanTasks(outline, struck.endsByZone)
  const switched = switchTasks(outline, [walkthrough.key], distinct(struck.endsByZone.flat()))
  const set = setTasks(
    outline,
    cleaned.endsByZone.map((keys) => [...keys, ...switched.floorClearEnds]),
  )
  const tasks = [...briefing, walkthrough, ...struck.tasks, ...cleaned.tasks, ...switched.tasks, ...set.tasks]
  return [...tasks, signOffTask(outline, keysNothingWaitsFor(tasks))]
}

function keysNothingWaitsFor(tasks: readonly Task[]): TaskKey[] {
  const waitedFor = new Set(tasks.flatMap((task) => task.after))
  return tasks.map((task) => task.key).filter((key) => !waitedFor.has(key))
}

/** The trolleys that any task holds, by key. */
function trolleysUsed({ furnishings }: NetworkInput, tasks: readonly Task[]): TaskResource[] {
  const used = new Set(tasks.flatMap((task) => task.uses.map((use) => use.resource)))
  return furnishings
    .flatMap((furnishing): TaskResource[] => {
      const key = trolleyKey(furnishing)
      if (!furnishing.trolley || !used.has(key)) return []
      return [{ key, label: `Trolley for ${furnishing.namePlural}`, capacity: furnishing.trolley.countOwned }]
    })
    .sort((a, b) => (a.key < b.key ? -1 : 1))
}

const distinct = (keys: readonly TaskKey[]): TaskKey[] => [...new Set(keys)]
