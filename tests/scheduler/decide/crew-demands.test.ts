/** Events eat crew: who is at the desk, with the ushers or in the kitchen does not turn rooms meanwhile. */
import { describe, expect, test } from 'vitest'
import {
  aCrew,
  asked,
  aUse,
  changed,
  decided,
  during,
  dutiesIn,
  duty,
  handsAt,
  locked,
  on5th,
  planOf,
  reasonIn,
  turnOf,
  withBookings,
  workIn,
} from './a-crew.ts'

const crew = (what: string, hands: number, from: string, to: string, skill: string | null = null) => ({
  what,
  hands,
  skill,
  fromAt: on5th(from),
  toAt: on5th(to),
})

/** Two hands set up in the morning, others are there from noon on. */
const morning = duty('morning', 2, '08:00', '12:00')
const noon = (hands: number) => [morning, duty('noon', hands, '12:00', '16:00')]
const service = (beside: object) => aUse('service', 'side-meeting', '12:00', '14:00', beside)
/** Nobody can set up for it before noon. */
const meeting = aUse('meeting', 'south-meeting', '13:30', '15:00')
const aHallAtNoon = (hands: number, policy = {}) =>
  aCrew({ shifts: noon(hands), closures: [locked('south', '12:00')], policy })

describe('crew that an event itself takes', () => {
  test('is held from the first to the last minute of the demand, and not free for a turn elsewhere', () => {
    const ushers = crew('ushers', 2, '12:00', '13:45')
    const snapshot = withBookings(aHallAtNoon(4), service({ crewDemands: [ushers] }), meeting)
    const [atDoors, ...more] = dutiesIn(planOf(snapshot, 'service'))
    expect(more).toEqual([])
    expect(atDoors).toMatchObject({
      hands: 2,
      startsAt: ushers.fromAt,
      endsAt: ushers.toAt,
      text: 'At the event in Side Room: ushers.',
    })
    const elsewhere = handsAt(workIn(planOf(snapshot, 'meeting')))
    expect(elsewhere).toHaveLength(2)
    expect(elsewhere.filter((lane) => atDoors!.laneIds.includes(lane))).toEqual([])
  })

  test('is looked for among those whom the turns have left', () => {
    const snapshot = withBookings(
      aHallAtNoon(10, { replanTurnsMost: 0 }),
      meeting,
      service({ crewDemands: [crew('ushers', 2, '12:00', '13:45')] }),
    )
    const turning = handsAt(during(workIn(planOf(snapshot, 'meeting')), on5th('12:00'), on5th('13:45')))
    const ushers = handsAt(dutiesIn(planOf(snapshot, 'service')))
    expect(turning.length).toBeGreaterThan(2)
    expect(ushers.filter((lane) => turning.includes(lane))).toEqual([])
  })

  test('makes a turn elsewhere take longer, by the hands that it lacks', () => {
    const hall = aHallAtNoon(4)
    const alone = withBookings(hall, service({}), meeting)
    const beside = withBookings(
      hall,
      service({ crewDemands: [crew('ushers', 3, '12:00', '13:45')] }),
      meeting,
    )
    expect(planOf(alone, 'meeting').readyAt).toBe(on5th('12:19'))
    // One hand needs 37 min, as a look at an empty hall with one hand shows.
    expect(planOf(beside, 'meeting').readyAt).toBe(on5th('12:37'))
  })

  test('lies after clear too: the turn that follows in the same room goes without it', () => {
    const hall = aCrew({ shifts: [morning, duty('noon', 2, '12:00', '18:00')] })
    const lateKitchen = crew('kitchen', 1, '13:00', '15:00')
    const supper = aUse('supper', 'side-supper', '16:30', '17:30')
    const refused = decided(
      withBookings(hall, service({ crewDemands: [lateKitchen] })),
      asked(aUse('supper', 'side-supper', '15:20', '17:30')),
    )
    expect(refused.decision.verdict).toBe('does-not-fit')
    const snapshot = withBookings(hall, service({ crewDemands: [lateKitchen] }), supper)
    const kitchen = handsAt(dutiesIn(planOf(snapshot, 'service')))
    const meanwhile = during(workIn(planOf(snapshot, 'supper')), on5th('13:00'), on5th('15:00'))
    expect(handsAt(meanwhile).filter((lane) => kitchen.includes(lane))).toEqual([])
  })

  test('lies the day before its turn too: who decorates does not turn a room then', () => {
    const hall = aCrew({
      shifts: [duty('decorators', 2, '10:00', '12:00'), duty('evening', 2, '17:00', '22:00')],
    })
    const decorators = crew('decorators', 2, '10:00', '12:00')
    const party = aUse('party', 'south-meeting', '19:00', '21:00', { crewDemands: [decorators] })
    const atNoon = aUse('noon', 'side-meeting', '12:00', '13:00')
    expect(decided(hall, asked(atNoon)).decision.verdict).toBe('fits')
    const decorated = withBookings(hall, party)
    expect(planOf(decorated, 'party').startsAt).toBe(on5th('17:00'))
    expect(decided(decorated, asked(atNoon)).decision.verdict).toBe('does-not-fit')
  })

  test('may be asked for before doors, and the turn of the room itself runs with the others', () => {
    const hall = aCrew({ shifts: [duty('noon', 4, '12:00', '16:00')] })
    const kitchen = crew('kitchen', 2, '12:00', '13:00')
    const snapshot = withBookings(
      hall,
      aUse('lunch', 'side-meeting', '13:00', '15:00', { crewDemands: [kitchen] }),
    )
    const plan = planOf(snapshot, 'lunch')
    const [cooks] = dutiesIn(plan)
    const meanwhile = during(workIn(plan), kitchen.fromAt, kitchen.toAt)
    expect(meanwhile.length).toBeGreaterThan(0)
    expect(handsAt(meanwhile).filter((lane) => cooks!.laneIds.includes(lane))).toEqual([])
    // The kitchen is no work of the turn: it is ready before the cooks are done.
    expect(plan.readyAt).toBe(on5th('12:22'))
    expect(turnOf(snapshot, 'lunch').judgement.hands.needed).toBe(2)
  })

  test('that leaves nobody for the turn of the room itself is said as what the turn lacks', () => {
    const hall = aCrew({ shifts: [duty('noon', 2, '12:00', '16:00')] })
    const kitchen = crew('kitchen', 2, '12:00', '13:00')
    const lunch = aUse('lunch', 'side-meeting', '13:00', '15:00', { crewDemands: [kitchen] })
    const { decision } = decided(hall, asked(lunch))
    expect(decision.changes).toBeNull()
    expect(decision.reasons.map(({ code }) => code)).toEqual(['hands-short'])
    // One more would do it, in 36 min.
    expect(reasonIn(decision, 'hands-short')).toMatchObject({ handsOnDuty: 2, handsNeeded: 3 })
  })
})

