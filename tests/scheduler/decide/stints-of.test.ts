/** A plan as people see it: what is one task to them, what that is called, and what it costs. */
import { describe, expect, test } from 'vitest'
import { FurnishingId } from '../../../src/domain/ids.ts'
import { PlannedTask } from '../../../src/domain/plan.ts'
import {
  smoothnessOf,
  smoothnessSentence,
  stintsByLane,
  stintText,
} from '../../../src/scheduler/decide/index.ts'

const chairs = FurnishingId.parse('furnishing_chair')
const tables = FurnishingId.parse('furnishing_table')

const startAt = Date.parse('2026-05-05T08:00:00Z')

/** Ten minutes from so many minutes on, by people called by a letter. */
const planned = (
  minute: number,
  kind: PlannedTask['kind'],
  laneIds: string[],
  parts: object = {},
): PlannedTask =>
  PlannedTask.parse({
    key: `${kind}/${minute}/${laneIds.join('+')}`,
    kind,
    zone: null,
    text: 'Do it.',
    count: null,
    furnishingId: null,
    equipmentId: null,
    fromPlace: null,
    toPlace: null,
    workPersonSeconds: 600,
    modes: [{ hands: laneIds.length, seconds: 600 }],
    skill: null,
    adultsOnly: false,
    uses: [],
    after: [],
    safetyNotes: [],
    hands: laneIds.length,
    laneIds: laneIds.map((letter) => `person_${letter}`),
    startsAt: startAt + minute * 60_000,
    endsAt: startAt + (minute + 10) * 60_000,
    ...parts,
  })

const setting = (minute: number, furnishingId: FurnishingId, zone: number, laneIds: string[]) =>
  planned(minute, 'set', laneIds, { furnishingId, zone })

/** Each stint of a lane in words, with the minutes it takes. */
const inWords = (tasks: readonly PlannedTask[], lane: string) =>
  [...stintsByLane(tasks)]
    .filter(([laneId]) => laneId === `person_${lane}`)
    .flatMap(([, stints]) => stints)
    .map((stint) => {
      const pieces = stint.furnishingId && (stint.furnishingId === chairs ? 'chairs' : 'tables')
      return `${(stint.startsAt - startAt) / 60_000}–${(stint.endsAt - startAt) / 60_000} ${stintText(stint, pieces)}`
    })

describe('one task to a person', () => {
  test('is the same work on the same pieces, one thing after the other, in whichever zones', () => {
    const tasks = [
      setting(0, tables, 2, ['a']),
      setting(10, tables, 1, ['a']),
      setting(30, tables, 2, ['a']),
      setting(40, chairs, 2, ['a']),
      setting(50, tables, 3, ['a']),
    ]
    expect(inWords(tasks, 'a')).toEqual([
      '0–40 Set tables, zones 1 and 2',
      '40–50 Set chairs, zone 2',
      '50–60 Set tables, zone 3',
    ])
    expect(smoothnessOf(tasks, null)).toEqual({
      changes: 2,
      zoneChanges: 2,
      stintsMost: 3,
      partings: 0,
      priceSeconds: null,
    })
  })

  test('is briefing and walking through, and taking pieces away or putting them aside', () => {
    const tasks = [
      planned(0, 'briefing', ['a']),
      planned(10, 'walkthrough', ['a']),
      planned(20, 'park', ['a'], { furnishingId: chairs, zone: 1 }),
      planned(30, 'strike', ['a'], { furnishingId: chairs, zone: 2 }),
      planned(40, 'clean', ['a'], { zone: 1 }),
      planned(50, 'clean', ['a']),
    ]
    expect(inWords(tasks, 'a')).toEqual([
      '0–20 Brief everybody and walk through',
      '20–40 Put aside and take away chairs, zones 1 and 2',
      '40–60 Clean the floor, zone 1',
    ])
  })

  test('ends where somebody leaves off for more than half an hour, and goes on after that as the same task', () => {
    const nextDay = 8 * 60
    const tasks = [
      planned(0, 'clean', ['a'], { zone: 1 }),
      planned(40, 'clean', ['a'], { zone: 2 }),
      planned(81, 'clean', ['a'], { zone: 3 }),
      planned(nextDay, 'clean', ['a'], { zone: 3 }),
      planned(nextDay + 10, 'clean', ['a'], { zone: 4 }),
    ]
    expect(inWords(tasks, 'a')).toEqual([
      '0–50 Clean the floor, zones 1 and 2',
      '81–91 Go on: clean the floor, zone 3',
      '480–500 Go on: clean the floor, zones 3 and 4',
    ])
    expect([...stintsByLane(tasks)].map(([, stints]) => stints.map(({ goesOn }) => goesOn))).toEqual([
      [false, true, true],
    ])
    expect(smoothnessOf(tasks, null)).toMatchObject({ changes: 0, stintsMost: 1 })
  })

  test('is called by what is done: rows are lined up, what stands in front in a store is put aside and fetched back', () => {
    const rails = (minute: number, name: string, lane: string) =>
      planned(minute, 'restack', [lane], {
        key: `restack/storage_back-room/rail/${name}-1`,
        furnishingId: FurnishingId.parse('furnishing_table'),
      })
    const tasks = [
      planned(0, 'set', ['a'], { zone: 2 }),
      planned(10, 'set', ['a'], { zone: 3 }),
      rails(20, 'out', 'a'),
      planned(30, 'bins', ['a']),
      rails(40, 'just-struck-back', 'a'),
      rails(20, 'just-struck-out', 'b'),
      rails(40, 'back', 'b'),
    ].sort((one, other) => one.startsAt - other.startsAt)
    expect(inWords(tasks, 'a')).toEqual([
      '0–20 Line up rows, zones 2 and 3',
      '20–30 Put tables aside',
      '30–40 Empty bins',
      '40–50 Fetch tables back',
    ])
    expect(inWords(tasks, 'b')).toEqual(['20–50 Put tables aside and fetch them back'])
  })

  test('is each duty at the event by itself, called as it was asked for', () => {
    const tasks = [
      planned(0, 'duty', ['a'], { text: 'At the event: ushers.' }),
      planned(10, 'duty', ['a'], { text: 'At the event: desk.' }),
    ]
    expect(inWords(tasks, 'a')).toEqual(['0–10 At the event: ushers.', '10–20 At the event: desk.'])
  })
})

