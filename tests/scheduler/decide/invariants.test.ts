/** Each promise about what is stored, broken in the smallest way: exactly the rule that keeps it speaks. */
import { describe, expect, test } from 'vitest'
import type { Booking } from '../../../src/domain/booking.ts'
import { Closure } from '../../../src/domain/closure.ts'
import { homeTurnId } from '../../../src/domain/home-turn-id.ts'
import { LaneId, LinkId, PolicyId } from '../../../src/domain/ids.ts'
import { instantPlusSeconds } from '../../../src/domain/instant.ts'
import type { PlannedTask } from '../../../src/domain/plan.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { StockChange } from '../../../src/domain/stock-change.ts'
import type { TaskKind } from '../../../src/domain/task.ts'
import type { Turn } from '../../../src/domain/turn.ts'
import { brokenInvariants } from '../../../src/scheduler/decide/index.ts'
import { aCrew, aUse, type CrewWishes, decided, duty, on5th, planOf, turnOf, withBookings } from './a-crew.ts'
import { at } from './a-hall.ts'

const passages = [{ id: 'passage_door', name: 'Store door', kind: 'doorway', trolleysAtOnce: 1 }]
const tools = [
  { id: 'tool_mop', name: 'dust mop', namePlural: 'dust mops', countOwned: 2, cleaningMethods: ['dust-mop'] },
]
const aHallWith = (wishes: CrewWishes = {}) =>
  aCrew({
    shifts: [duty('early', 4, '08:00', '10:00'), duty('noon', 2, '13:45', '20:00')],
    passages,
    tools,
    storeRoutePassageIds: ['passage_door'],
    ...wishes,
  })
const worship = (beside: object = {}) => aUse('worship', 'long-worship', '11:00', '14:00', beside)
const games = (doors = '16:00', beside: object = {}) => aUse('games', 'long-games', doors, '19:30', beside)
const help = { ownHelp: { hands: 10, seconds: 1200 } }
/** Without help. */
const plain = () => withBookings(aHallWith(), worship(), games())
const stored = (wishes: CrewWishes = {}) => withBookings(aHallWith(wishes), worship(help), games())

function withTurn(snapshot: SiteSnapshot, name: string, broken: (turn: Turn) => Turn): SiteSnapshot {
  const turn = turnOf(snapshot, name)
  return { ...snapshot, turns: snapshot.turns.map((one) => (one === turn ? broken(turn) : one)) }
}
/** The first task of a turn that is of this kind, or is as wanted, is another. */
function withTask(
  snapshot: SiteSnapshot,
  name: string,
  wanted: TaskKind | ((task: PlannedTask) => boolean),
  broken: (task: PlannedTask) => PlannedTask,
): SiteSnapshot {
  const task = taskOf(snapshot, name, wanted)
  return withTurn(snapshot, name, (turn) => ({
    ...turn,
    plan: turn.plan && {
      ...turn.plan,
      tasks: turn.plan.tasks.map((one) => (one === task ? broken(task) : one)),
    },
  }))
}
function taskOf(snapshot: SiteSnapshot, name: string, wanted: TaskKind | ((task: PlannedTask) => boolean)) {
  const isWanted = typeof wanted === 'function' ? wanted : ({ kind }: PlannedTask) => kind === wanted
  const task = planOf(snapshot, name).tasks.find(isWanted)
  if (!task) throw new Error(`the plan for ${name} has no such task`)
  return task
}
const withBooking = (snapshot: SiteSnapshot, name: string, broken: Partial<Booking>): SiteSnapshot => ({
  ...snapshot,
  bookings: snapshot.bookings.map((one) => (one.id === `booking_${name}` ? { ...one, ...broken } : one)),
})
const closedFor = (
  snapshot: SiteSnapshot,
  { startsAt, endsAt }: PlannedTask,
  what: object,
): SiteSnapshot => ({
  ...snapshot,
  closures: [
    Closure.parse({
      id: 'closure_late',
      siteId: snapshot.site.id,
      fromAt: startsAt,
      toAt: endsAt,
      reason: 'works',
      sectionIds: [],
      ...what,
    }),
  ],
})
const isHelper = (laneId: LaneId) => laneId.startsWith('booking_worship#')
const isHelped = ({ laneIds }: PlannedTask) => laneIds.some(isHelper)
const lane = (id: string) => LaneId.parse(id)
const swapped = (task: PlannedTask, from: LaneId, to: LaneId): PlannedTask => ({
  ...task,
  laneIds: task.laneIds.map((id) => (id === from ? to : id)),
})
/** Once everything is over: of what is past only that is asked which is true for ever. */
const afterwards = (snapshot: SiteSnapshot): SiteSnapshot => ({ ...snapshot, now: at('2026-06-06T20:00') })

