/** Everything that speaks against what is asked, or makes it tight, the most weighty first. */
import { type Reason, reasonCodes } from '../../domain/reason.ts'
import type { Turn } from '../../domain/turn.ts'
import { Verdict } from '../../domain/verdict.ts'
import type { JudgedTurns } from './turns/judge-turns.ts'
import type { JudgedTurn } from './turns/judged-turn.ts'

export function reasonsOf({ bookingReasons, turns }: JudgedTurns): Reason[] {
  const ofTurns = turns.flatMap((turn) => {
    // What was failing already and still is speaks against nobody who asks now; the watch list has it.
    const wasFailing = turn.before?.status === 'failing' && turn.side !== 'before' && !isLater(turn)
    // Nor does what a change of the hall leaves as it was.
    const isNoWorse = turn.side === null && !isWorse(turn)
    // Nobody is turned away because a room could not be put back after them: that is warned of.
    const isWayHome = turn.side !== null && turn.input.purpose === 'return-home'
    return wasFailing || isNoWorse || isWayHome ? [] : turn.reasons
  })
  return [...bookingReasons, ...ofTurns].sort(
    (a, b) => reasonCodes.indexOf(a.code) - reasonCodes.indexOf(b.code),
  )
}

/** In verdict, in how late it is, or in something that makes it tight and did not before. */
function isWorse(turn: JudgedTurn): boolean {
  const { before, after } = turn
  if (before === null || rankOf(after) > rankOf(before)) return true
  if (rankOf(after) < rankOf(before)) return false
  const said = new Set(before.judgement.reasons.map(({ code }) => code))
  const isNewlyTight = after.status === 'ready' && after.judgement.reasons.some(({ code }) => !said.has(code))
  return isLater(turn) || isNewlyTight
}

/** Later by less than this is no news to anybody: plans are made in half minutes. */
const LATER_SECONDS = 60

/** It failed before, and now all the more. */
function isLater({ before, after }: JudgedTurn): boolean {
  if (before?.status !== 'failing' || after.status !== 'failing') return false
  const was = before.judgement.slackSeconds
  const is = after.judgement.slackSeconds
  if (was === null) return false
  return is === null || is < was - LATER_SECONDS
}

const rankOf = ({ judgement }: Turn): number => Verdict.options.indexOf(judgement.verdict)
