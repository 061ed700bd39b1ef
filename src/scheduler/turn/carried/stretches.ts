/** Stints of a list of jobs in which a stretch is replaced by one of another list, without making that list first. */
import type { Roster } from './roster.ts'

/** A lane's jobs, and how often the group changes from its first job to each of them. */
interface Stretches {
  readonly own: readonly number[]
  readonly groups: readonly number[]
  readonly changesTo: readonly number[]
  readonly stints: number
}

export function stretchesOf(own: readonly number[], { jobs }: Roster): Stretches {
  const groups = own.map((position) => jobs[position]!.group)
  const changesTo: number[] = []
  let changes = 0
  for (const [at, group] of groups.entries()) {
    if (at > 0 && groups[at - 1] !== group) changes += 1
    changesTo.push(changes)
  }
  return { own, groups, changesTo, stints: own.length === 0 ? 0 : changes + 1 }
}

/** Stints of a list in which what lies between two of its places is replaced by such a part of another. */
export function stintsSpliced(
  list: Stretches,
  from: number,
  to: number,
  other: Stretches,
  otherFrom: number,
  otherTo: number,
): number {
  const { length } = list.own
  let stints = stintsBetween(list, 0, from) + stintsBetween(other, otherFrom, otherTo)
  stints += stintsBetween(list, to, length)
  const before = list.groups[from - 1]
  const behind = to < length ? list.groups[to] : undefined
  // Where parts meet in the same group, two stints are one.
  if (otherFrom === otherTo) return before !== undefined && before === behind ? stints - 1 : stints
  if (before !== undefined && before === other.groups[otherFrom]) stints -= 1
  if (behind !== undefined && behind === other.groups[otherTo - 1]) stints -= 1
  return stints
}

const stintsBetween = ({ changesTo }: Stretches, from: number, to: number): number =>
  from < to ? changesTo[to - 1]! - changesTo[from]! + 1 : 0

/** For each cut the number of jobs before it; both lists ascending. */
export function placesOf(cuts: readonly number[], own: readonly number[]): number[] {
  let place = 0
  return cuts.map((cut) => {
    while (place < own.length && own[place]! < cut) place += 1
    return place
  })
}

/** The first list, with what the second has from one position until another. */
export function spliced(
  list: readonly number[],
  other: readonly number[],
  from: number,
  to: number,
): number[] {
  const result: number[] = []
  for (const position of list) if (position < from) result.push(position)
  for (const position of other) if (position >= from && position < to) result.push(position)
  for (const position of list) if (position >= to) result.push(position)
  return result
}