test('what was decided and written breaks none of the promises', () => {
  expect(brokenInvariants(stored())).toEqual([])
})

describe('bookings', () => {
  test('that hold a room at one time are found', () => {
    const late = withBooking(afterwards(stored()), 'worship', { clearAt: on5th('16:05') })
    expect(brokenInvariants(late)).toEqual(['booking_worship and booking_games are in one place at once'])
  })

  test('without a turn are found', () => {
    const site = stored()
    const turns = site.turns.filter(({ id }) => id !== 'turn_games')
    expect(brokenInvariants({ ...site, turns })).toEqual(['booking_games has no turn'])
  })

  test('that are cancelled and hold something are found, where they are in the snapshot', () => {
    const site = withBooking(stored(), 'games', { status: 'CANCELLED' })
    expect(brokenInvariants(site)).toEqual(['booking_games is cancelled and its turn still stands'])
    // A store loads none of them: then nothing can be said.
    const loaded = { ...site, bookings: site.bookings.filter(({ status }) => status !== 'CANCELLED') }
    expect(brokenInvariants(loaded)).toEqual([])
  })
})

describe('a turn', () => {
  test.each<readonly [string, Partial<Turn>, string]>([
    [
      'that starts at another time than it can',
      { releaseAt: on5th('13:59') },
      'turn_games does not start when its predecessors are clear',
    ],
    [
      'that starts from somebody else',
      { predecessorBookingIds: [] },
      'turn_games does not start from what its predecessors leave',
    ],
    [
      'that was judged on something else',
      { inputHash: 'abc' },
      'turn_games was judged on other inputs than it has',
    ],
  ])('%s is found', (_, broken, said) => {
    expect(brokenInvariants(withTurn(plain(), 'games', (turn) => ({ ...turn, ...broken })))).toEqual([said])
  })

  test('that was judged by numbers that are not in force is found', () => {
    const site = withTurn(stored(), 'games', (turn) => ({
      ...turn,
      judgement: { ...turn.judgement, policyId: PolicyId.parse('policy_old') },
    }))
    expect(brokenInvariants(site)).toEqual([
      'turn_games was judged by a policy or rate set that is not in force',
    ])
  })

  test('that is warned of without need, or not warned of in need, is found', () => {
    const warned = withTurn(stored(), 'games', (turn) => ({
      ...turn,
      judgement: { ...turn.judgement, warnedSince: on5th('08:00') },
    }))
    expect(brokenInvariants(warned)).toEqual(['turn_games is warned of without need'])
    const assumed = withTurn(stored(), 'games', (turn) => ({
      ...turn,
      judgement: { ...turn.judgement, hands: { ...turn.judgement.hands, assumed: 1 } },
    }))
    expect(brokenInvariants(assumed)).toEqual(['turn_games is in trouble and nobody is warned'])
  })

  test('that is worked for while its room is closed is found', () => {
    const site = stored()
    const task = taskOf(site, 'games', 'strike')
    const [said, ...more] = brokenInvariants(closedFor(site, task, { sectionIds: ['section_north'] }))
    expect(said).toMatch(/^turn_games does \S+ while its room is closed$/)
    expect(more).toEqual([])
  })
})

