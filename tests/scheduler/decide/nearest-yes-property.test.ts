/** Whatever is refused on whatever day: each alternative is accepted when it is taken as things stand. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Alternative } from '../../../src/domain/alternative.ts'
import type { Booking } from '../../../src/domain/booking.ts'
import { CrewDemand } from '../../../src/domain/booking-terms.ts'
import { instantPlusSeconds } from '../../../src/domain/instant.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { brokenInvariants, decide, operationProblems } from '../../../src/scheduler/decide/index.ts'
import { aBooking, aHall, aShift, snapshotAfter } from './a-hall.ts'

const layouts = [
  'long-games',
  'long-banquet',
  'long-worship',
  'south-meeting',
  'side-meeting',
  'side-supper',
] as const

const visit = fc.record({
  layout: fc.constantFrom(...layouts),
  /** In quarters of an hour from 08:00. */
  doors: fc.integer({ min: 0, max: 48 }),
  length: fc.integer({ min: 3, max: 12 }),
})
type Visit = typeof visit extends fc.Arbitrary<infer Value> ? Value : never

const request = fc.record({
  kind: fc.constantFrom('book', 'book', 'hold', 'change'),
  visit,
  headcount: fc.constantFrom(10, 20, 20, 30, 30, 35, 45, 60, 100, 130),
  which: fc.nat(20),
  demand: fc.option(
    fc.record({ hands: fc.integer({ min: 1, max: 4 }), skill: fc.constantFrom(null, 'first-aid') }),
    { freq: 2 },
  ),
})
type Request = typeof request extends fc.Arbitrary<infer Value> ? Value : never

const hall = fc.record({
  hands: fc.integer({ min: 1, max: 6 }),
  soundSkill: fc.constantFrom(null, null, 'sound'),
  opens: fc.constantFrom(null, null, { weekdays: [5, 6, 7], opensLocal: '09:00', closesLocal: '21:30' }),
})

const clock = (quarters: number) => {
  const minutes = 8 * 60 + quarters * 15
  const rest = minutes % (24 * 60)
  const two = (number: number) => String(number).padStart(2, '0')
  return `2026-06-${minutes >= 24 * 60 ? '06' : '05'}T${two(Math.floor(rest / 60))}:${two(rest % 60)}`
}

const bookingOf = (name: string, { layout, doors, length }: Visit, headcount: number): Booking =>
  aBooking({ name, layout, doors: clock(doors), clear: clock(doors + length), headcount })

function asked(
  snapshot: SiteSnapshot,
  { kind, visit: wanted, headcount, which, demand }: Request,
): Operation {
  const fresh = bookingOf('asked', wanted, headcount)
  const { doorsAt, clearAt } = fresh
  const crewDemands = demand
    ? [CrewDemand.parse({ what: 'ushers', fromAt: doorsAt, toAt: clearAt, ...demand })]
    : []
  const booking = { ...fresh, crewDemands }
  const stored = snapshot.bookings[which % Math.max(1, snapshot.bookings.length)]
  if (kind === 'hold')
    return {
      kind,
      booking: { ...booking, status: 'TENTATIVE', holdExpiresAt: instantPlusSeconds(doorsAt, -7200) },
    }
  if (kind === 'book' || !stored) return { kind: 'book', booking }
  const { id, turnId, version } = stored
  return { kind: 'change', booking: { ...booking, id, turnId, version: version + 1 } }
}

/** As a coordinator enters those who have agreed to come, before the request is made anew. */
function withHandsEntered(snapshot: SiteSnapshot, alternative: Alternative): SiteSnapshot {
  if (alternative.kind !== 'more-hands') return snapshot
  const { hands, handsWithSkills, skills, fromAt, toAt } = alternative
  const crews = [
    { name: 'agreed-skilled', hands: handsWithSkills, skills },
    { name: 'agreed', hands: hands - handsWithSkills, skills: [] },
  ].filter((crew) => crew.hands > 0)
  const shifts = crews.map((crew) =>
    Shift.parse({
      ...aShift(crew.name, crew.hands, '2026-06-05T00:00', '2026-06-05T01:00', crew.skills),
      siteId: snapshot.site.id,
      times: { kind: 'once', startsAt: fromAt, endsAt: toAt },
    }),
  )
  const { changes } = decide(snapshot, [
    {
      kind: 'set-up',
      writes: shifts.map((after) => ({ kind: 'shift', before: null, after, retire: false })),
      span: { fromAt, toAt },
      restFromAt: null,
    },
  ])
  if (changes === null) throw new Error('shifts are never refused')
  return snapshotAfter(snapshot, changes)
}