describe('where the crew does not suffice for the event', () => {
  const oneHand = noon(1)
  const ushers = crew('ushers', 2, '12:00', '13:45')

  test('the request is refused with what is asked for, from when to when, and how many', () => {
    const { decision } = decided(aCrew({ shifts: oneHand }), asked(service({ crewDemands: [ushers] })))
    expect(decision.verdict).toBe('does-not-fit')
    expect(decision.changes).toBeNull()
    expect(decision.reasons).toEqual([
      {
        code: 'crew-demand-short',
        bookingId: 'booking_service',
        what: 'ushers',
        fromAt: ushers.fromAt,
        toAt: ushers.toAt,
        handsNeeded: 2,
        skill: null,
        overridable: true,
        message:
          'The event “service” needs 2 hands (ushers) from Fri 5 Jun 12:00 to Fri 5 Jun 13:45: nobody is on duty for all of that time; none is free, 2 more are needed.',
        handsOnDuty: 0,
        handsFree: 0,
        heldFor: [],
        paidSecondsMost: null,
      },
    ])
  })

  test('a coordinator may take it all the same: the plan of the room is kept, without the ushers', () => {
    const riskAccepted = {
      actorId: 'actor_kim',
      why: 'Friends of the choir usher.',
      acceptedAt: on5th('08:00'),
    }
    const { decision, snapshot } = decided(
      aCrew({ shifts: oneHand }),
      asked(service({ crewDemands: [ushers], riskAccepted })),
    )
    expect(decision.verdict).toBe('does-not-fit')
    const turn = turnOf(snapshot, 'service')
    expect(turn.status).toBe('failing')
    expect(turn.judgement.reasons.map(({ code }) => code)).toEqual(['crew-demand-short'])
    expect(dutiesIn(turn.plan!)).toEqual([])
    expect(turn.plan!.readyAt).toBe(on5th('08:22'))
  })

  test('of several demands each that can be met is met, and only the others are spoken of', () => {
    const desk = crew('desk', 1, '12:00', '14:00')
    const { decision } = decided(aCrew({ shifts: oneHand }), asked(service({ crewDemands: [desk, ushers] })))
    expect(decision.reasons.map((reason) => [reason.code, 'what' in reason && reason.what])).toEqual([
      ['crew-demand-short', 'ushers'],
    ])
  })

  test('who is off duty before the last minute of the demand does not count', () => {
    const longer = crew('ushers', 2, '12:00', '13:45')
    const shorter = [morning, duty('noon', 2, '12:00', '13:30')]
    const { decision } = decided(aCrew({ shifts: shorter }), asked(service({ crewDemands: [longer] })))
    expect(decision.reasons.map(({ code }) => code)).toEqual(['crew-demand-short'])
  })
})