describe('hands', () => {
  const isOfCrew = ({ kind, laneIds }: PlannedTask) => kind === 'set' && laneIds.length > 0
  const firstOf = (site: SiteSnapshot) => taskOf(site, 'games', isOfCrew)

  test('that are not on duty are found', () => {
    const site = stored()
    const { key, laneIds } = firstOf(site)
    const broken = withTask(site, 'games', isOfCrew, (task) =>
      swapped(task, laneIds[0]!, lane('shift_noon#3')),
    )
    expect(brokenInvariants(broken)).toEqual([`turn_games: shift_noon#3 is not on duty for all of ${key}`])
  })

  test('that nobody has promised are found where the policy does not count on them', () => {
    const site = stored()
    const { key, laneIds } = firstOf(site)
    const broken = withTask(site, 'games', isOfCrew, (task) => swapped(task, laneIds[0]!, lane('assumed#1')))
    expect(brokenInvariants(broken)).toEqual([`turn_games: assumed#1 is not on duty for all of ${key}`])
  })

  test('without the skill that is needed are found', () => {
    const site = stored()
    const { key } = firstOf(site)
    const broken = withTask(site, 'games', isOfCrew, (task) => ({ ...task, skill: 'rigging' }))
    expect(brokenInvariants(broken)).toEqual([`turn_games: nobody at ${key} has the skill rigging`])
  })

  test('of minors are found at what only adults may do, and at what is too heavy for them', () => {
    const site = stored()
    const young = {
      ...site,
      shifts: site.shifts.map((shift) =>
        shift.crew.kind === 'hands' ? { ...shift, crew: { ...shift.crew, adults: false } } : shift,
      ),
    }
    const said = brokenInvariants(young)
    expect(said.length).toBeGreaterThan(0)
    expect(said.filter((sentence) => !/^turn_\w+: a minor at \S+$/.test(sentence))).toEqual([])
    expect(said.some((sentence) => sentence.includes('briefing'))).toBe(true)
    // Post pairs are 36 kg for two: whatever the plan says of them.
    const posts = taskOf(site, 'games', ({ furnishingId }) => furnishingId === 'furnishing_post-pair')
    const allowed = withTask(
      young,
      'games',
      (task) => task.key === posts.key,
      (task) => ({
        ...task,
        adultsOnly: false,
      }),
    )
    expect(brokenInvariants(allowed)).toContain(`turn_games: a minor at ${posts.key}`)
  })

  test('that are in two rooms at once are found', () => {
    const site = withBookings(stored(), aUse('side', 'side-meeting', '18:00', '19:00'))
    const own = taskOf(site, 'side', ({ laneIds }) => laneIds.length > 0)
    const elsewhere = planOf(site, 'games').tasks.find(({ laneIds }) => laneIds.length > 0)!
    // As long as before, at the time when that hand is at work in the other room.
    const there = { startsAt: elsewhere.startsAt, endsAt: elsewhere.endsAt }
    const broken = withTask(
      site,
      'games',
      (task) => task === elsewhere,
      (task) => ({
        ...swapped(task, task.laneIds[0]!, own.laneIds[0]!),
        startsAt: own.startsAt,
        endsAt: own.endsAt,
      }),
    )
    expect(there.startsAt).not.toBe(own.startsAt)
    expect(brokenInvariants(broken).some((said) => said.endsWith('at once'))).toBe(true)
  })
})

