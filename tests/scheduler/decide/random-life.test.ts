/** Random days at the hall: whatever is asked in whatever order, no promise is broken. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { Closure } from '../../../src/domain/closure.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { brokenInvariants, decide, operationProblems } from '../../../src/scheduler/decide/index.ts'
import { aBooking, addShift, aHall, aShift, close, snapshotAfter } from './a-hall.ts'

const layouts = [
  'long-games',
  'long-banquet',
  'long-worship',
  'south-meeting',
  'side-meeting',
  'side-supper',
] as const

const step = fc.record({
  kind: fc.constantFrom('book', 'book', 'book', 'change', 'cancel', 'close', 'add-shift'),
  layout: fc.constantFrom(...layouts),
  /** In quarters of an hour from 08:00. */
  doors: fc.integer({ min: 0, max: 56 }),
  length: fc.integer({ min: 3, max: 16 }),
  which: fc.nat(20),
})
type Step = typeof step extends fc.Arbitrary<infer Value> ? Value : never

const clock = (quarters: number) => {
  const minutes = 8 * 60 + quarters * 15
  const day = minutes >= 24 * 60 ? '06' : '05'
  const rest = minutes % (24 * 60)
  return `2026-06-${day}T${String(Math.floor(rest / 60)).padStart(2, '0')}:${String(rest % 60).padStart(2, '0')}`
}

function operationOf(snapshot: SiteSnapshot, one: Step, index: number): Operation | null {
  const live = snapshot.bookings.filter((booking) => booking.status !== 'CANCELLED')
  const chosen = live[one.which % Math.max(1, live.length)]
  const times = { doors: clock(one.doors), clear: clock(one.doors + one.length) }
  switch (one.kind) {
    case 'book':
      return { kind: 'book', booking: aBooking({ name: `b${index}`, layout: one.layout, ...times }) }
    case 'change':
      if (!chosen) return null
      return {
        kind: 'change',
        booking: {
          ...aBooking({ name: chosen.id.slice('booking_'.length), layout: one.layout, ...times }),
          version: chosen.version + 1,
        },
      }
    case 'cancel':
      return chosen ? { kind: 'cancel', bookingId: chosen.id, versionExpected: null } : null
    case 'close': {
      const { doorsAt, clearAt, siteId } = aBooking({ name: 'x', layout: one.layout, ...times })
      const sectionId = snapshot.sections[one.which % 3]!.id
      return close(
        Closure.parse({
          id: `closure_c${index}`,
          siteId,
          sectionIds: [sectionId],
          fromAt: doorsAt,
          toAt: clearAt,
          reason: 'works',
        }),
      )
    }
    default: {
      const shift = aHall({ shifts: [aShift(`s${index}`, 1 + (one.which % 2), times.doors, times.clear)] })
        .shifts[0]!
      return addShift(shift)
    }
  }
}

describe('after any sequence of bookings, changes, cancellations, closures and shifts', () => {
  test('no room is taken twice, no hand or trolley is promised twice, and every yes has a plan that holds', () => {
    let accepted = 0
    let refused = 0
    fc.assert(
      fc.property(
        fc.array(step, { minLength: 3, maxLength: 14 }),
        fc.integer({ min: 2, max: 6 }),
        (steps, hands) => {
          let snapshot = aHall({ hands })
          for (const [index, one] of steps.entries()) {
            const operation = operationOf(snapshot, one, index)
            if (!operation || operationProblems(snapshot, [operation]).length > 0) continue
            const decision = decide(snapshot, [operation])
            if (!decision.changes) {
              refused += 1
              expect(decision.reasons.length).toBeGreaterThan(0)
              continue
            }
            accepted += 1
            const readyBefore = new Set(
              snapshot.turns.filter((turn) => turn.status === 'ready').map((turn) => turn.bookingId),
            )
            snapshot = snapshotAfter(snapshot, decision.changes)
            expect(brokenInvariants(snapshot)).toEqual([])
            if (operation.kind !== 'book' && operation.kind !== 'change') continue
            // A yes to one breaks no earlier yes to another.
            for (const turn of snapshot.turns) {
              if (readyBefore.has(turn.bookingId) && turn.status !== 'dropped')
                expect(turn.status).toBe('ready')
            }
          }
        },
      ),
      { seed: 20261125, numRuns: 60 },
    )
    // The sequences are worth something only if they meet both answers, often.
    expect(accepted).toBeGreaterThan(100)
    expect(refused).toBeGreaterThan(50)
  })
})
