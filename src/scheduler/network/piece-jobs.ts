/** What has to be done with pieces, zone by zone: the moves of a turn on one plan of the floor. */
import type { Furnishing, FurnishingKind } from '../../domain/furnishing.ts'
import type { FurnishingId } from '../../domain/ids.ts'
import type { PieceRate, Rates } from '../../domain/rate-set.ts'
import type { Task, TaskKey, TaskKind } from '../../domain/task.ts'
import { type FloorWay, floorLoadWork, floorWay } from './floor-carry.ts'
import { washedIn } from './is-soiled.ts'
import type { NetworkInput } from './network-input.ts'
import type { Parked } from './parking.ts'
import { isChair, isMarked, isTable, standsOnFloor } from './piece-kinds.ts'
import type { PieceMoves } from './piece-moves.ts'
import { chairsStandInRows, rowsSetByZone } from './rows-of-chairs.ts'
import { toolOfPieces, toolUse } from './tool-use.ts'
import { loadWork, type StoreWay, type TravelWork } from './travel.ts'
import { sharesByZone, stoodByZone, type ZoneShares, zoneIsGuessed } from './zone-shares.ts'
import type { FloorPlan } from './zones.ts'

/** Pieces of one furnishing that all go the same way. */
export interface PieceJob {
  readonly direction: 'strike' | 'set'
  readonly kind: TaskKind
  readonly furnishing: Furnishing
  readonly way: StoreWay
  /** Between the room and its store, or where it is washed; else they stay in the room, at `place`. */
  readonly withStore: boolean
  /** The store, where they are washed, or where they are parked. */
  readonly place: string
  /** They were eaten from: struck, they go to be washed; what is set are clean ones. */
  readonly soiled: boolean
  /** Not all 0. */
  readonly byZone: readonly number[]
  /** The zone is only where such pieces are likely to stand: nobody is told that they do. */
  readonly zoneIsGuessed: boolean
  readonly handlingEach: number
  /** From where on the floor they are fetched; null: from the store, or nobody knows. */
  readonly onFloor: FloorWay | null
  /** Taken up where they stand and put where they are wanted, a few steps away. */
  readonly straight: boolean
  /** Zones they are set in again, by index, ascending; none: they are not, or nobody knows. */
  readonly neededIn: readonly number[]
  /** Of one load; null: no way costs anything. */
  readonly load: TravelWork | null
  /** Passages apart, which depend on the lot. */
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
  /** Marks whose zone is only likely, and what they are for. */
  readonly marksGuessed: readonly number[]
  readonly guessedNames: readonly string[]
  /** More than half of what stood stays, so that cleaning goes around it. */
  readonly mostStays: readonly boolean[]
  /** Chairs of rows that are set, and are lined up when they stand; those that stay stand in line already. */
  readonly rowChairsSet: readonly number[]
  /** Rows they are set in: each has one of the marks. */
  readonly rowsSet: readonly number[]
}

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
  const marksGuessed = [...none]
  const guessedNames: string[] = []
  const stoodOnFloor = [...none]
  const goesOffFloor = [...none]
  const rowChairsSet = [...none]
  const rowsSet = [...none]
  const inRows = chairsStandInRows(moves, input)
  for (const one of moves) {
    const { furnishing } = one
    const { kind } = furnishing
    const stood = stoodByZone(one, plan)
    if (input.outgoing?.foodServed && isTable(kind)) addTo(tablesToWipe, stood)
    if (standsOnFloor(kind)) addTo(stoodOnFloor, stood)
    if (one.stays === one.stood && one.stays === one.wanted) continue
    const shares = sharesByZone(one, parked.get(furnishing.id)?.count ?? 0, plan, input.rates)
    const place = parked.get(furnishing.id)?.place ?? ''
    const { name: storeName } = one.way.store
    const putWhere = (one.soiled && washedIn(furnishing)) || storeName
    const fromGuessed = zoneIsGuessed(kind, one.seenFrom, one.spreadFrom, plan)
    const toGuessed = zoneIsGuessed(kind, one.seenTo, one.spreadTo, plan)
    strike.push(
      ...jobsOf(input, 'strike', one, true, putWhere, shares.toStore, fromGuessed),
      ...parkingJobs(input, one, place, shares, fromGuessed),
    )
    set.push(
      ...jobsOf(input, 'set', one, false, '', shares.straightTo, false).map((job) => ({
        ...job,
        straight: true,
      })),
      ...jobsOf(input, 'set', one, true, storeName, shares.fromStore, toGuessed),
      ...fetchingJobs(input, one, place, shares, toGuessed),
    )
    if (standsOnFloor(kind)) {
      addTo(goesOffFloor, shares.toStore)
      addTo(goesOffFloor, shares.parkedFrom)
    }
    const setByZone = shares.fromStore.map(
      (count, index) => count + shares.parkedTo[index]! + shares.straightTo[index]!,
    )
    if (isMarked(kind)) {
      addTo(toGuessed ? marksGuessed : marks, setByZone)
      if (toGuessed && setByZone.some((count) => count > 0)) guessedNames.push(furnishing.namePlural)
    }
    if (inRows && isChair(kind)) {
      addTo(rowChairsSet, setByZone)
      addTo(rowsSet, rowsSetByZone(one, setByZone, plan))
    }
  }
  // A mark at its end says where a row goes.
  addTo(marks, rowsSet)
  return {
    strike,
    set,
    tablesToWipe,
    marks,
    marksGuessed,
    guessedNames,
    mostStays: stoodOnFloor.map((stood, index) => stood > 0 && goesOffFloor[index]! < stood / 2),
    rowChairsSet,
    rowsSet,
  }
}