describe('a group that helps', () => {
  test('with more than it has promised is found', () => {
    const site = stored()
    const { key, laneIds } = taskOf(site, 'games', isHelped)
    const broken = withTask(site, 'games', isHelped, (task) =>
      swapped(task, laneIds.find(isHelper)!, lane('booking_worship#11')),
    )
    expect(brokenInvariants(broken)).toContain(
      `turn_games: booking_worship#11 is not on duty for all of ${key}`,
    )
  })

  test('with what is not its chairs and tables is found', () => {
    const site = stored()
    const isMopped = ({ kind }: PlannedTask) => kind === 'clean'
    const { key, laneIds, startsAt } = taskOf(site, 'games', isMopped)
    expect(startsAt).toBeLessThan(on5th('14:20'))
    const broken = withTask(site, 'games', isMopped, (task) =>
      swapped(task, laneIds[0]!, lane('booking_worship#10')),
    )
    expect(brokenInvariants(broken)).toContain(
      `turn_games: booking_worship#10 is not on duty for all of ${key}`,
    )
  })

  test('after the time that it has said is found', () => {
    const site = stored()
    const fromAt = on5th('14:00')
    const isLast = ({ laneIds }: PlannedTask) => laneIds.some(isHelper)
    const last = planOf(site, 'games').tasks.findLast(isLast)!
    const helpers = last.laneIds.filter(isHelper)
    // As long as before, and it ends half a minute after they are gone.
    const endsAt = instantPlusSeconds(fromAt, 1200 + 30)
    const broken = withTask(
      site,
      'games',
      (task) => task === last,
      (task) => ({
        ...task,
        startsAt: instantPlusSeconds(endsAt, (task.startsAt - task.endsAt) / 1000),
        endsAt,
      }),
    )
    const said = brokenInvariants(broken)
    for (const helper of helpers)
      expect(said).toContain(`turn_games: ${helper} is not on duty for all of ${last.key}`)
  })

  test('of whom there are more than the crew can lead is found', () => {
    const one = aHallWith({
      shifts: [duty('early', 4, '08:00', '10:00'), duty('noon', 1, '13:45', '20:00')],
    })
    const site = withBookings(one, worship(help), aUse('meeting', 'south-meeting', '18:00', '19:00'))
    const helping = (of: SiteSnapshot) =>
      new Set(planOf(of, 'meeting').tasks.flatMap(({ laneIds }) => laneIds.filter(isHelper))).size
    expect(helping(site)).toBe(6)
    // One more takes turns at what one did.
    const broken = withTask(site, 'meeting', isHelped, (task) =>
      swapped(task, task.laneIds.find(isHelper)!, lane('booking_worship#7')),
    )
    expect(helping(broken)).toBe(7)
    expect(brokenInvariants(broken)).toEqual(['turn_meeting: 1 of the crew lead 7 of booking_worship'])
  })
})

describe('things', () => {
  /** The plan says that there are as many as it uses. */
  const used = (site: SiteSnapshot, resource: string, amount: number) => {
    const isUsing = ({ uses }: PlannedTask) => uses.some((use) => use.resource === resource)
    const broken = withTask(site, 'games', isUsing, (task) => ({
      ...task,
      uses: task.uses.map((use) => (use.resource === resource ? { resource, amount } : use)),
    }))
    return withTurn(broken, 'games', (turn) => ({
      ...turn,
      plan: turn.plan && {
        ...turn.plan,
        resources: turn.plan.resources.map((one) =>
          one.key === resource ? { ...one, capacity: 10_000 } : one,
        ),
      },
    }))
  }

  test.each([
    ['tools', 'tool:tool_mop', 3, '3 of 2 tool:tool_mop are in use at once'],
    ['trolleys', 'trolley:furnishing_chair', 5, '5 of 4 trolley:furnishing_chair are in use at once'],
    [
      'the ways to a store',
      'passage:passage_door',
      101,
      '101 of 100 passage:passage_door are in use at once',
    ],
  ])(
    'of which more are in use than there are are found, whatever the plan says: %s',
    (_, key, amount, said) => {
      expect(brokenInvariants(used(plain(), key, amount))).toEqual([said])
    },
  )

  test('that do not exist are found', () => {
    const site = used(stored(), 'tool:tool_mop', 1)
    const broken = withTask(
      site,
      'games',
      ({ uses }) => uses.length > 0,
      (task) => ({
        ...task,
        uses: [{ resource: 'tool:tool_broom', amount: 1 }],
      }),
    )
    const declared = withTurn(broken, 'games', (turn) => ({
      ...turn,
      plan: turn.plan && {
        ...turn.plan,
        resources: [...turn.plan.resources, { key: 'tool:tool_broom', label: 'brooms', capacity: 9 }],
      },
    }))
    expect(brokenInvariants(declared)).toEqual(['1 of 0 tool:tool_broom are in use at once'])
  })

  test('are not carried through a passage that is closed', () => {
    const site = stored()
    const task = taskOf(site, 'games', ({ uses }) =>
      uses.some(({ resource }) => resource.startsWith('passage:')),
    )
    const [said, ...more] = brokenInvariants(closedFor(site, task, { passageIds: ['passage_door'] }))
    expect(said).toMatch(/^\d+ of 0 passage:passage_door are in use at once$/)
    expect(more).toEqual([])
  })

  test('are neither fetched from a store that is closed nor put into it', () => {
    const site = stored()
    const task = taskOf(site, 'games', ({ toPlace }) => toPlace === 'North store')
    const said = brokenInvariants(closedFor(site, task, { storagePlaceIds: ['storage_north'] }))
    expect(said).toContain(`turn_games needs storage_north for ${task.key} while it is closed`)
    expect(said.every((one) => one.endsWith('while it is closed'))).toBe(true)
  })

  test('that are out of service count as long as they are', () => {
    const site = stored()
    const { startsAt, endsAt } = taskOf(site, 'games', 'clean')
    const away = {
      id: 'stockchange_mops',
      siteId: site.site.id,
      of: { kind: 'tool', toolId: 'tool_mop', count: 2 },
      why: 'out-of-service',
      fromAt: startsAt,
      toAt: endsAt,
    }
    const broken = { ...site, stockChanges: [StockChange.parse(away)] }
    const over = brokenInvariants(broken).filter((said) => said.includes('in use at once'))
    expect(over).toEqual([expect.stringMatching(/^[12] of 0 tool:tool_mop are in use at once$/)])
  })

  test('do not come from nowhere and do not get lost', () => {
    const isChairs = ({ kind, furnishingId }: PlannedTask) =>
      kind === 'strike' && furnishingId === 'furnishing_chair'
    const broken = withTask(stored(), 'games', isChairs, (task) => ({ ...task, count: task.count! - 1 }))
    expect(brokenInvariants(broken)).toEqual([
      'turn_games leaves 21 of furnishing_chair standing, and 20 are wanted',
    ])
  })
})

