/**
 * Hands shared out better, by exchanges: two lanes swap all that begins between two moments, as long as that makes the
 * whole calmer. A single job, a stint, everything from a moment on: all of these are such stretches.
 */

import { canFollow, type Roster } from './roster.ts'
import { isParting, stintsOver } from './smoothness.ts'
import { placesOf, spliced, stintsSpliced, stretchesOf } from './stretches.ts'

/** Every exchange makes it better, so there is an end to them; this is far beyond what was ever seen. */
const EXCHANGES_MOST = 2000
/** Exchanges looked at for what they do to company alone: with many hands there are too many to look at all. */
const TRIED_FOR_COMPANY_MOST = 500

/**
 * @param start  lanes by job, by slot; they must be able to do it
 * @returns the same form; never worse: fewer stints over what a person can keep in mind, then fewer changes, then
 *   fewer partings
 */
export function lanesExchanged(roster: Roster, start: readonly (readonly number[])[]): number[][] {
  const exchange = new Exchange(roster, start)
  for (let done = 0; done < EXCHANGES_MOST && exchange.doNext(); done++);
  return exchange.lanes
}

const NOWHERE: ReadonlySet<number> = new Set()

class Exchange {
  /** By job, by slot. */
  readonly lanes: number[][]
  private readonly roster: Roster
  /** By lane: positions of its jobs, ascending. */
  private readonly own: number[][]
  private readonly budgetLeft: number[]
  private partings: number
  private triedForCompany = 0
  /** Where to look next, so that what was in vain is not tried again at once. */
  private pair = 0

  constructor(roster: Roster, start: readonly (readonly number[])[]) {
    const { lanes, budgets } = roster.instance
    this.roster = roster
    this.lanes = start.map((slots) => [...slots])
    this.own = lanes.map(() => [])
    this.budgetLeft = (budgets ?? []).map(({ laneTicksMost }) => laneTicksMost)
    for (const [position, slots] of this.lanes.entries()) {
      for (const lane of slots) {
        this.own[lane]!.push(position)
        const { budget } = lanes[lane]!
        if (budget !== undefined) this.budgetLeft[budget]! -= this.ticksOf([position])
      }
    }
    this.partings = this.countedPartings()
  }

  /** @returns false when no exchange makes it better */
  doNext(): boolean {
    const laneCount = this.own.length
    const pairCount = laneCount * laneCount
    for (let tried = 0; tried < pairCount; tried++) {
      const a = Math.floor(this.pair / laneCount)
      const b = this.pair % laneCount
      if (a < b && this.improvePair(a, b)) return true
      this.pair = (this.pair + 1) % pairCount
    }
    return false
  }

  private improvePair(a: number, b: number): boolean {
    const listA = stretchesOf(this.own[a]!, this.roster)
    const listB = stretchesOf(this.own[b]!, this.roster)
    const cuts = [...new Set([...listA.own, ...listB.own])].sort((x, y) => x - y)
    cuts.push(this.lanes.length)
    const before = this.costOf(listA.stints) + this.costOf(listB.stints)
    // The first positions of each lane at or behind each cut.
    const inA = placesOf(cuts, listA.own)
    const inB = placesOf(cuts, listB.own)
    const isParted = this.triedForCompany < TRIED_FOR_COMPANY_MOST ? this.partingsOf(a, b) : NOWHERE
    for (let from = 0; from < cuts.length; from++) {
      for (let to = from + 1; to < cuts.length; to++) {
        if (from === 0 && to === cuts.length - 1) continue
        const stintsA = stintsSpliced(listA, inA[from]!, inA[to]!, listB, inB[from]!, inB[to]!)
        const stintsB = stintsSpliced(listB, inB[from]!, inB[to]!, listA, inA[from]!, inA[to]!)
        const more = this.costOf(stintsA) + this.costOf(stintsB) - before
        // What leaves the number of changes as it is can only help where the two part from somebody.
        if (more > 0 || (more === 0 && !isParted.has(cuts[from]!) && !isParted.has(cuts[to]!))) continue
        if (more === 0) this.triedForCompany += 1
        if (this.exchangeHelps(a, b, cuts[from]!, cuts[to]!, more < 0)) return true
      }
    }
    return false
  }

