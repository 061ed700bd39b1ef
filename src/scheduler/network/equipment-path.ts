/** The quickest way through a device's states: Dijkstra's method over at most 40 states and 400 transitions. */
import type { StateName, StatesControl, Transition } from '../../domain/equipment.ts'

interface Reached {
  readonly seconds: number
  readonly steps: number
  /** null: where the way begins. */
  readonly by: Transition | null
}

/**
 * The transitions from one state to another that take the least time; of equally quick ways the one with fewer
 * transitions, then the one found first in the order the states and transitions are listed.
 * @returns in order; empty when the device is there already; null when there is no way or no such state
 */
export function equipmentPath(control: StatesControl, from: StateName, to: StateName): Transition[] | null {
  if (!control.states.includes(from) || !control.states.includes(to)) return null
  const reached = quickestWays(control, from)
  if (!reached.has(to)) return null
  const path: Transition[] = []
  // A way visits each state once, so it has fewer transitions than there are states.
  for (
    let by = reached.get(to)?.by;
    by && path.length < control.states.length;
    by = reached.get(by.from)?.by
  ) {
    path.unshift(by)
  }
  return path
}

/** Every state the device can be brought to, itself included, in the order they are listed; none for an unknown state. */
export function reachableStates(control: StatesControl, from: StateName): StateName[] {
  if (!control.states.includes(from)) return []
  const reached = quickestWays(control, from)
  return control.states.filter((state) => reached.has(state))
}

function quickestWays(control: StatesControl, from: StateName): Map<StateName, Reached> {
  const reached = new Map<StateName, Reached>([[from, { seconds: 0, steps: 0, by: null }]])
  const open = new Set(control.states)
  for (let settled = 0; settled < control.states.length; settled++) {
    const state = nearest(open, reached)
    if (state === null) break
    open.delete(state)
    const here = reached.get(state)!
    for (const transition of control.transitions) {
      if (transition.from !== state || !open.has(transition.to)) continue
      const there = { seconds: here.seconds + transition.seconds, steps: here.steps + 1, by: transition }
      const known = reached.get(transition.to)
      if (!known || isQuicker(there, known)) reached.set(transition.to, there)
    }
  }
  return reached
}

function nearest(open: ReadonlySet<StateName>, reached: ReadonlyMap<StateName, Reached>): StateName | null {
  let best: StateName | null = null
  for (const state of open) {
    const way = reached.get(state)
    if (way && (best === null || isQuicker(way, reached.get(best)!))) best = state
  }
  return best
}

const isQuicker = (a: Reached, b: Reached): boolean =>
  a.seconds < b.seconds || (a.seconds === b.seconds && a.steps < b.steps)
