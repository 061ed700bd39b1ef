/** What would have a stored turn ready sooner, each thing by planning the turn with it and everything else as it is. */
import { type Instant, secondsBetween } from '../../domain/instant.ts'
import type { SiteSnapshot } from '../../domain/snapshot.ts'
import type { Turn } from '../../domain/turn.ts'
import type { Help, WhatWouldHelp } from '../../domain/what-would-help.ts'
import { circumstancesOf } from './circumstances.ts'
import { curvePoints } from './curve-points.ts'
import { crewInOrder } from './hands-in-order.ts'
import type { Candidate } from './help/candidate.ts'
import { candidates } from './help/index.ts'
import { helpSentence } from './help-sentence.ts'
import { instantOf } from './ready.ts'
import { type Solver, searchWith } from './search.ts'
import { standingSchedule } from './standing-schedule.ts'

/** More hands are tried so far. */
const ADDED_MOST = 2
/** With a larger crew, plans of fewer hands are not looked at first. */
const CREW_FROM_ONE_MOST = 12

/**
 * Same snapshot, same answer. Each is searched with the effort that the policy has for a decision. What stands is never
 * called later than the stored plan, nor than a plan of fewer hands: nothing is gained by having looked again.
 * @param turn  to come, and not under way
 * @returns none, where a device cannot be got into the state that is wanted
 */
export function whatWouldHelp(snapshot: SiteSnapshot, turn: Turn, solver: Solver): WhatWouldHelp {
  const search = searchWith(solver, snapshot.policy.workMost)
  const circumstances = circumstancesOf(snapshot, turn)
  const { id: turnId, dueAt: doorsAt } = turn
  if (circumstances === null) return { turnId, doorsAt, readyAt: null, items: [], work: search.work() }
  const crew = crewInOrder(circumstances)
  const standing = standingSchedule(circumstances, turn)
  // With nobody before doors there are still those who come after: it may be late, and is not impossible.
  const from = crew.length <= CREW_FROM_ONE_MOST ? Math.min(1, crew.length) : crew.length
  const points = curvePoints(circumstances, standing, crew, search, { from, to: crew.length + ADDED_MOST })
  const readyAtWith = new Map(
    points.map(({ hands, readyTick }) => [
      hands - crew.length,
      readyTick === null ? null : instantOf(circumstances, readyTick),
    ]),
  )
  const readyAt = readyAtWith.get(0) ?? null
  const asked = { snapshot, turn, circumstances, crew, readyAtWith, search }
  const items = candidates(asked).map((candidate) => helpOf(candidate, readyAt, doorsAt, snapshot.site.zone))
  return { turnId, doorsAt, readyAt, items: ranked(items), work: search.work() }
}

function helpOf(
  { change, what, readyAt: found, isNeverLater }: Candidate,
  before: Instant | null,
  doorsAt: Instant,
  zone: string,
): Help {
  const alone = found()
  const isLater = before !== null && (alone === null || alone > before)
  const readyAt = isNeverLater && isLater ? before : alone
  return {
    change,
    readyAt,
    secondsGained: secondsGained(before, readyAt),
    slackSeconds: readyAt === null ? null : secondsBetween(readyAt, doorsAt),
    sentence: helpSentence({ what, before, readyAt, doorsAt }, zone),
  }
}

/** null: it is only possible with it. */
function secondsGained(before: Instant | null, readyAt: Instant | null): number | null {
  if (readyAt === null) return 0
  return before === null ? null : Math.max(0, secondsBetween(readyAt, before))
}

/** What makes it possible at all comes first, soonest first; then what gains most; what gains the same stays in order. */
const ranked = (items: readonly Help[]): Help[] =>
  [...items].sort((a, b) => {
    if (a.secondsGained === null || b.secondsGained === null) {
      const isSame = a.secondsGained === b.secondsGained
      return isSame ? (a.readyAt ?? 0) - (b.readyAt ?? 0) : a.secondsGained === null ? -1 : 1
    }
    return b.secondsGained - a.secondsGained
  })
