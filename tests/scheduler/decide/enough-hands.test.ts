/** So many hands as a refusal names, on duty when the offer says, are enough: on small halls at random, some taken at risk. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { ActorId } from '../../../src/domain/ids.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide } from '../../../src/scheduler/decide/index.ts'
import { aHall, aShift, at, book, snapshotAfter } from './a-hall.ts'

const visit = fc.record({
  layout: fc.constantFrom('south-meeting', 'side-meeting', 'north-meeting'),
  /** In tens of minutes from 09:20. */
  doors: fc.integer({ min: 0, max: 5 }),
  isAtRisk: fc.boolean(),
})
type Visit = typeof visit extends fc.Arbitrary<infer Value> ? Value : never

const clock = (minutes: number) =>
  `2026-06-05T${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`

const riskAccepted = {
  actorId: ActorId.parse('actor_coordinator'),
  why: 'they are content to wait',
  acceptedAt: at('2026-06-01T09:00'),
}

function booked(name: string, { layout, doors, isAtRisk }: Visit): Operation {
  const minutes = 9 * 60 + 20 + doors * 10
  return book({
    name,
    layout,
    doors: clock(minutes),
    clear: clock(minutes + 45),
    terms: isAtRisk ? { riskAccepted } : {},
  })
}

const carriedOut = (snapshot: SiteSnapshot, operation: Operation): SiteSnapshot => {
  const { changes } = decide(snapshot, [operation], { withoutAlternatives: true })
  return changes ? snapshotAfter(snapshot, changes) : snapshot
}

const withShift = (snapshot: SiteSnapshot, hands: number, fromAt: number, toAt: number): SiteSnapshot => {
  const after = Shift.parse({
    ...aShift('found', hands, '2026-06-05T00:00', '2026-06-05T01:00'),
    siteId: snapshot.site.id,
    times: { kind: 'once', startsAt: fromAt, endsAt: toAt },
  })
  const { times } = after
  if (times.kind !== 'once') throw new Error('once')
  return carriedOut(snapshot, {
    kind: 'set-up',
    writes: [{ kind: 'shift', before: null, after, retire: false }],
    span: { fromAt: times.startsAt, toAt: times.endsAt },
    restFromAt: null,
  })
}

test('the hands that a refusal names are those that are offered, and once they are on duty the request is accepted', () => {
  let offers = 0
  let besideRisk = 0
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 2 }),
      fc.array(visit, { minLength: 2, maxLength: 4 }),
      visit,
      (hands, visits, wanted) => {
        const shifts = [aShift('morning', hands, '2026-06-05T09:00', '2026-06-05T13:00')]
        const hall = aHall({ shifts, northRoom: true, slackWantedSeconds: 0 })
        const snapshot = visits.reduce(
          (known, one, index) => carriedOut(known, booked(`b${index}`, one)),
          hall,
        )
        const asked = booked('asked', { ...wanted, isAtRisk: false })
        const decision = decide(snapshot, [asked])
        const offer = decision.alternatives.find(({ kind }) => kind === 'more-hands')
        if (offer?.kind !== 'more-hands') return
        offers += 1
        if (snapshot.bookings.some((one) => one.riskAccepted !== null)) besideRisk += 1
        const named = decision.reasons.flatMap((reason) =>
          reason.code === 'hands-short' ? [reason.handsNeeded - reason.handsOnDuty] : [],
        )
        if (named.length > 0) expect(Math.max(...named)).toBe(offer.hands)
        const entered = withShift(snapshot, offer.hands, offer.fromAt, offer.toAt)
        expect(decide(entered, [asked], { withoutAlternatives: true }).verdict).not.toBe('does-not-fit')
      },
    ),
    { seed: 20260605, numRuns: 60 },
  )
  // Worth something only if it met some, and some beside a booking at risk.
  expect(offers).toBeGreaterThan(15)
  expect(besideRisk).toBeGreaterThan(3)
}, 60_000)