/** What somebody would ask who takes it. */
function taken(operation: Operation, alternative: Alternative): Operation[] {
  if (operation.kind !== 'book' && operation.kind !== 'hold' && operation.kind !== 'change')
    throw new Error(`nothing to take instead of ${operation.kind}`)
  const { booking } = operation
  switch (alternative.kind) {
    case 'other-doors': {
      const { doorsAt, startsAt, endsAt, clearAt } = alternative
      const bySeconds = (doorsAt - booking.doorsAt) / 1000
      const crewDemands = booking.crewDemands.map((demand) => ({
        ...demand,
        fromAt: instantPlusSeconds(demand.fromAt, bySeconds),
        toAt: instantPlusSeconds(demand.toAt, bySeconds),
      }))
      return [{ ...operation, booking: { ...booking, doorsAt, startsAt, endsAt, clearAt, crewDemands } }]
    }
    case 'other-layout':
      return [{ ...operation, booking: { ...booking, layoutId: alternative.layoutId } }]
    case 'other-room':
      return [
        {
          ...operation,
          booking: { ...booking, roomId: alternative.roomId, layoutId: alternative.layoutId },
        },
      ]
    case 'more-hands':
      return [operation]
    default:
      return alternative satisfies never
  }
}

describe('what is offered instead of what is refused', () => {
  test('is accepted when it is taken as things stand, and says so beforehand', () => {
    const offered = new Map<string, number>()
    let refused = 0
    fc.assert(
      fc.property(
        hall,
        fc.array(visit, { minLength: 2, maxLength: 7 }),
        fc.array(request, { minLength: 3, maxLength: 3 }),
        ({ hands, soundSkill, opens }, visits, requests) => {
          let snapshot = aHall({ hands, soundSkill, openingHours: opens && [opens] })
          for (const [index, one] of visits.entries()) {
            const booking = bookingOf(`b${index}`, one, 10)
            const { changes } = decide(snapshot, [{ kind: 'book', booking }], { withoutAlternatives: true })
            if (changes) snapshot = snapshotAfter(snapshot, changes)
          }
          for (const one of requests) {
            const operation = asked(snapshot, one)
            if (operationProblems(snapshot, [operation]).length > 0) continue
            const { changes, alternatives } = decide(snapshot, [operation])
            if (changes) continue
            refused += 1
            expect(alternatives.length).toBeLessThanOrEqual(5)
            expect(alternatives.findIndex(({ certainty }) => certainty === 'yes-if')).toBeOneOf([
              -1,
              alternatives.length - 1,
            ])
            for (const alternative of alternatives) {
              offered.set(alternative.kind, (offered.get(alternative.kind) ?? 0) + 1)
              const entered = withHandsEntered(snapshot, alternative)
              const operations = taken(operation, alternative)
              expect(operationProblems(entered, operations)).toEqual([])
              const answer = decide(entered, operations)
              if (answer.changes === null) throw new Error(`refused when taken: ${alternative.message}`)
              expect(brokenInvariants(snapshotAfter(entered, answer.changes))).toEqual([])
              if (alternative.kind === 'more-hands') {
                expect(alternative.agreeByAt).toBeGreaterThan(snapshot.now)
                expect(answer.verdict).not.toBe('does-not-fit')
              } else expect(answer.verdict).toBe(alternative.verdict)
            }
          }
        },
      ),
      { seed: 20260515, numRuns: 50 },
    )
    // Worth something only if it met each kind, often.
    expect(refused).toBeGreaterThan(40)
    expect(offered.get('other-doors') ?? 0).toBeGreaterThan(40)
    for (const kind of ['other-layout', 'other-room', 'more-hands'])
      expect(offered.get(kind) ?? 0).toBeGreaterThan(5)
  }, 120_000)
})