describe('a plan', () => {
  test('whose task is shorter than its work is found', () => {
    const isLong = ({ startsAt, endsAt, kind }: PlannedTask) => kind === 'set' && endsAt - startsAt > 60_000
    const { key } = taskOf(stored(), 'games', isLong)
    const broken = withTask(stored(), 'games', isLong, (task) => ({
      ...task,
      endsAt: instantPlusSeconds(task.endsAt, -30),
    }))
    expect(brokenInvariants(broken).some((said) => said.startsWith(`turn_games: ${key} has `))).toBe(true)
  })
})

describe('a room that is kept as set for the next of a link', () => {
  const linkId = LinkId.parse('link_day')
  const linked = () => {
    const site = withBookings(aHallWith(), worship(), aUse('evening', 'long-worship', '18:00', '19:30'))
    const { snapshot, decision } = decided(site, {
      kind: 'link',
      linkId,
      bookingIds: site.bookings.map(({ id }) => id),
      keepAsSet: true,
    })
    if (decision.changes === null) throw new Error('the link was refused')
    return snapshot
  }

  test('is kept for somebody', () => {
    expect(brokenInvariants(linked())).toEqual([])
    expect(brokenInvariants(withBooking(linked(), 'evening', { linkId: null }))).toEqual([
      'booking_worship keeps its room as set for nobody',
    ])
  })

  test('is not given to anybody in between, nor put back', () => {
    const site = afterwards(linked())
    const between = aUse('between', 'long-games', '15:00', '16:00')
    expect(brokenInvariants({ ...site, bookings: [...site.bookings, between] })).toContain(
      'booking_between is between booking_worship and booking_evening, for which it is kept as set',
    )
    const home = { ...turnOf(site, 'evening'), id: homeTurnId(worship().turnId) }
    const { tasks: _, ...plan } = planOf(site, 'evening')
    const putBack = { ...home, plan: { ...plan, tasks: [] } }
    expect(brokenInvariants({ ...site, turns: [...site.turns, putBack] })).toContain(
      `booking_worship keeps its room as set, and ${home.id} puts it back`,
    )
  })

  test('is wanted in the same layout', () => {
    const site = withBooking(afterwards(linked()), 'evening', { layoutId: games().layoutId })
    expect(brokenInvariants(site)).toEqual([
      'booking_worship keeps its room as set for booking_evening, which wants another',
    ])
  })
})
