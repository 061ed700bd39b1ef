/** A service that must not be disturbed: noisy work in rooms that it hears is done before it, or after. */
import { describe, expect, test } from 'vitest'
import type { PlannedTask } from '../../../src/domain/plan.ts'
import {
  aCrew,
  asked,
  aUse,
  type CrewWishes,
  changed,
  decided,
  during,
  duty,
  locked,
  on5th,
  planOf,
  turnOf,
  withBookings,
  workIn,
} from './a-crew.ts'

/** Two set up the side room early; two are there when the south room is opened at a quarter to ten. */
const shifts = [duty('early', 2, '08:00', '08:40'), duty('day', 2, '09:40', '14:00')]
const joined = (wishes: CrewWishes = {}) =>
  aCrew({ shifts, isJoined: true, closures: [locked('south', '09:45')], ...wishes })

/** In the side room; from 09:45 until 10:45 it is quiet. */
const service = (beside: object = {}) =>
  aUse('service', 'side-meeting', '09:30', '11:00', { quietNeeded: true, ...beside })
/** In the south room, which the side room hears. */
const meeting = (doors: string) => aUse('meeting', 'south-meeting', doors, '15:00')

const isNoisy = ({ kind }: PlannedTask) => ['bus', 'strike', 'park', 'clean', 'set', 'bins'].includes(kind)
const duringService = (tasks: readonly PlannedTask[]) => during(tasks, on5th('09:45'), on5th('10:45'))

describe('a service that needs quiet', () => {
  test('keeps noisy work next door out of its time, from start to end', () => {
    const work = workIn(planOf(withBookings(joined(), service(), meeting('12:00')), 'meeting'))
    expect(work.filter(isNoisy)).not.toEqual([])
    expect(duringService(work.filter(isNoisy))).toEqual([])
    // What makes no noise goes on beside it.
    expect(duringService(work)).not.toEqual([])
  })

  test('leaves a room that it does not hear alone', () => {
    const hall = joined({ isJoined: false })
    expect(planOf(withBookings(hall, service(), meeting('12:00')), 'meeting').readyAt).toBe(on5th('10:08'))
  })

  test('that does not ask for quiet keeps nobody from work', () => {
    const snapshot = withBookings(joined(), service({ quietNeeded: false }), meeting('12:00'))
    expect(planOf(snapshot, 'meeting').readyAt).toBe(on5th('10:08'))
  })

  test('is not disturbed whichever of the two rooms was said to hear the other', () => {
    const hall = joined({ closures: [locked('side', '09:45')] })
    const theOther = aUse('service', 'south-meeting', '09:30', '11:00', { quietNeeded: true })
    const next = aUse('meeting', 'side-meeting', '12:00', '15:00')
    const work = workIn(planOf(withBookings(hall, theOther, next), 'meeting'))
    expect(work.filter(isNoisy)).not.toEqual([])
    expect(duringService(work.filter(isNoisy))).toEqual([])
  })

  test('that ends too late for the turn next door has that request refused', () => {
    const { decision } = decided(withBookings(joined(), service()), asked(meeting('10:40')))
    expect(decision.changes).toBeNull()
    expect(decision.reasons.map(({ code }) => code)).toEqual(['turn-before-too-long'])
    // All hands are free: it is the quiet that they wait for.
    expect(decision.reasons[0]).toMatchObject({
      handsHeld: 0,
      heldFor: [],
      heldBack: [
        { kind: 'quiet', roomId: 'room_side', bookingId: 'booking_service', untilAt: on5th('10:45') },
      ],
    })
    expect(decision.reasons[0]?.message).toMatch(
      /^The turn before it, to south meeting, would be ready \d+ min after doors: it needs about \d+ min, and there is to be quiet for “service” until Fri 5 Jun 10:45\. No /,
    )
  })

  test('is quiet in its own room for no turn: the work before it is done, and none has begun after it', () => {
    const snapshot = withBookings(joined(), service(), aUse('late', 'side-supper', '13:00', '14:00'))
    expect(planOf(snapshot, 'late').startsAt).toBeGreaterThanOrEqual(on5th('11:00'))
  })
})

describe('noisy work that is planned next door before anybody asks for quiet', () => {
  test('is moved out of the service where the turn stays ready', () => {
    const before = withBookings(joined(), meeting('12:00'))
    expect(duringService(workIn(planOf(before, 'meeting')).filter(isNoisy))).not.toEqual([])
    const { decision, snapshot } = decided(before, asked(service()))
    expect(decision.verdict).toBe('fits')
    expect(decision.affected).toEqual([
      { turnId: 'turn_meeting', bookingId: 'booking_meeting', verdict: 'fits', message: null },
    ])
    expect(duringService(workIn(planOf(snapshot, 'meeting')).filter(isNoisy))).toEqual([])
  })

  test('is moved also where the room is only left after the service has opened its doors', () => {
    const hall = joined({ closures: [], shifts: [duty('early', 2, '07:30', '08:40'), shifts[1]] })
    const before = withBookings(
      hall,
      service({ quietNeeded: false }),
      aUse('leaving', 'south-meeting', '08:40', '09:50'),
      aUse('games', 'long-games', '12:30', '15:00'),
    )
    expect(duringService(workIn(planOf(before, 'games')).filter(isNoisy))).not.toEqual([])
    const { decision, snapshot } = decided(before, changed(service()))
    expect(decision.verdict).toBe('fits')
    expect(duringService(workIn(planOf(snapshot, 'games')).filter(isNoisy))).toEqual([])
  })

  test('is what the service is refused for where it cannot be moved, and stays where it is', () => {
    const before = withBookings(joined(), meeting('10:40'))
    const { decision, snapshot } = decided(before, asked(service()))
    expect(decision.changes).toBeNull()
    expect(decision.reasons).toEqual([
      {
        code: 'noise-next-door',
        bookingId: 'booking_service',
        fromAt: on5th('09:45'),
        toAt: on5th('10:45'),
        noise: {
          bookingId: 'booking_meeting',
          roomId: 'room_south',
          fromAt: on5th('09:53'),
          toAt: on5th('10:02'),
          task: 'Bring 20 chairs from the North store (30 m) with a trolley, and put them in place in zone 1',
        },
        overridable: true,
        message:
          'The event “service” needs quiet from Fri 5 Jun 09:45 to Fri 5 Jun 10:45, and in South Room, which it hears, noisy work for “meeting” is planned from Fri 5 Jun 09:53 to Fri 5 Jun 10:02. It begins with: Bring 20 chairs from the North store (30 m) with a trolley, and put them in place in zone 1.',
      },
    ])
    expect(turnOf(snapshot, 'meeting')).toEqual(turnOf(before, 'meeting'))
  })

  test('is not moved where the policy moves nothing', () => {
    const before = withBookings(joined({ policy: { replanTurnsMost: 0 } }), meeting('12:00'))
    const { decision } = decided(before, asked(service()))
    expect(decision.reasons.map(({ code }) => code)).toEqual(['noise-next-door'])
  })

  test('is tolerated where somebody answers for it: the service is at risk, the turn next door is left alone', () => {
    const before = withBookings(joined(), meeting('10:40'))
    const riskAccepted = { actorId: 'actor_kim', why: 'A rehearsal.', acceptedAt: on5th('08:00') }
    const { snapshot } = decided(before, asked(service({ riskAccepted })))
    expect(turnOf(snapshot, 'service')).toMatchObject({
      status: 'failing',
      judgement: { reasons: [{ code: 'noise-next-door' }] },
    })
    expect(turnOf(snapshot, 'meeting')).toEqual(turnOf(before, 'meeting'))
  })
})
