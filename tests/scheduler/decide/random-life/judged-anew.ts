/** What is yet to be looked at is worked off, some turns at a time; and everything is looked at anew at once. */
import { expect } from 'vitest'
import { instantPlusSeconds } from '../../../../src/domain/instant.ts'
import type { Operation } from '../../../../src/domain/operation.ts'
import type { SiteSnapshot } from '../../../../src/domain/snapshot.ts'
import type { Turn } from '../../../../src/domain/turn.ts'
import { decide } from '../../../../src/scheduler/decide/index.ts'
import { judgingOf } from './call-of.ts'
import { asked } from './lived.ts'

/** Each batch is one: a hundred are more than any life here has turns. */
const BATCHES_MOST = 100

/** @param turnsAtATime  1 or more */
export function workedOff(before: SiteSnapshot, turnsAtATime: number): SiteSnapshot {
  let snapshot = before
  for (let batch = 0; snapshot.judgedThroughAt !== null && batch < BATCHES_MOST; batch += 1) {
    snapshot = asked(snapshot, judgingOf(snapshot, turnsAtATime), { alternatives: false }).snapshot
  }
  expect(snapshot.judgedThroughAt).toBeNull()
  return snapshot
}

export const judgingAll = ({ now }: SiteSnapshot): Operation => ({
  kind: 'judge',
  span: { fromAt: instantPlusSeconds(now, -1), toAt: instantPlusSeconds(now, 90 * 86_400) },
  judgedThroughAt: null,
})

export interface Changed {
  readonly before: Turn | null
  readonly after: Turn
}

/** Turns that stand otherwise once everything is looked at anew. */
export function judgedAnew(snapshot: SiteSnapshot): readonly Changed[] {
  const { changes } = decide(snapshot, [judgingAll(snapshot)], { withoutAlternatives: true })
  return changes?.turns ?? []
}
