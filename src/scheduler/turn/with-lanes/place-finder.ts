/** What a pass along a list asks of a timetable, whichever way that is kept. */
import type { PreparedInstance } from '../prepared-instance.ts'

export interface PlaceFinder {
  readonly problem: PreparedInstance
  /** Only what is pinned is planned. @param earliestStarts by turn: nothing of it that is not pinned begins earlier */
  begin(earliestStarts: Int32Array): void
  /**
   * What is asked next is about this activity, from its earliest start on.
   * @param predecessor the one that ends last; -1: none ends after the earliest start of its turn
   */
  lookFrom(activity: number, predecessor: number): void
  /**
   * The first tick, `fromTick` or later, at which the activity can start in this mode and end by `latestEnd`; NEVER
   * when there is none. Exact: no earlier tick has the lanes and resources, however the lanes are shared out.
   */
  earliestStart(activity: number, mode: number, fromTick: number, latestEnd: number): number
  /** Who comes first of the lanes that are free for what is reserved next (`LaneChoice`); null: its own order decides. */
  rankLanes(ranks: Int32Array | null): void
  /** Chooses lanes and holds them and resources from `start`, as `earliestStart` found it just now. */
  reserve(activity: number, mode: number, start: number, lanes: Int32Array, firstSlot: number): void
}
