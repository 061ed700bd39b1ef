/** How many hands, on duty all through the gap, would have the turn ready by doors; or that none of the numbers tried would. */
import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import type { Proof } from '../../../domain/reason.ts'
import type { World } from '../../timeline/world.ts'
import { lowerBoundTicks, solve, type TurnInstance } from '../../turn/index.ts'
import { ADULT, CREW } from '../plan/activities-of.ts'
import type { BuiltInstance, BuiltPart } from '../plan/built-instance.ts'
import { TICK_MS } from '../plan/tick-grid.ts'
import { handsWindow } from './hands-window.ts'

/** More than this in one room get in each other's way: common practice, no source. */
export const HANDS_MOST_TRIED = 12

export interface HandsThatWouldDo {
  /** In all, those on duty included; null: none of the numbers tried. */
  readonly handsNeeded: number | null
  readonly handsTried: number
  /** When none would: `bound` says that not even the most tried can, `none-found` that no plan was found. */
  readonly proof: Proof
}

/**
 * The hands added are adults without special skills, and there when they could be: see hands-window.ts. Fewest first; what
 * a bound excludes is not searched.
 */
export function handsThatWouldDo(
  world: World,
  built: BuiltInstance,
  { turn, input }: BuiltPart,
  handsOnDuty: number,
  seed: number,
): HandsThatWouldDo {
  const { workMost } = world.setup.policy
  const window = handsWindow(world, input)
  const dues = built.instance.turns.map(({ dueTick }) => dueTick)
  const addedMost = Math.max(0, HANDS_MOST_TRIED - handsOnDuty)
  const handsTried = handsOnDuty + addedMost
  const excluded = (instance: TurnInstance) => {
    const { readyTick } = lowerBoundTicks(instance, turn)
    return readyTick === null || readyTick > dues[turn]!
  }
  if (addedMost === 0) return { handsNeeded: null, handsTried, proof: 'none-found' }
  if (window === null || excluded(withHandsAdded(built, addedMost, window)))
    return { handsNeeded: null, handsTried, proof: 'bound' }
  for (let added = 1; added <= addedMost; added += 1) {
    const instance = withHandsAdded(built, added, window)
    if (excluded(instance)) continue
    const { schedule } = solve(instance, { workMost, seed, acceptableReadyTicks: dues })
    if (schedule && schedule.readyTicks[turn]! <= dues[turn]!) {
      return { handsNeeded: handsOnDuty + added, handsTried, proof: 'none-found' }
    }
  }
  return { handsNeeded: null, handsTried, proof: 'none-found' }
}

function withHandsAdded(
  built: BuiltInstance,
  added: number,
  { fromAt, toAt }: HalfOpenInterval,
): TurnInstance {
  const { instance } = built
  const skillMask = built.skills.reduce(
    (mask, name, bit) => (name === ADULT || name === CREW ? mask | (1 << bit) : mask),
    0,
  )
  const from = Math.max(0, Math.ceil((fromAt - built.originAt) / TICK_MS))
  const to = Math.min(instance.horizonTick, Math.floor((toAt - built.originAt) / TICK_MS))
  const lanes = Array.from({ length: added }, (_, index) => ({
    key: `added-${index + 1}`,
    skillMask,
    available: [{ from, to }],
    busy: [],
  }))
  return { ...instance, lanes: [...instance.lanes, ...lanes] }
}
