/** What has to be done with pieces, zone by zone: the moves of a turn on one plan of the floor. */
import type { Furnishing, FurnishingKind } from '../../domain/furnishing.ts'
import type { FurnishingId } from '../../domain/ids.ts'
import type { PieceRate, Rates } from '../../domain/rate-set.ts'
import type { Task, TaskKey, TaskKind } from '../../domain/task.ts'
import type { NetworkInput } from './network-input.ts'
import type { Parked } from './parking.ts'
import { passageUses } from './passage-use.ts'
import type { PieceMoves } from './piece-moves.ts'
import { toolOfPieces, toolUse } from './tool-use.ts'
import { loadWork, type StoreWay, tripsBetween } from './travel.ts'
import { workFactor } from './work-content.ts'
import { sharesByZone, standingByZone } from './zone-shares.ts'
import type { FloorPlan } from './zones.ts'

/** Pieces of one furnishing that all go the same way. */
export interface PieceJob {
  readonly direction: 'strike' | 'set'
  readonly kind: TaskKind
  readonly furnishing: Furnishing
  readonly way: StoreWay
  /** Between the room and its store; else they stay in the room, at `place`. */
  readonly withStore: boolean
  /** The store, or where they are parked. */
  readonly place: string
  /** 1 or more, in the whole room. */
  readonly count: number
  readonly byZone: readonly number[]
  /** Trips of all of them; 0 within the room. */
  readonly loads: number
  readonly handlingEach: number
  /** Handling and its share of the way, for practised workers. */
  readonly practisedEach: number
  /** Its share of the time in lifts. */
  readonly rideEach: number
  readonly uses: Task['uses']
  /** Its team works with a tool of which there are only so many: one team to a lot. */
  readonly oneTeam: boolean
}

export interface PieceJobs {
  readonly strike: readonly PieceJob[]
  readonly set: readonly PieceJob[]
  /** By zone index. */
  readonly tablesToWipe: readonly number[]
  readonly marks: readonly number[]
  readonly chairsToAlign: readonly number[]
  /** Chairs of rows that are set; each row has one of the marks. */
  readonly rowChairsSet: readonly number[]
  readonly chairsToARow: number
}

export const isTable = (kind: FurnishingKind): boolean => kind === 'round-table' || kind === 'long-table'
export const isChair = (kind: FurnishingKind): boolean =>
  kind === 'stacking-chair' || kind === 'folding-chair'
const isMarked = (kind: FurnishingKind): boolean =>
  isTable(kind) || kind === 'stage-deck' || kind === 'post-pair' || kind === 'games-table'

/** Chairs to a row: a mark at its end says where it goes. Common practice, no source. */
const CHAIRS_TO_A_ROW = 12

export const trolleyKey = (furnishing: Furnishing): TaskKey => `trolley:${furnishing.id}`

export function pieceJobs(
  input: NetworkInput,
  moves: readonly PieceMoves[],
  parked: ReadonlyMap<FurnishingId, Parked>,
  plan: FloorPlan,
): PieceJobs {
  const strike: PieceJob[] = []
  const set: PieceJob[] = []
  const none = plan.zones.map(() => 0)
  const tablesToWipe = [...none]
  const marks = [...none]
  const rowChairsSet = [...none]
  const rowChairs = [...none]
  const inRows = chairsStandInRows(moves, input)
  for (const one of moves) {
    const { furnishing } = one
    if (input.outgoing?.foodServed && isTable(furnishing.kind) && one.stood > 0) {
      addTo(tablesToWipe, standingByZone(one.stood, one.placesFrom, plan))
    }
    if (one.stays === one.stood && one.stays === one.wanted) continue
    const shares = sharesByZone(one, parked.get(furnishing.id)?.count ?? 0, plan)
    const place = parked.get(furnishing.id)?.place ?? ''
    const { name: storeName } = one.way.store
    strike.push(
      ...jobsOf(input, 'strike', one, true, storeName, shares.toStore),
      ...jobsOf(input, 'strike', one, false, place, shares.parkedFrom),
    )
    set.push(
      ...jobsOf(input, 'set', one, true, storeName, shares.fromStore),
      ...jobsOf(input, 'set', one, false, place, shares.parkedTo),
    )
    const setByZone = shares.fromStore.map((count, index) => count + shares.parkedTo[index]!)
    if (isMarked(furnishing.kind)) addTo(marks, setByZone)
    if (inRows && isChair(furnishing.kind)) {
      addTo(rowChairsSet, setByZone)
      addTo(rowChairs, standingByZone(one.wanted, one.placesTo, plan))
    }
  }
  addTo(
    marks,
    rowChairsSet.map((chairs) => Math.ceil(chairs / CHAIRS_TO_A_ROW)),
  )
  return {
    strike,
    set,
    tablesToWipe,
    marks,
    chairsToAlign: rowChairs.map((chairs, index) => (rowChairsSet[index]! > 0 ? chairs : 0)),
    rowChairsSet,
    chairsToARow: CHAIRS_TO_A_ROW,
  }
}