describe('how easily a plan is followed', () => {
  test('counts over all people how often they change their task, their zone and their company', () => {
    const tasks = [
      setting(0, tables, 1, ['a', 'b']),
      setting(0, chairs, 1, ['c', 'd']),
      // Both pairs go on in another zone, then a and b part, and c goes on with d.
      setting(10, tables, 2, ['a', 'b']),
      setting(10, chairs, 2, ['c', 'd']),
      planned(20, 'bins', ['a']),
      setting(20, tables, 2, ['b']),
      planned(20, 'sign-off', ['c', 'd']),
    ]
    expect(smoothnessOf(tasks, 90)).toEqual({
      changes: 3,
      zoneChanges: 4,
      stintsMost: 2,
      partings: 2,
      priceSeconds: 90,
    })
  })

  test('is nothing to count where nobody does anything', () => {
    const nothing = { changes: 0, zoneChanges: 0, stintsMost: 0, partings: 0, priceSeconds: 0 }
    expect(smoothnessOf([], 0)).toEqual(nothing)
    expect(smoothnessSentence(nothing)).toBeNull()
  })

  test('is said with what it costs, and only where that is known', () => {
    const said = (stintsMost: number, priceSeconds: number | null) =>
      smoothnessSentence({ changes: 9, zoneChanges: 4, stintsMost, partings: 1, priceSeconds })
    expect(said(6, 120)).toBe(
      'Ready 2 min later than the quickest plan found, to be easier to follow: nobody has more than 6 tasks.',
    )
    expect(said(1, 90)).toBe(
      'Ready 1 min 30 s later than the quickest plan found, to be easier to follow: nobody has more than 1 task.',
    )
    expect(said(5, 30)).toContain('Ready 30 s later')
    expect(said(5, 0)).toBe(
      'The plan is made to be easy to follow, which costs no time: nobody has more than 5 tasks.',
    )
    expect(said(7, 0)).toBe(
      'The plan is made to be easy to follow, which costs no time: nobody has more than 7 tasks.',
    )
    expect(said(5, null)).toBeNull()
  })

  test('is not said of a plan in which somebody has more than seven tasks', () => {
    const said = (priceSeconds: number) =>
      smoothnessSentence({ changes: 20, zoneChanges: 4, stintsMost: 12, partings: 1, priceSeconds })
    expect(said(0)).toBe(
      'Somebody has 12 tasks, which is much to keep in mind: no plan was found that is easier to follow and hardly later. This one is ready no later than the quickest found.',
    )
    expect(said(90)).toBe(
      'Somebody has 12 tasks, which is much to keep in mind: no plan was found that is easier to follow and hardly later. This one is ready 1 min 30 s later than the quickest found.',
    )
  })
})
