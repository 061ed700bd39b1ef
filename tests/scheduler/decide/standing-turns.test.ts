/** Of all turns of a site, those that are near are found as if each were looked at. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type HalfOpenInterval, overlaps } from '../../../src/domain/half-open-interval.ts'
import { TurnId } from '../../../src/domain/ids.ts'
import { type Instant, instantPlusSeconds } from '../../../src/domain/instant.ts'
import type { Turn } from '../../../src/domain/turn.ts'
import { heldSpan } from '../../../src/scheduler/decide/plan/held-span.ts'
import { StandingTurns } from '../../../src/scheduler/decide/plan/standing-turns.ts'
import { aCrew, aUse, duty, on5th, planOf, turnOf, withBookings } from './a-crew.ts'

const hall = withBookings(
  aCrew({ shifts: [duty('day', 4, '08:00', '20:00')] }),
  aUse('meeting', 'side-meeting', '12:00', '13:00'),
)
const stored = turnOf(hall, 'meeting')
const plan = planOf(hall, 'meeting')

/** The stored turn with its work as many hours later, and drawn out over so many more. */
function moved(number: number, hours: number, longerHours: number): Turn {
  const later = (at: Instant) => instantPlusSeconds(at, hours * 3600)
  const tasks = plan.tasks.map((task, index) => ({
    ...task,
    startsAt: later(task.startsAt),
    endsAt: instantPlusSeconds(later(task.endsAt), index === 0 ? longerHours * 3600 : 0),
  }))
  return { ...stored, id: TurnId.parse(`turn_${number}`), plan: { ...plan, tasks } }
}

const spanFrom = (hours: number, longHours: number): HalfOpenInterval => ({
  fromAt: instantPlusSeconds(on5th('00:00'), hours * 3600),
  toAt: instantPlusSeconds(on5th('00:00'), (hours + longHours) * 3600),
})

describe('the turns that stand', () => {
  test('are found where their plans hold anything, each once, by start and then by id, whatever was put and removed', () => {
    const step = fc.record({
      number: fc.integer({ min: 1, max: 8 }),
      kind: fc.constantFrom('put', 'put', 'put', 'remove', 'plan-lost'),
      hours: fc.integer({ min: -72, max: 72 }),
      longerHours: fc.integer({ min: 0, max: 60 }),
    })
    let found = 0
    fc.assert(
      fc.property(
        fc.array(step, { maxLength: 20 }),
        fc.integer({ min: -96, max: 96 }),
        fc.integer({ min: 0, max: 60 }),
        (steps, hours, longHours) => {
          const standing = new StandingTurns([])
          const byId = new Map<TurnId, Turn>()
          for (const { number, kind, hours: later, longerHours } of steps) {
            const turn = moved(number, later, longerHours)
            if (kind === 'remove') standing.remove(turn.id)
            else standing.put(kind === 'put' ? turn : { ...turn, plan: null })
            if (kind === 'put') byId.set(turn.id, turn)
            else byId.delete(turn.id)
          }
          const span = spanFrom(hours, longHours)
          const startOf = (turn: Turn) => heldSpan(turn.plan ?? plan).fromAt
          const expected = [...byId.values()]
            .filter((turn) => turn.plan && overlaps(heldSpan(turn.plan), span))
            .sort((a, b) => startOf(a) - startOf(b) || (a.id < b.id ? -1 : 1))
          expect(standing.during(span).map(({ id }) => id)).toEqual(expected.map(({ id }) => id))
          found += expected.length
        },
      ),
      { seed: 20261130, numRuns: 500 },
    )
    expect(found).toBeGreaterThan(200)
  })
})