/** Chairs that are not at tables stand in rows, except at a banquet or at games, where they stand along the wall. */
function chairsStandInRows(moves: readonly PieceMoves[], { toLayout }: NetworkInput): boolean {
  if (toLayout.kind === 'games' || toLayout.kind === 'banquet') return false
  return !moves.some((one) => one.wanted > 0 && isTable(one.furnishing.kind))
}

function jobsOf(
  input: NetworkInput,
  direction: PieceJob['direction'],
  { furnishing, way }: PieceMoves,
  withStore: boolean,
  place: string,
  byZone: readonly number[],
): PieceJob[] {
  const count = byZone.reduce((sum, pieces) => sum + pieces, 0)
  if (count === 0) return []
  const { rates, policy } = input
  const loads = withStore ? tripsBetween(way, count) : 0
  const load = withStore ? loadWork(furnishing, way, rates) : null
  const handlingEach = handlingPersonSeconds(furnishing, way, direction, rates)
  const practisedEach = handlingEach + (load ? (loads * load.practisedPersonSeconds) / count : 0)
  const rideEach = load ? (loads * load.ridePersonSeconds) / count : 0
  const factor = workFactor(policy)
  const tool = toolOfPieces(input, furnishing)
  return [
    {
      direction,
      kind: kindOf(direction, furnishing.kind, withStore),
      furnishing,
      way,
      withStore,
      place,
      count,
      byZone,
      loads,
      handlingEach,
      practisedEach,
      rideEach,
      uses: [
        ...(withStore && way.byTrolley ? [{ resource: trolleyKey(furnishing), amount: 1 }] : []),
        ...(withStore
          ? passageUses(furnishing, way, loads / (count * (practisedEach * factor + rideEach)), factor, rates)
          : []),
        ...(tool ? [toolUse(tool)] : []),
      ],
      oneTeam: tool !== null,
    },
  ]
}

/** Name of the handling figure in a rate, and which table of rates it is in. */
export const handlingRate = (way: StoreWay, direction: PieceJob['direction']) =>
  ({
    table: way.byTrolley ? 'fromTrolley' : 'byHand',
    figure: direction === 'set' ? 'setPersonSeconds' : 'strikePersonSeconds',
  }) satisfies { table: keyof Rates; figure: keyof PieceRate }

function handlingPersonSeconds(
  furnishing: Furnishing,
  way: StoreWay,
  direction: PieceJob['direction'],
  rates: Rates,
): number {
  const { table, figure } = handlingRate(way, direction)
  return furnishing[figure] ?? rates[table][furnishing.kind][figure]
}

function kindOf(direction: PieceJob['direction'], kind: FurnishingKind, withStore: boolean): TaskKind {
  if (kind === 'place-setting') return direction === 'strike' ? 'bus' : 'settings'
  if (kind === 'table-cloth') return direction === 'strike' ? 'linen-off' : 'linen-on'
  if (direction === 'set') return 'set'
  return withStore ? 'strike' : 'park'
}

function addTo(sums: number[], counts: readonly number[]): void {
  for (const [index, count] of counts.entries()) sums[index]! += count
}
