/** What the tasks of a plan have done with pieces, and what they still have to do, zone by zone. */
import type { FurnishingId } from '../../domain/ids.ts'
import type { Plan } from '../../domain/plan.ts'
import type { TaskKey, TaskKind } from '../../domain/task.ts'
import type { StandsNow } from '../../domain/turn-progress.ts'
import { countsById, type NetworkInput, type PiecesSpread } from '../network/index.ts'

/** What the tasks of a plan have come to. */
export interface Told {
  readonly done: ReadonlySet<TaskKey>
  readonly running: ReadonlySet<TaskKey>
}

/** Of one furnishing, by the tasks that have not begun. */
interface Left {
  readonly toSet: number
  /** By zone index, of the tasks that name a zone. */
  readonly takenFrom: readonly number[]
  readonly setIn: readonly number[]
}

export type PiecesLeft = ReadonlyMap<FurnishingId, Left>

const TAKES: ReadonlySet<TaskKind> = new Set<TaskKind>(['strike', 'bus', 'linen-off', 'park'])
const SETS: ReadonlySet<TaskKind> = new Set<TaskKind>(['set', 'linen-on', 'settings'])

/** Of a task that sets pieces: they were put aside in the room. */
export const isFetchedInRoom = (key: TaskKey): boolean => /\/from-(?:side|zone)-/.test(key)

const isMovedStraight = (key: TaskKey): boolean => key.includes('/straight-')

export const isTaking = (kind: TaskKind): boolean => TAKES.has(kind)
export const isSetting = (kind: TaskKind): boolean => SETS.has(kind)

export function piecesLeft({ tasks }: Plan, { done, running }: Told): PiecesLeft {
  const left = new Map<FurnishingId, { toSet: number; takenFrom: number[]; setIn: number[] }>()
  for (const { key, kind, furnishingId, count, zone } of tasks) {
    if (furnishingId === null || done.has(key) || running.has(key)) continue
    const of = left.get(furnishingId) ?? { toSet: 0, takenFrom: [], setIn: [] }
    left.set(furnishingId, of)
    const pieces = count ?? 0
    if (SETS.has(kind)) of.toSet += pieces
    const byZone = SETS.has(kind) ? of.setIn : TAKES.has(kind) ? of.takenFrom : null
    if (byZone && zone !== null) byZone[zone - 1] = (byZone[zone - 1] ?? 0) + pieces
  }
  return left
}

export const wantedOf = ({ toLayout }: NetworkInput, id: FurnishingId): number =>
  countsById(toLayout.furnishings).get(id) ?? 0

/** As many as the tasks done and running have set. */
export const inPlaceByPlan = (wanted: number, left: PiecesLeft, id: FurnishingId): number =>
  Math.max(0, wanted - (left.get(id)?.toSet ?? 0))

/** Where pieces are told to be; else where the tasks that are left take them from and set them. */
export function spreadLeft(left: PiecesLeft, zones: number, stands: StandsNow): PiecesSpread {
  const whole = (byZone: readonly number[]) => Array.from({ length: zones }, (_, index) => byZone[index] ?? 0)
  const from = new Map([...left].map(([id, { takenFrom }]) => [id, whole(takenFrom)]))
  for (const { furnishingId, strayByZone } of stands.pieces) {
    if (strayByZone === null) continue
    const told = whole([])
    for (const { zone, count } of strayByZone) told[zone - 1]! += count
    from.set(furnishingId, told)
  }
  return { from, to: new Map([...left].map(([id, { setIn }]) => [id, whole(setIn)])) }
}

/**
 * Kinds of which something else is told to stand than the tasks done and running have left: more or fewer, more or fewer
 * in place, or in other zones.
 */
export function kindsNotAsPlanned(
  input: NetworkInput,
  plan: Plan,
  told: Told,
  stands: StandsNow,
): Set<FurnishingId> {
  const expected = standingByPlan(input, plan, told)
  const left = piecesLeft(plan, told)
  const isAsPlanned = ({ furnishingId: id, count, inPlace, strayByZone }: StandsNow['pieces'][number]) =>
    count === (expected.get(id) ?? 0) &&
    (strayByZone === null || isSpreadAs(strayByZone, left.get(id)?.takenFrom ?? [])) &&
    (inPlace === null || inPlace === Math.min(count, inPlaceByPlan(wantedOf(input, id), left, id)))
  const named = new Set(stands.pieces.map(({ furnishingId }) => furnishingId))
  return new Set([
    ...stands.pieces.filter((one) => !isAsPlanned(one)).map(({ furnishingId }) => furnishingId),
    ...[...expected].flatMap(([id, count]) => (count === 0 || named.has(id) ? [] : id)),
  ])
}

/** The same number in each zone; none at all where nobody knows of any. */
function isSpreadAs(
  told: readonly { readonly zone: number; readonly count: number }[],
  takenFrom: readonly number[],
): boolean {
  const counts = new Map(told.map(({ zone, count }) => [zone, count]))
  const zones = Math.max(takenFrom.length, ...told.map(({ zone }) => zone))
  return Array.from({ length: zones }, (_, index) => index).every(
    (index) => (counts.get(index + 1) ?? 0) === (takenFrom[index] ?? 0),
  )
}

/** What is being carried counts where it goes; what was put aside is still in the room. */
function standingByPlan(
  input: NetworkInput,
  { tasks }: Plan,
  { done, running }: Told,
): Map<FurnishingId, number> {
  const standing = countsById(input.standing)
  for (const { key, kind, furnishingId, count } of tasks) {
    if (furnishingId === null || !(done.has(key) || running.has(key))) continue
    const comesFromStore = SETS.has(kind) && !isFetchedInRoom(key) && !isMovedStraight(key)
    const sign = comesFromStore ? 1 : TAKES.has(kind) && kind !== 'park' ? -1 : 0
    standing.set(furnishingId, (standing.get(furnishingId) ?? 0) + sign * (count ?? 0))
  }
  return standing
}
