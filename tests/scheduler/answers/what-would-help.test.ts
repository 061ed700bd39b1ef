import { describe, expect, test } from 'vitest'
import { LayoutId } from '../../../src/domain/ids.ts'
import { secondsBetween } from '../../../src/domain/instant.ts'
import { Layout } from '../../../src/domain/layout.ts'
import { Person } from '../../../src/domain/person.ts'
import type { SetupRows, SetupWrite } from '../../../src/domain/setup.ts'
import { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { StoragePlace } from '../../../src/domain/storage-place.ts'
import type { Help, HelpChange } from '../../../src/domain/what-would-help.ts'
import { anewSentence, helpSentence } from '../../../src/scheduler/answers/help-sentence.ts'
import { whatWouldHelp } from '../../../src/scheduler/answers/index.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import { withoutTasks } from '../../../src/scheduler/network/without-tasks.ts'
import { turnInputOf } from '../../../src/scheduler/timeline/turn-input.ts'
import { worldOf } from '../../../src/scheduler/timeline/world.ts'
import { solve } from '../../../src/scheduler/turn/index.ts'
import { aCrew, aUse, changed, decided, duty, on5th, turnOf, withBookings } from '../decide/a-crew.ts'
import { at, setUp, ZONE } from '../decide/a-hall.ts'
import { soonestReally } from './really-changed.ts'

const games = aUse('games', 'long-games', '08:00', '12:00')
const dinner = aUse('dinner', 'long-banquet', '13:30', '15:00', { headcount: 100 })
const policy = { workMost: 60 }
const aDay = (hall = aCrew({ hands: 4, policy })) => withBookings(hall, games, dinner)

/** With a layout of tables that needs no sound desk. */
const withBuffet = <Hall extends SiteSnapshot>(hall: Hall, seats = 110): Hall => ({
  ...hall,
  layouts: [
    ...hall.layouts,
    Layout.parse({
      id: 'layout_long-buffet',
      siteId: 'site_test',
      roomId: 'room_long',
      name: 'long buffet',
      kind: 'meeting',
      seats,
      furnishings: [
        { furnishingId: 'furnishing_round-table', count: 8 },
        { furnishingId: 'furnishing_chair', count: 110 },
      ],
      equipment: [],
    }),
  ],
})

const helps = (snapshot: SiteSnapshot, name = 'dinner') =>
  whatWouldHelp(snapshot, turnOf(snapshot, name), solve)
function helpOf(
  { items }: { readonly items: readonly Help[] },
  kind: HelpChange['kind'],
  isIt: (change: HelpChange) => boolean = () => true,
): Help {
  const found = items.find(({ change }) => change.kind === kind && isIt(change))
  if (!found) throw new Error(`no ${kind} among ${items.map(({ change }) => change.kind).join(', ')}`)
  return found
}
const withHands = (hands: number) => (change: HelpChange) => change.kind === 'hands' && change.hands === hands

/** A search by chance may find one plan a little better than another: so far apart they may be. */
const TOLERANCE_SECONDS = 120
function expectAsReally(help: Help, snapshot: SiteSnapshot, name = 'dinner') {
  if (help.readyAt === null) throw new Error('it is not ready')
  const apart = secondsBetween(soonestReally(snapshot, name), help.readyAt)
  expect(Math.abs(apart)).toBeLessThanOrEqual(TOLERANCE_SECONDS)
}

const putPieces = (before: SetupRows['furnishing'], after: SetupRows['furnishing']): SetupWrite => ({
  kind: 'furnishing',
  before,
  after,
  retire: false,
})
const added = (kind: 'shift', after: Shift): SetupWrite => ({ kind, before: null, after, retire: false })

describe('what would help a turn', () => {
  test('is ranked by what it gains, most first, and what gains nothing is last', () => {
    const { items, readyAt } = helps(aDay())
    const gains = items.map(({ secondsGained }) => secondsGained ?? Number.POSITIVE_INFINITY)
    expect(gains).toEqual(gains.toSorted((a, b) => b - a))
    expect(gains[0]).toBeGreaterThan(0)
    for (const item of items) {
      expect(item.readyAt).not.toBeNull()
      const sooner = secondsBetween(item.readyAt ?? dinner.doorsAt, readyAt ?? dinner.doorsAt)
      expect(item.secondsGained).toBe(Math.max(0, sooner))
      expect(item.slackSeconds).toBe(secondsBetween(item.readyAt ?? dinner.doorsAt, dinner.doorsAt))
    }
  })

  test('is the same each time, and each thing is looked for with the same effort', () => {
    const day = aDay()
    const once = helps(day)
    expect(helps(day)).toEqual(once)
    expect(once.work.workMost).toBe(60)
    expect(once.work.searches).toBeGreaterThan(6)
    expect(once.work.workDone).toBeLessThanOrEqual(60 * once.work.searches)
  })

  test('gains nothing by having looked again: as things are is never later than the stored plan', () => {
    const day = aDay()
    const { readyAt, plannedReadyAt } = helps(day)
    expect(plannedReadyAt).toBe(turnOf(day, 'dinner').plan?.readyAt)
    expect(readyAt).toBeLessThanOrEqual(plannedReadyAt ?? 0)
  })

  test('says what planning anew alone would bring, and only where it brings something', () => {
    const anew = (planned: string | null, ready: string | null) =>
      anewSentence(
        {
          plannedReadyAt: planned === null ? null : on5th(planned),
          readyAt: ready === null ? null : on5th(ready),
          doorsAt: on5th('18:30'),
        },
        ZONE,
      )
    expect(anew('18:22', '18:10')).toBe(
      'Planned anew, with nothing else changed: ready 12 min sooner, at 18:10. What is said to be gained comes on top.',
    )
    expect(anew(null, '18:10')).toBe('Planned anew, with nothing else changed: ready at 18:10.')
    expect([anew('18:10', '18:10'), anew('18:10', null), anew(null, null)]).toEqual([null, null, null])
  })

  test('is never later for what is only more, however little a search finds', () => {
    const day = aDay()
    const { readyAt, items } = whatWouldHelp(day, turnOf(day, 'dinner'), (instance, options) => ({
      ...solve(instance, options),
      schedule: null,
    }))
    expect(readyAt).toBe(turnOf(day, 'dinner').plan?.readyAt)
    const more = ['hands', 'thing', 'skill', 'staged-at-door', 'own-strike', 'without-optional']
    for (const { change, readyAt: with_ } of items)
      expect([change.kind, with_]).toEqual([change.kind, more.includes(change.kind) ? readyAt : null])
    expect(items.map(({ change }) => change.kind)).toContain('thing')
  })

  test('one and two more pairs of hands gain what a shift of as many would', () => {
    const day = aDay()
    const answer = helps(day)
    for (const hands of [1, 2]) {
      const help = helpOf(answer, 'hands', withHands(hands))
      const shift = Shift.parse({
        ...duty('more', hands, '06:00', '23:00'),
        siteId: 'site_test',
      })
      expectAsReally(help, decided(day, setUp(added('shift', shift))).snapshot)
      expect(help.secondsGained).toBeGreaterThan(0)
    }
    const [one, two] = [1, 2].map((hands) => helpOf(answer, 'hands', withHands(hands)).secondsGained ?? 0)
    expect(two).toBeGreaterThanOrEqual(one ?? 0)
  })

  test('a turn that only those can do who come after doors is late as it is, and hands before doors gain all of that', () => {
    const shifts = [duty('dawn', 2, '06:00', '08:00'), duty('crew', 4, '12:00', '23:00')]
    const day = aDay(aCrew({ shifts, policy }))
    const [crew] = day.shifts.filter(({ id }) => id === 'shift_crew')
    if (!crew) throw new Error('there is a crew')
    const times = { kind: 'once', startsAt: on5th('14:00'), endsAt: on5th('23:00') } as const
    const write: SetupWrite = { kind: 'shift', before: crew, after: { ...crew, times }, retire: false }
    const late = decided(day, setUp(write)).snapshot
    expect(turnOf(late, 'dinner').status).toBe('failing')
    const answer = helps(late)
    expect(answer.readyAt).toBeGreaterThan(on5th('14:00'))
    const two = helpOf(answer, 'hands', withHands(2))
    expect(two.readyAt).toBeLessThan(on5th('14:00'))
    expect(two.secondsGained).toBe(
      secondsBetween(two.readyAt ?? on5th('14:00'), answer.readyAt ?? on5th('14:00')),
    )
  })

  test('one more trolley gains what buying it would; with one for everything it is worth something', () => {
    const hall = aCrew({ hands: 8, policy })
    const few = {
      ...hall,
      furnishings: hall.furnishings.map((one) =>
        one.trolley === null ? one : { ...one, trolley: { ...one.trolley, countOwned: 1 } },
      ),
    }
    const day = aDay(few)
    const help = helpOf(
      helps(day),
      'thing',
      (change) => change.kind === 'thing' && change.resource === 'trolley:furnishing_chair',
    )
    const chair = day.furnishings.find(({ id }) => id === 'furnishing_chair')
    if (!chair?.trolley) throw new Error('chairs go by trolley')
    const two = { ...chair, trolley: { ...chair.trolley, countOwned: 2 } }
    expectAsReally(help, decided(day, setUp(putPieces(chair, two))).snapshot)
    expect(help.secondsGained).toBeGreaterThan(0)
    expect(help.sentence).toMatch(/^One more trolley for chairs: ready \d+ min sooner, at 1\d:\d\d\.$/)
  })

  test('one more tool gains what buying it would; one of which there are enough is not named', () => {
    const mop = (countOwned: number) => ({
      id: 'tool_dust-mop',
      name: 'dust mop',
      namePlural: 'dust mops',
      cleaningMethods: ['dust-mop'],
      countOwned,
    })
    const day = aDay(aCrew({ hands: 6, policy, tools: [mop(1)] }))
    const help = helpOf(
      helps(day),
      'thing',
      (change) => change.kind === 'thing' && change.resource === 'tool:tool_dust-mop',
    )
    const [tool] = day.tools
    if (!tool) throw new Error('there is a mop')
    const after = { ...tool, countOwned: 2 }
    const write: SetupWrite = { kind: 'tool', before: tool, after, retire: false }
    expectAsReally(help, decided(day, setUp(write)).snapshot)
    const plenty = helps(aDay(aCrew({ hands: 6, policy, tools: [mop(50)] })))
    expect(plenty.items.map(({ change }) => change)).not.toContainEqual({
      kind: 'thing',
      resource: 'tool:tool_dust-mop',
    })
  })

  test('a skill in one more person makes possible what nobody on duty may do, and says so', () => {
    const person = (id: string, skills: string[]) =>
      Person.parse({ id: `person_${id}`, siteId: 'site_test', adult: true, skills })
    const people = [person('ada', []), person('ben', [])]
    const shifts = people.map(({ id }) => ({
      id: `shift_${id.slice(7)}`,
      name: id,
      crew: { kind: 'person', personId: id },
      times: { kind: 'once', startsAt: on5th('06:00'), endsAt: on5th('23:00') },
    }))
    const hall = withBuffet(aCrew({ soundSkill: 'sound', people, shifts, policy }))
    const noon = aUse('noon', 'long-banquet', '18:00', '20:00', { headcount: 100 })
    const { decision } = decided(withBookings(hall, games), {
      kind: 'book',
      booking: { ...noon, riskAccepted: null },
    })
    expect(decision.reasons.map(({ code }) => code)).toContain('skill-missing')
    // As a shift that is gone since leaves it: booked while somebody had the skill.
    const able = { ...hall, people: [person('ada', ['sound']), person('ben', [])] }
    const booked = withBookings(able, games, noon)
    const [ada] = booked.people
    if (!ada) throw new Error('ada is there')
    const write: SetupWrite = { kind: 'person', before: ada, after: { ...ada, skills: [] }, retire: false }
    const without = decided(booked, setUp(write)).snapshot
    const { items, readyAt } = helps(without, 'noon')
    expect(readyAt).toBeNull()
    const help = helpOf({ items }, 'skill')
    expect(help.change).toEqual({ kind: 'skill', skill: 'sound', laneId: 'person_ada' })
    expect(help.secondsGained).toBeNull()
    expect(help.sentence).toMatch(
      /^The skill sound in one more of the crew: ready at 1\d:\d\d; without it, not at all\.$/,
    )
    expectAsReally(help, booked, 'noon')
    // So would a layout without the sound desk: what makes it possible comes first, the soonest before the others.
    const possible = items.slice(0, 2).map(({ change }) => change.kind)
    expect(possible).toEqual(['other-layout', 'skill'])
    const hands = helpOf({ items }, 'hands', withHands(2))
    expect(hands.sentence).toBe('Two more pairs of hands: not ready even so.')
  })

  test('pieces staged at the door gain what keeping them in a store right there would', () => {
    const day = aDay()
    const help = helpOf(helps(day), 'staged-at-door')
    const staged = ['furnishing_chair', 'furnishing_cloth', 'furnishing_round-table']
    expect(help.change).toEqual({ kind: 'staged-at-door', furnishingIds: staged })
    const store = StoragePlace.parse({
      id: 'storage_door',
      siteId: 'site_test',
      name: 'Door store',
      routes: [{ roomId: 'room_long', distanceMetres: 0 }],
    })
    const moved = day.furnishings
      .filter(({ id }) => staged.includes(id))
      .map((one) => putPieces(one, { ...one, storagePlaceId: store.id }))
    const write: SetupWrite = { kind: 'storagePlace', before: null, after: store, retire: false }
    expectAsReally(help, decided(day, setUp(write, ...moved)).snapshot)
    expect(help.secondsGained).toBeGreaterThan(0)
    expect(help.sentence).toMatch(/^Chairs, cloths and round tables staged at the door beforehand: ready /)
  })

  test('the group that strikes its own chairs gains what it would if it had promised to', () => {
    const worship = aUse('worship', 'long-worship', '08:00', '12:00', { headcount: 120 })
    const evening = aUse('evening', 'long-games', '13:30', '15:00')
    const day = withBookings(aCrew({ hands: 3, policy }), worship, evening)
    const help = helpOf(helps(day, 'evening'), 'own-strike')
    expect(help.change).toEqual({
      kind: 'own-strike',
      bookingIds: ['booking_worship'],
      hands: 10,
      seconds: 1200,
    })
    const promised = changed({ ...worship, ownHelp: { hands: 10, seconds: 1200 } })
    const really = decided(day, promised).snapshot
    expectAsReally(help, really, 'evening')
    expect(help.secondsGained).toBeGreaterThan(0)
    // Who helps already is not asked again.
    expect(helps(really, 'evening').items.map(({ change }) => change.kind)).not.toContain('own-strike')
  })

  test('another layout gains what asking for it would; one without the seats or the tables is not named', () => {
    const hall = aCrew({ hands: 4, policy })
    const day = aDay(withBuffet(hall))
    const help = helpOf(helps(day), 'other-layout')
    // Worship has the seats, and no tables to dine at.
    expect(help.change).toEqual({ kind: 'other-layout', layoutId: 'layout_long-buffet' })
    expectAsReally(
      help,
      decided(day, changed({ ...dinner, layoutId: LayoutId.parse('layout_long-buffet') })).snapshot,
    )
    expect(help.secondsGained).toBeGreaterThan(0)
    const kinds = (snapshot: SiteSnapshot) => helps(snapshot).items.map(({ change }) => change.kind)
    expect(kinds(aDay(hall))).not.toContain('other-layout')
    expect(kinds(aDay(withBuffet(hall, 99)))).not.toContain('other-layout')
  })

  test('parking is only named where the room says where, and where the next booking wants the pieces', () => {
    const worship = aUse('worship', 'long-worship', '17:00', '18:00')
    const later = aUse('later', 'long-banquet', '21:00', '22:30')
    const hall = aCrew({ hands: 4, policy })
    const withPlace = (areaSquareMetres: number) => ({
      ...hall,
      rooms: hall.rooms.map((room) =>
        room.id === 'room_long' ? { ...room, parking: [{ name: 'the foyer', areaSquareMetres }] } : room,
      ),
    })
    const kinds = (snapshot: SiteSnapshot) =>
      helps(snapshot, 'worship').items.map(({ change }) => change.kind)
    const day = withBookings(withPlace(80), games, dinner, worship, later)
    const help = helpOf(helps(day, 'worship'), 'parked')
    expect(help.change).toEqual({
      kind: 'parked',
      furnishingIds: ['furnishing_cloth', 'furnishing_round-table'],
    })
    expect(help.sentence).toMatch(/^Cloths and round tables parked \(the foyer\) instead of in the store: /)
    expect(help.secondsGained).toBeGreaterThan(0)
    expect(kinds(withBookings(hall, games, dinner, worship, later))).not.toContain('parked')
    expect(kinds(withBookings(withPlace(80), games, dinner, worship))).not.toContain('parked')
    expect(kinds(withBookings(withPlace(0.1), games, dinner, worship, later))).not.toContain('parked')
  })

  test('leaving out what is optional leaves the rest in the same order, and all of it', () => {
    const day = aDay()
    const input = turnInputOf(worldOf(day), dinner)
    const network = taskNetwork(input.network)
    const optional = network.tasks.filter((task) => task.optional === true)
    const rest = withoutTasks(network, new Set(optional.map(({ key }) => key)))
    const kept = network.tasks.filter(({ optional }) => optional !== true).map(({ key }) => key)
    expect(kept.length).toBeLessThan(network.tasks.length)
    expect(rest.tasks.map(({ key }) => key)).toEqual(kept)
    const before = ancestors(network.tasks)
    for (const [key, all] of ancestors(rest.tasks))
      expect([...all].sort()).toEqual([...(before.get(key) ?? [])].filter((one) => kept.includes(one)).sort())
    expect(helpOf(helps(day), 'without-optional').sentence).toMatch(
      /^Without emptying bins and marking out: ready \d+ min sooner, at 1\d:\d\d\.$/,
    )
  })
})

/** All that must be done before, near and far. */
function ancestors(
  tasks: readonly { readonly key: string; readonly after: readonly string[] }[],
): Map<string, Set<string>> {
  const all = new Map<string, Set<string>>()
  for (const { key, after } of tasks)
    all.set(key, new Set(after.flatMap((one) => [one, ...(all.get(one) ?? [])])))
  return all
}

describe('what something would gain, in words', () => {
  const doorsAt = on5th('18:20')
  const what = 'One more pair of hands'
  const said = (before: string | null, readyAt: string | null) =>
    helpSentence(
      {
        what,
        doorsAt,
        before: before === null ? null : on5th(before),
        readyAt: readyAt === null ? null : on5th(readyAt),
      },
      ZONE,
    )

  test('is the minutes between the times that are shown', () => {
    expect(said('18:22', '18:10')).toBe('One more pair of hands: ready 12 min sooner, at 18:10.')
    expect(said('18:22:30', '18:09:30')).toBe('One more pair of hands: ready 13 min sooner, at 18:10.')
    expect(said('18:10', '18:09:30')).toBe(
      'One more pair of hands: gains less than a minute, ready at 18:10.',
    )
  })

  test('says that nothing is gained, that it takes longer, or that it is not done at all', () => {
    expect(said('18:10', '18:10')).toBe('One more pair of hands: gains nothing, ready at 18:10.')
    expect(said('18:10', '18:12')).toBe('One more pair of hands: ready later, at 18:12.')
    expect(said(null, '18:12')).toBe('One more pair of hands: ready at 18:12; without it, not at all.')
    expect(said('18:10', null)).toBe('One more pair of hands: no plan was found.')
    expect(said(null, null)).toBe('One more pair of hands: not ready even so.')
  })

  test('names the day where it is another one', () => {
    const readyAt = at('2026-06-06T00:10')
    expect(helpSentence({ what, doorsAt: on5th('23:50'), before: null, readyAt }, ZONE)).toContain(
      'ready at Sat 6 Jun 00:10; ',
    )
  })
})
