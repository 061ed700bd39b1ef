/**
 * Schedules forward and backward in time. What is pinned is placed before everything else, in both directions at the same
 * tick and with the same lanes.
 */

import type { PreparedInstance } from '../prepared-instance.ts'
import { copyOf, type Draft, emptyDraft, mirroredDraft } from './draft.ts'
import { mirrored } from './mirrored-instance.ts'
import { type ModeWishes, wishNumber } from './mode-choice.ts'
import { pinnedPlacement } from './pinned-placement.ts'
import { SchedulePass } from './schedule-pass.ts'

export class ScheduleGenerator {
  readonly problem: PreparedInstance
  /** null when what is pinned found no places. */
  private readonly ahead: SchedulePass | null
  private readonly back: SchedulePass | null
  private readonly mirroredDraft: Draft
  private readonly horizonOfTurns: Int32Array
  private readonly latestMirrored: Int32Array
  private readonly releaseMirrored: Int32Array

  constructor(problem: PreparedInstance) {
    const pinned = pinnedPlacement(problem)
    this.problem = problem
    this.ahead = pinned && new SchedulePass(problem, pinned)
    this.back = pinned && new SchedulePass(mirrored(problem), mirroredDraft(pinned, problem.horizonTick))
    this.mirroredDraft = emptyDraft(problem)
    this.horizonOfTurns = new Int32Array(problem.turnCount).fill(problem.horizonTick)
    this.latestMirrored = new Int32Array(problem.turnCount)
    this.releaseMirrored = problem.releaseTicks.map((tick) => problem.horizonTick - tick)
  }

  /** Whether what is pinned found its places: if not, no list gives a schedule. */
  get hasPinned(): boolean {
    return this.ahead !== null
  }

  /**
   * Each activity as early as it can be.
   * @param list every activity once, each behind its predecessors; the pinned ones may be in it or not
   * @returns null when one of them finds no place before the horizon
   */
  forward(list: ArrayLike<number>, wishes: ModeWishes): Draft | null {
    const draft = emptyDraft(this.problem)
    return this.writeForward(list, wishNumbers(wishes), draft) ? draft : null
  }

  /**
   * As `forward`.
   * @param wishes see `wishNumber`
   * @param draft written over, whether there is a schedule or not
   * @param rankedLanes by activity: ranks of its lanes where chance chooses them (`LaneChoice`); left out: nowhere
   */
  writeForward(
    list: ArrayLike<number>,
    wishes: Int32Array,
    draft: Draft,
    rankedLanes: readonly (Int32Array | null)[] | null = null,
  ): boolean {
    if (this.ahead) this.ahead.rankedLanes = rankedLanes
    return this.ahead?.write(list, wishes, this.problem.releaseTicks, this.horizonOfTurns, draft) ?? false
  }

  /**
   * Each activity as early as it can be; next always one that can begin soonest.
   * @param values by activity: of those that can begin at the same tick, the one with the lowest comes first
   * @param draft written over, whether there is a schedule or not
   */
  writeSoonestFirst(values: ArrayLike<number>, wishes: Int32Array, draft: Draft): boolean {
    if (this.ahead) this.ahead.rankedLanes = null
    return (
      this.ahead?.writeSoonestFirst(values, wishes, this.problem.releaseTicks, this.horizonOfTurns, draft) ??
      false
    )
  }

  /**
   * Each activity as late as it can be.
   * @param list every activity once, each before its predecessors; the pinned ones may be in it or not
   * @param latestEnds by turn: nothing of it ends later
   * @returns null when one of them finds no place after its release
   */
  backward(list: ArrayLike<number>, wishes: ModeWishes, latestEnds: ArrayLike<number>): Draft | null {
    const late = this.mirroredBackward(list, wishNumbers(wishes), latestEnds)
    return late && mirroredDraft(copyOf(late), this.problem.horizonTick)
  }

  /** As `backward`. @param wishes see `wishNumber` @returns seen from the horizon, written over by the next */
  mirroredBackward(list: ArrayLike<number>, wishes: Int32Array, latestEnds: ArrayLike<number>): Draft | null {
    const { latestMirrored, releaseMirrored, problem, mirroredDraft: draft } = this
    for (let turn = 0; turn < problem.turnCount; turn++) {
      latestMirrored[turn] = problem.horizonTick - latestEnds[turn]!
    }
    return this.back?.write(list, wishes, latestMirrored, releaseMirrored, draft) ? draft : null
  }
}

const wishNumbers = (wishes: ModeWishes): Int32Array => new Int32Array(wishes.map(wishNumber))