  /** @returns whether it was made; when it does not help by itself, it is made only if it saves partings */
  private exchangeHelps(a: number, b: number, from: number, to: number, helpsByItself: boolean): boolean {
    const ownA = this.own[a]!
    const ownB = this.own[b]!
    const newA = spliced(ownA, ownB, from, to)
    const newB = spliced(ownB, ownA, from, to)
    if (!this.isPossible(a, b, from, to, newA, newB)) return false
    this.exchange(a, b, from, to, newA, newB)
    const partings = this.countedPartings()
    if (helpsByItself || partings < this.partings) {
      this.partings = partings
      return true
    }
    this.exchange(a, b, from, to, ownA, ownB)
    return false
  }

  /** Stints over weigh more than any number of changes that two lanes could have. */
  private costOf(stints: number): number {
    return stintsOver(stints) * (2 * this.lanes.length + 1) + Math.max(0, stints - 1)
  }

  private isPossible(
    a: number,
    b: number,
    from: number,
    to: number,
    newA: number[],
    newB: number[],
  ): boolean {
    const { lanes } = this.roster.instance
    const [laneA, laneB] = [lanes[a]!, lanes[b]!]
    const middleA = newB.filter((position) => position >= from && position < to)
    const middleB = newA.filter((position) => position >= from && position < to)
    if (laneA.budget !== laneB.budget) {
      const more = this.ticksOf(middleB) - this.ticksOf(middleA)
      if (laneA.budget !== undefined && more > Math.max(0, this.budgetLeft[laneA.budget] ?? 0)) return false
      if (laneB.budget !== undefined && -more > Math.max(0, this.budgetLeft[laneB.budget] ?? 0)) return false
    }
    return (
      this.hasSkills(laneA.skillMask, b, a, middleB) &&
      this.hasSkills(laneB.skillMask, a, b, middleA) &&
      canFollow(this.roster, a, newA) &&
      canFollow(this.roster, b, newB)
    )
  }

  /** Whether somebody with these skills can take the slots of a lane in those jobs. What both do, each goes on with. */
  private hasSkills(skillMask: number, of: number, by: number, positions: readonly number[]): boolean {
    return positions.every((position) => {
      const slots = this.lanes[position]!
      if (slots.includes(by)) return true
      const mask = this.roster.jobs[position]!.skillMasks[slots.indexOf(of)]!
      return (skillMask & mask) === mask
    })
  }

  private exchange(a: number, b: number, from: number, to: number, newA: number[], newB: number[]): void {
    const { lanes } = this.roster.instance
    const change = this.ticksOf(newA) - this.ticksOf(this.own[a]!)
    const budgetA = lanes[a]!.budget
    const budgetB = lanes[b]!.budget
    if (budgetA !== undefined) this.budgetLeft[budgetA]! -= change
    if (budgetB !== undefined) this.budgetLeft[budgetB]! += change
    this.own[a] = newA
    this.own[b] = newB
    for (let position = from; position < to; position++) {
      const slots = this.lanes[position]!
      const slotA = slots.indexOf(a)
      const slotB = slots.indexOf(b)
      if (slotA >= 0 && slotB < 0) slots[slotA] = b
      else if (slotB >= 0 && slotA < 0) slots[slotB] = a
    }
  }

  private ticksOf(positions: readonly number[]): number {
    const { jobs } = this.roster
    return positions.reduce((sum, position) => sum + jobs[position]!.to - jobs[position]!.from, 0)
  }

  private countedPartings(): number {
    let count = 0
    for (const [lane, own] of this.own.entries()) {
      for (let at = 1; at < own.length; at++) if (this.isPartingAt(lane, own, at)) count += 1
    }
    return count
  }

  /** The jobs before which one of the two parts from its company. */
  private partingsOf(a: number, b: number): Set<number> {
    const found = new Set<number>()
    for (const lane of [a, b]) {
      const own = this.own[lane]!
      for (let at = 1; at < own.length; at++) if (this.isPartingAt(lane, own, at)) found.add(own[at]!)
    }
    return found
  }

  private isPartingAt(lane: number, own: readonly number[], at: number): boolean {
    return isParting(this.lanes[own[at - 1]!]!, this.lanes[own[at]!]!, lane)
  }
}