/** Where it is known where they go next, zone by zone, so that each is told. */
function parkingJobs(
  input: NetworkInput,
  moves: PieceMoves,
  place: string,
  { parkedFrom, carries }: ZoneShares,
  guessed: boolean,
): PieceJob[] {
  if (carries === null) return jobsOf(input, 'strike', moves, false, place, parkedFrom, guessed)
  return parkedFrom.flatMap((count, zone) => {
    const neededIn = carries.filter(({ fromZone }) => fromZone === zone).map(({ toZone }) => toZone)
    return jobsOf(input, 'strike', moves, false, place, onlyIn(zone, count, parkedFrom), guessed).map(
      (job) => ({ ...job, neededIn }),
    )
  })
}

/** One for each zone they come from and go to, with the way between. */
function fetchingJobs(
  input: NetworkInput,
  moves: PieceMoves,
  place: string,
  { parkedTo, carries }: ZoneShares,
  guessed: boolean,
): PieceJob[] {
  if (carries === null) return jobsOf(input, 'set', moves, false, place, parkedTo, guessed)
  const { furnishing } = moves
  return carries.flatMap((carry) => {
    const byZone = onlyIn(carry.toZone, carry.count, parkedTo)
    const onFloor = floorWay(furnishing, carry, input.rates)
    return jobsOf(input, 'set', moves, false, place, byZone, guessed).map((job) => ({
      ...job,
      onFloor,
      load: carry.beyondMetres > 0 ? floorLoadWork(furnishing, onFloor, input.rates) : null,
      uses: [...(onFloor.byTrolley ? [{ resource: trolleyKey(furnishing), amount: 1 }] : []), ...job.uses],
    }))
  })
}

const onlyIn = (zone: number, count: number, zones: readonly number[]): number[] =>
  zones.map((_, index) => (index === zone ? count : 0))

function jobsOf(
  input: NetworkInput,
  direction: PieceJob['direction'],
  { furnishing, way, soiled }: PieceMoves,
  withStore: boolean,
  place: string,
  byZone: readonly number[],
  guessed: boolean,
): PieceJob[] {
  if (byZone.every((pieces) => pieces === 0)) return []
  const { rates } = input
  const tool = toolOfPieces(input, furnishing)
  return [
    {
      direction,
      kind: kindOf(direction, furnishing.kind, withStore),
      furnishing,
      way,
      withStore,
      place,
      soiled,
      byZone,
      zoneIsGuessed: guessed,
      handlingEach: handlingPersonSeconds(furnishing, way, direction, rates),
      onFloor: null,
      straight: false,
      neededIn: [],
      load: withStore ? loadWork(furnishing, way, rates) : null,
      uses: [
        ...(withStore && way.byTrolley ? [{ resource: trolleyKey(furnishing), amount: 1 }] : []),
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
