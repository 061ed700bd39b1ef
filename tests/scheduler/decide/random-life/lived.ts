/** One thing happens to a hall, and everything that must be true of the answer is asked. */
import { expect } from 'vitest'
import { isBlocking } from '../../../../src/domain/booking.ts'
import type { Decision } from '../../../../src/domain/decision.ts'
import type { Operation } from '../../../../src/domain/operation.ts'
import type { SiteSnapshot } from '../../../../src/domain/snapshot.ts'
import {
  brokenInvariants,
  decide,
  operationProblems,
  windowOf,
  windowWithAlternatives,
} from '../../../../src/scheduler/decide/index.ts'
import { deepFreeze } from '../../../../src/store/deep-freeze.ts'
import { snapshotAfter } from '../a-hall.ts'
import { callOf, type Place } from './call-of.ts'
import type { Happening } from './happening.ts'
import { seenAround, spokenOf } from './seen-around.ts'
import { untilWhenKept, untilWhenToKeep } from './sets-kept.ts'

export type Outcome = 'nothing' | 'problems' | 'refused' | 'taken' | 'later'

export interface Lived {
  readonly snapshot: SiteSnapshot
  readonly outcome: Outcome
  /** null: nothing was decided. */
  readonly decision: Decision | null
}

export interface LivedOptions {
  /** What would be a yes is compared too: slower by far. */
  readonly alternatives: boolean
}

export function lived(
  before: SiteSnapshot,
  happening: Happening,
  place: Place,
  options: LivedOptions = { alternatives: true },
): Lived {
  const call = callOf(before, happening, place)
  if (call === null) return { snapshot: before, outcome: 'nothing', decision: null }
  if (call.kind === 'ask') return asked(before, call.operations, options)
  const later = deepFreeze({ ...before, now: call.now })
  expect(brokenInvariants(later)).toEqual([])
  return { snapshot: withoutHoldsThatAreOver(later, options), outcome: 'later', decision: null }
}

export function asked(before: SiteSnapshot, operations: readonly Operation[], options: LivedOptions): Lived {
  const { near, wide } = seen(before, operations)
  const problems = operationProblems(before, operations)
  expect(operationProblems(near, operations)).toEqual(problems)
  if (problems.length > 0) return { snapshot: before, outcome: 'problems', decision: null }
  const withoutAlternatives = true
  const decision = decide(before, operations, { withoutAlternatives })
  expectSame(decide(near, operations, { withoutAlternatives }), decision)
  const { changes } = decision
  if (changes === null) {
    expect(decision.reasons.length).toBeGreaterThan(0)
    if (options.alternatives) expectSame(decide(wide, operations), decide(before, operations))
    return { snapshot: before, outcome: 'refused', decision }
  }
  const snapshot = deepFreeze(snapshotAfter(before, changes))
  expect(brokenInvariants(snapshot)).toEqual([])
  expect(untilWhenKept(snapshot)).toEqual(untilWhenToKeep(snapshot))
  if (operations.every(({ kind }) => refusable.has(kind))) {
    if (decision.verdict === 'does-not-fit') expectNothingTakenFromFirm(before, snapshot)
    else expectNoPromiseBroken(before, snapshot)
  }
  return { snapshot, outcome: 'taken', decision }
}

const refusable: ReadonlySet<Operation['kind']> = new Set(['book', 'hold', 'confirm', 'change', 'link'])

/** What a decision on the operations is given: first, and where it is a no. */
export function seen(all: SiteSnapshot, operations: readonly Operation[]) {
  const spoken = spokenOf(all, operations)
  const { returnHomeAfterSeconds } = all.policy
  const given = [operations, spoken, all.now, returnHomeAfterSeconds] as const
  return {
    near: seenAround(all, windowOf(...given)),
    wide: seenAround(all, windowWithAlternatives(...given)),
  }
}

function expectSame(near: Decision, all: Decision): void {
  expect(near).toEqual(all)
  expect(JSON.stringify(near)).toBe(JSON.stringify(all))
}

/** A yes to one breaks no earlier yes to another; that a room could not be put back is no such promise. */
const expectNoPromiseBroken = (before: SiteSnapshot, after: SiteSnapshot): void =>
  expect(brokenBetween(before, after)).toEqual([])

/** What somebody takes at risk is taken from nobody to whom it was promised for good, and who is at no risk. */
function expectNothingTakenFromFirm(before: SiteSnapshot, after: SiteSnapshot): void {
  const firm = [before, after].map(
    ({ bookings }) =>
      new Set<string>(
        bookings
          .filter(({ status, riskAccepted }) => status === 'CONFIRMED' && riskAccepted === null)
          .map(({ turnId }) => turnId),
      ),
  )
  const broken = brokenBetween(before, after).filter((id) => firm.every((turnIds) => turnIds.has(id)))
  expect(broken).toEqual([])
}

function brokenBetween(before: SiteSnapshot, after: SiteSnapshot): string[] {
  const now = new Map(after.turns.map((turn) => [turn.id, turn.status]))
  return before.turns
    .filter(({ id, status, purpose }) => {
      return purpose === 'prepare' && status === 'ready' && now.get(id) === 'failing'
    })
    .map(({ id }) => id)
}

/** As the service does before anything else: the one that ran out first in front. */
function withoutHoldsThatAreOver(later: SiteSnapshot, options: LivedOptions): SiteSnapshot {
  let snapshot = later
  for (;;) {
    const over = snapshot.bookings
      .filter(isBlocking)
      .filter(({ status, holdExpiresAt }) => status === 'TENTATIVE' && holdExpiresAt! <= snapshot.now)
      .sort((a, b) => a.holdExpiresAt! - b.holdExpiresAt! || (a.id < b.id ? -1 : 1))
    const [first] = over
    if (!first) return snapshot
    const { snapshot: next, outcome } = asked(snapshot, [{ kind: 'lapse', bookingId: first.id }], options)
    expect(outcome).toBe('taken')
    snapshot = next
  }
}
