/** What follows from supposing that the turn is ready so much sooner than the end of its span. */
import type { PreparedInstance } from '../prepared-instance.ts'
import { type IntervalScratch, intervalScratch, intervalsHold } from './interval-energy.ts'
import type { NeededWork } from './needed-work.ts'
import { ordersHold } from './one-after-the-other.ts'
import { type Pass, passFrom, raiseHeads } from './raise-heads.ts'
import { type Supplies, supplies } from './supplies.ts'
import { emptyTimeTable, type TimeTable, timeTableHolds } from './time-table.ts'
import { copyWindows, strikeOut, type Windows, widestWindows } from './windows.ts'

/** Conclusions follow from each other; after so many rounds few are left. */
const ROUNDS_MOST = 4
/** Looks at an activity for a supply, over all suppositions: a quarter of a second at most. */
const LOOKS_MOST = 20_000_000

export class Supposition {
  private readonly work: NeededWork
  private readonly supplies: Supplies
  private readonly passes: readonly Pass[]
  private readonly scratch: IntervalScratch
  private readonly timeTable: TimeTable
  /** What holds as far as nothing was refuted: whatever is supposed next is sooner still. */
  private readonly known: Windows
  private readonly windows: Windows
  private readonly looksPerRound: number
  private looksLeft = LOOKS_MOST
  private isPossible = true

  constructor(problem: PreparedInstance, work: NeededWork) {
    this.work = work
    this.supplies = supplies(problem, work)
    this.passes = [passFrom(work.fromStart, false), passFrom(work.fromEnd, true)]
    this.scratch = intervalScratch(work)
    this.timeTable = emptyTimeTable(work)
    this.known = widestWindows(work, this.supplies.all)
    this.windows = widestWindows(work, this.supplies.all)
    const members = work.fromStart.setMembers.length + work.fromEnd.setMembers.length
    this.looksPerRound = (members + work.count ** 2) * (this.supplies.all.length + 1)
    this.strikeOutUsedUp(problem)
  }

  /** Whether there is effort left for one more. */
  get isAffordable(): boolean {
    return this.looksLeft >= this.looksPerRound
  }

  /** Ask for what is sooner than anything that was not refuted before. */
  isRefuted(ticksSooner: number): boolean {
    const { windows, known } = this
    copyWindows(known, windows)
    for (const [activity, head] of known.headsFromEnd.entries())
      windows.headsFromEnd[activity] = Math.max(head, ticksSooner)
    if (!(this.isPossible && this.holds())) return true
    copyWindows(windows, known)
    return false
  }

  private holds(): boolean {
    const { work, windows, passes, scratch, timeTable } = this
    for (let round = 0; round < ROUNDS_MOST && this.isAffordable; round++) {
      this.looksLeft -= this.looksPerRound
      windows.isChanged.fill(0)
      for (const pass of passes) if (!raiseHeads(work, this.supplies, windows, pass)) return false
      if (!ordersHold(work, this.supplies.all, windows)) return false
      const hasRoom = timeTableHolds(work, this.supplies.all, windows, timeTable, this.looksLeft)
      this.looksLeft -= timeTable.looks
      if (!hasRoom) return false
      if (!intervalsHold(work, this.supplies.all, windows, scratch)) return false
      if (!windows.isChanged.includes(1)) break
    }
    return true
  }

  /** Modes that take more of a consumable than all others leave of it, however they are done. */
  private strikeOutUsedUp(problem: PreparedInstance): void {
    const { consumableCount, modeConsumes, leastConsumed, spareConsumables } = problem
    const { work } = this
    for (let activity = 0; activity < work.count; activity++) {
      for (let mode = work.modeFirst[activity]!; mode < work.modeFirst[activity + 1]!; mode++) {
        for (let one = 0; one < consumableCount; one++) {
          const least = leastConsumed[work.activityOf[activity]! * consumableCount + one]!
          const most = least + spareConsumables[one]!
          if (modeConsumes[work.modeOf[mode]! * consumableCount + one]! <= most) continue
          if (!strikeOut(work, this.supplies.all, this.known, activity, mode)) this.isPossible = false
        }
      }
    }
  }
}
