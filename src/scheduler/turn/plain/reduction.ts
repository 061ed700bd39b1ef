/**
 * Takes out modes and budgets that cannot matter, until nothing changes:
 * a mode that fits no schedule, a budget that can never be short, a mode that another one beats in everything.
 * Sprecher, Hartmann, Drexl, An exact algorithm for project scheduling with multiple modes,
 * OR Spektrum 19 (1997) 195-203.
 */
import type { PlainInstance } from './plain-instance.ts'

export interface ReducedMode {
  readonly durationTicks: number
  readonly uses: readonly number[]
  readonly consumes: readonly number[]
  /** Its number among the task's modes in the instance. */
  readonly originalMode: number
}

export interface Reduced {
  readonly modes: readonly (readonly ReducedMode[])[]
  readonly budgets: readonly number[]
}

/** A task may be left without a mode: then there is no schedule. */
export function reduced(raw: PlainInstance): Reduced {
  let modes: readonly (readonly ReducedMode[])[] = raw.tasks.map((task) =>
    task.modes.map((mode, originalMode) => ({
      durationTicks: mode.duration,
      uses: mode.uses,
      consumes: mode.consumes,
      originalMode,
    })),
  )
  let budgets: readonly number[] = raw.consumables
  for (;;) {
    const before = modes.reduce((count, list) => count + list.length, budgets.length)
    modes = withoutUnfit(modes, budgets, raw.resources)
    const needed = budgets.map(
      (budget, at) => sumOf(modes, (list) => Math.max(...amounts(list, at))) > budget,
    )
    budgets = budgets.filter((_, at) => needed[at])
    modes = modes.map((list) =>
      withoutBeaten(list.map((mode) => ({ ...mode, consumes: mode.consumes.filter((_, at) => needed[at]) }))),
    )
    // Every round but the last takes something out.
    if (modes.reduce((count, list) => count + list.length, budgets.length) === before)
      return { modes, budgets }
  }
}

function withoutUnfit(
  modes: readonly (readonly ReducedMode[])[],
  budgets: readonly number[],
  capacities: readonly number[],
): readonly (readonly ReducedMode[])[] {
  const least = budgets.map((_, at) => sumOf(modes, (list) => Math.min(...amounts(list, at))))
  return modes.map((list) =>
    list.filter(
      (mode) =>
        mode.uses.every((amount, resource) => amount <= capacities[resource]!) &&
        budgets.every(
          (budget, at) => least[at]! - Math.min(...amounts(list, at)) + mode.consumes[at]! <= budget,
        ),
    ),
  )
}

function withoutBeaten(list: readonly ReducedMode[]): readonly ReducedMode[] {
  return list.filter(
    (mode, at) => !list.some((other, otherAt) => otherAt !== at && beats(other, mode, otherAt < at)),
  )
}

/** No worse in anything; of equals the first beats the second. */
function beats(left: ReducedMode, right: ReducedMode, isFirst: boolean): boolean {
  const mine = [left.durationTicks, ...left.uses, ...left.consumes]
  const theirs = [right.durationTicks, ...right.uses, ...right.consumes]
  if (mine.some((amount, at) => amount > theirs[at]!)) return false
  return isFirst || mine.some((amount, at) => amount < theirs[at]!)
}

function amounts(list: readonly ReducedMode[], budget: number): number[] {
  return list.map((mode) => mode.consumes[budget]!)
}

function sumOf<T>(values: readonly T[], amount: (value: T) => number): number {
  return values.reduce((total, value) => total + amount(value), 0)
}
