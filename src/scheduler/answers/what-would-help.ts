/** What would have a stored turn ready sooner, each thing by planning the turn with it and everything else as it is. */
import { type Instant, secondsBetween } from '../../domain/instant.ts'
import type { SiteSnapshot } from '../../domain/snapshot.ts'
import type { Turn } from '../../domain/turn.ts'
import type { Help, WhatWouldHelp } from '../../domain/what-would-help.ts'
import { circumstancesOf } from './circumstances.ts'
import { curveOfTurn } from './curve-of-turn.ts'
import type { Candidate } from './help/candidate.ts'
import { candidates } from './help/index.ts'
import { anewSentence, helpSentence } from './help-sentence.ts'
import { instantOf } from './ready.ts'
import { type Solver, searchWith } from './search.ts'

/**
 * Same snapshot, same answer. Each is searched with the effort that the policy has for a decision. What is gained counts
 * from the soonest that is known with things as they are: nothing is gained by having looked again.
 * @param turn  to come, and not under way
 * @returns none, where a device cannot be got into the state that is wanted
 */
export function whatWouldHelp(snapshot: SiteSnapshot, turn: Turn, solver: Solver): WhatWouldHelp {
  const search = searchWith(solver, snapshot.policy.workMost)
  const circumstances = circumstancesOf(snapshot, turn)
  const { id: turnId, dueAt: doorsAt } = turn
  const { zone } = snapshot.site
  if (circumstances === null)
    return {
      turnId,
      doorsAt,
      plannedReadyAt: null,
      readyAt: null,
      anew: null,
      items: [],
      work: search.work(),
    }
  const { crew, points, standingTick, asThingsAreTick } = curveOfTurn(
    circumstances,
    turn,
    { doorsAt, handsMost: 0 },
    search,
  )
  const momentOf = (tick: number | null) => (tick === null ? null : instantOf(circumstances, tick))
  const readyAtWith = new Map(
    points
      .slice(crew.length)
      .map(({ hands, soonest }) => [hands - crew.length, momentOf(soonest?.readyTick ?? null)]),
  )
  const readyAt = momentOf(asThingsAreTick)
  const plannedReadyAt = momentOf(standingTick)
  const asked = { snapshot, turn, circumstances, crew, readyAtWith, search }
  const items = candidates(asked).map((candidate) => helpOf(candidate, readyAt, doorsAt, zone))
  const anew = anewSentence({ plannedReadyAt, readyAt, doorsAt }, zone)
  return { turnId, doorsAt, plannedReadyAt, readyAt, anew, items: ranked(items), work: search.work() }
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