test('a crew that is at another event is told of: how many, for whom, and how many more it takes', () => {
  const ushers = (name: string, layout: string, hands: number) =>
    aUse(name, layout, '12:00', '14:00', {
      crewDemands: [{ what: 'ushers', hands, fromAt: on5th('12:00'), toAt: on5th('13:00') }],
    })
  const before = withBookings(
    aCrew({ shifts: [duty('day', 5, '08:00', '14:00')] }),
    ushers('supper', 'side-supper', 3),
  )
  const { decision } = decided(before, asked(ushers('talk', 'south-meeting', 4)))
  expect(decision.reasons.map(({ message }) => message)).toEqual([
    'The event “talk” needs 4 hands (ushers) from Fri 5 Jun 12:00 to Fri 5 Jun 13:00: 3 of the 5 hands on duty are at work for “supper”; 2 are free, 2 more are needed.',
  ])
})

describe('a demand with a skill', () => {
  const people = [
    { id: 'person_ana', adult: true, skills: ['first-aid'] },
    { id: 'person_ben', adult: true, skills: ['first-aid', 'bar'] },
    { id: 'person_cem', adult: true, skills: ['bar'] },
  ]
  const all = people.map(({ id }) => ({
    id: `shift_${id.slice('person_'.length)}`,
    name: id,
    crew: { kind: 'person', personId: id },
    times: { kind: 'once', startsAt: on5th('08:00'), endsAt: on5th('16:00') },
  }))

  test('needs it from each of them', () => {
    const medics = (hands: number) =>
      service({ crewDemands: [crew('medics', hands, '12:00', '13:45', 'first-aid')] })
    const hall = aCrew({ shifts: all, people })
    const two = withBookings(hall, medics(2))
    expect(handsAt(dutiesIn(planOf(two, 'service')))).toEqual(['person_ana', 'person_ben'])
    const { decision } = decided(hall, asked(medics(3)))
    expect(reasonIn(decision, 'crew-demand-short')).toMatchObject({ handsNeeded: 3, skill: 'first-aid' })
    expect(decision.reasons[0]!.message).toBe(
      'The event “service” needs 3 hands (medics) from Fri 5 Jun 12:00 to Fri 5 Jun 13:45: the 2 hands with the skill first-aid on duty are not enough; 2 are free, 1 more is needed.',
    )
  })

  test('leaves those who have more skills to the demand that needs them', () => {
    const both = service({
      crewDemands: [
        crew('medics', 2, '12:00', '13:45', 'first-aid'),
        crew('bar', 1, '12:00', '13:45', 'bar'),
      ],
    })
    const [medics, bar] = dutiesIn(planOf(withBookings(aCrew({ shifts: all, people }), both), 'service'))
    expect(medics!.laneIds.toSorted()).toEqual(['person_ana', 'person_ben'])
    expect(bar!.laneIds).toEqual(['person_cem'])
  })
})

describe('when a demand changes', () => {
  test('the plan holds those who are asked for now, and the turn elsewhere that lost its hands is planned anew', () => {
    const hall = aHallAtNoon(4)
    const before = withBookings(hall, service({}), meeting)
    expect(planOf(before, 'meeting').readyAt).toBe(on5th('12:19'))
    const more = service({ crewDemands: [crew('ushers', 3, '12:00', '13:45')] })
    const { decision, snapshot } = decided(before, changed(more))
    expect(decision.verdict).toBe('fits')
    expect(decision.affected).toEqual([
      { turnId: 'turn_meeting', bookingId: 'booking_meeting', verdict: 'fits', message: null },
    ])
    expect(handsAt(dutiesIn(planOf(snapshot, 'service')))).toHaveLength(3)
    expect(planOf(snapshot, 'meeting').readyAt).toBe(on5th('12:37'))
  })

  test('a demand that falls away is held by nobody', () => {
    const hall = aHallAtNoon(4)
    const ushers = service({ crewDemands: [crew('ushers', 2, '12:00', '13:45')] })
    const { snapshot } = decided(withBookings(hall, ushers), changed({ ...ushers, crewDemands: [] }))
    expect(dutiesIn(planOf(snapshot, 'service'))).toEqual([])
  })
})
