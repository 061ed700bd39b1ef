/** The instance as flat arrays of whole numbers: what every pass reads. A task with one mode is the common case. */
import { type Packing, packInto, packingFor } from './packing.ts'
import type { PlainInstance } from './plain-instance.ts'
import { type Direction, preparedPrecedence } from './precedence.ts'
import { reduced } from './reduction.ts'

export interface Problem {
  readonly taskCount: number
  readonly resourceCount: number
  readonly budgetCount: number
  readonly capacities: Int32Array
  readonly budgets: Int32Array
  readonly forward: Direction
  readonly backward: Direction
  readonly originalTask: Int32Array
  /** Modes of task t are [modesFrom[t], modesFrom[t + 1]). */
  readonly modesFrom: Int32Array
  readonly hasChoice: boolean
  readonly originalMode: Int32Array
  readonly modeDurationTicks: Int32Array
  /** [mode * resourceCount + resource] */
  readonly modeUses: Int32Array
  /** [mode * wordCount + word] */
  readonly modePackedUses: Int32Array
  /** [mode * budgetCount + budget] */
  readonly modeConsumes: Int32Array
  /** Thousandths of the capacities in use while the mode runs, summed over the resources. */
  readonly modeDensity: Int32Array
  readonly leastDurationTicks: Int32Array
  readonly hasZeroDuration: boolean
  readonly packing: Packing
  /** The longest modes one after the other: no pass ends later. */
  readonly horizonTicks: number
}

/** Undefined when some task has no mode that can ever be used. */
export function preparedProblem(raw: PlainInstance): Problem | undefined {
  const { modes, budgets } = reduced(raw)
  if (modes.some((list) => list.length === 0)) return undefined
  const { forward, backward, originalTask } = preparedPrecedence(raw.tasks.map((task) => task.successors))
  const ordered = Array.from(originalTask, (task) => modes[task]!)
  const flat = ordered.flat()
  const packing = packingFor(raw.resources)
  const modesFrom = new Int32Array(ordered.length + 1)
  for (let task = 0; task < ordered.length; task++)
    modesFrom[task + 1] = modesFrom[task]! + ordered[task]!.length
  const modePackedUses = new Int32Array(flat.length * packing.wordCount)
  for (let mode = 0; mode < flat.length; mode++) {
    packInto(packing, flat[mode]!.uses, modePackedUses, mode * packing.wordCount)
  }
  return {
    taskCount: ordered.length,
    resourceCount: raw.resources.length,
    budgetCount: budgets.length,
    capacities: Int32Array.from(raw.resources),
    budgets: Int32Array.from(budgets),
    forward,
    backward,
    originalTask,
    modesFrom,
    hasChoice: flat.length > ordered.length,
    originalMode: Int32Array.from(flat, (mode) => mode.originalMode),
    modeDurationTicks: Int32Array.from(flat, (mode) => mode.durationTicks),
    modeUses: Int32Array.from(flat.flatMap((mode) => [...mode.uses])),
    modePackedUses,
    modeConsumes: Int32Array.from(flat.flatMap((mode) => [...mode.consumes])),
    modeDensity: Int32Array.from(flat, (mode) =>
      mode.uses.reduce(
        (sum, amount, resource) =>
          sum + (amount === 0 ? 0 : Math.floor((1000 * amount) / raw.resources[resource]!)),
        0,
      ),
    ),
    leastDurationTicks: Int32Array.from(ordered, (list) =>
      Math.min(...list.map((mode) => mode.durationTicks)),
    ),
    hasZeroDuration: flat.some((mode) => mode.durationTicks === 0),
    packing,
    horizonTicks: ordered.reduce((sum, list) => sum + Math.max(...list.map((mode) => mode.durationTicks)), 0),
  }
}
