/** Questions around the plan of a stored turn: what can matter to it is loaded, and nothing is written. */
import type { HandsCurve } from '../domain/hands-curve.ts'
import type { SiteId, TurnId } from '../domain/ids.ts'
import { type Instant, instantPlusSeconds } from '../domain/instant.ts'
import { TURN_LONGEST_SECONDS, type Turn } from '../domain/turn.ts'
import type { WhatWouldHelp } from '../domain/what-would-help.ts'
import { type CurveAsked, handsCurve, type Solver, whatWouldHelp } from '../scheduler/answers/index.ts'
import type { Store } from '../store/store.ts'

export interface AroundTurnRequest {
  readonly siteId: SiteId
  readonly turnId: TurnId
  readonly now: Instant
  readonly asked: ({ readonly kind: 'hands-curve' } & CurveAsked) | { readonly kind: 'what-would-help' }
}

export type AroundTurnReply =
  | { readonly kind: 'hands-curve'; readonly curve: HandsCurve }
  | { readonly kind: 'what-would-help'; readonly help: WhatWouldHelp }
  | { readonly kind: 'no-turn' }
  | NotToCome

/** It was given up or its doors are past; or its work has begun: what helps then is another question. */
export interface NotToCome {
  readonly kind: 'turn-is-over' | 'turn-has-begun'
}

export async function aroundTurn(
  store: Store,
  { siteId, turnId, now, asked }: AroundTurnRequest,
  solver: Solver,
): Promise<AroundTurnReply> {
  const stored = await store.turn(siteId, turnId)
  if (!stored) return { kind: 'no-turn' }
  // Work of the turn begins no earlier, and plans are complete for a day more.
  const window = {
    fromAt: instantPlusSeconds(stored.dueAt, -TURN_LONGEST_SECONDS),
    toAt: instantPlusSeconds(stored.dueAt, 1),
  }
  const snapshot = await store.load(siteId, window, now)
  // As it is in the same state of the site as all that stands around it.
  const turn = snapshot?.turns.find(({ id }) => id === turnId) ?? stored
  if (!snapshot) return { kind: 'no-turn' }
  const over = notToCome(turn, now)
  if (over) return over
  return asked.kind === 'hands-curve'
    ? { kind: 'hands-curve', curve: handsCurve(snapshot, turn, asked, solver) }
    : { kind: 'what-would-help', help: whatWouldHelp(snapshot, turn, solver) }
}

/** null: it is to come. */
function notToCome({ status, dueAt, plan }: Turn, now: Instant): NotToCome | null {
  if (status === 'dropped' || dueAt <= now) return { kind: 'turn-is-over' }
  return plan !== null && plan.startsAt <= now ? { kind: 'turn-has-begun' } : null
}
