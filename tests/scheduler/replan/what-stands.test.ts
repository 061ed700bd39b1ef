/** What stands in the room is not what the plan takes it to be: 2 post pairs and 20 chairs go, 15 tables and 120 chairs come. */
import { describe, expect, test } from 'vitest'
import { FurnishingId } from '../../../src/domain/ids.ts'
import type { Plan } from '../../../src/domain/plan.ts'
import { StandsNow, type TurnProgress } from '../../../src/domain/turn-progress.ts'
import type { ReplannedTurn } from '../../../src/scheduler/replan/index.ts'
import { aDinnerPlanned, asPlanned } from './a-dinner-planned.ts'
import { evening, NOTHING_TOLD, replannedAt } from './a-part-done-turn.ts'

const dinner = aDinnerPlanned()
const startsAt = dinner.tasks[0]!.startsAt

/** The floor is clear and clean, and nothing is set yet: as if all that were done, whatever the plan had at once. */
const cleared: TurnProgress = {
  ...asPlanned([], 0),
  done: dinner.tasks
    .filter(({ kind }) => ['briefing', 'walkthrough', 'bins', 'park', 'strike', 'clean'].includes(kind))
    .map(({ key }) => ({ taskKey: key, doneAt: null })),
}
const whenCleared = 20 * 60_000

const seen = (pieces: Readonly<Record<string, number | [count: number, inPlace: number]>>) =>
  StandsNow.parse({
    pieces: Object.entries(pieces).map(([name, told]) => {
      const [count, inPlace] = typeof told === 'number' ? [told, null] : told
      return { furnishingId: FurnishingId.parse(`furnishing_${name}`), count, inPlace }
    }),
  })

const replanned = (progress: TurnProgress): ReplannedTurn => replannedAt(dinner, whenCleared, progress)

/** Pieces by what is done with them, `set chair: 120`. */
function pieces(plan: Plan | null): Record<string, number> {
  const counts: Record<string, number> = {}
  for (const { kind, furnishingId, count } of plan?.tasks ?? []) {
    if (furnishingId === null) continue
    const name = `${kind} ${furnishingId.replace('furnishing_', '')}`
    counts[name] = (counts[name] ?? 0) + (count ?? 0)
  }
  return counts
}

const kinds = (plan: Plan | null) => [...new Set(plan?.tasks.map(({ kind }) => kind))].sort()

describe('what really stands', () => {
  test('as the tasks done have left it comes to the same work: chairs that were put aside are only fetched', () => {
    const { plan } = replanned({ ...cleared, stands: seen({ chair: 20 }) })
    expect(pieces(plan)).toEqual({
      'set chair': 120,
      'set round-table': 15,
      'linen-on cloth': 15,
    })
    expect(pieces(replanned(cleared).plan)).toEqual({
      'set chair': 120,
      'set round-table': 15,
      'linen-on cloth': 15,
    })
  })

  test('as the tasks done have left it comes to the same work at every moment, task for task', () => {
    const standing: Record<string, number> = { 'post-pair': 2, chair: 20 }
    for (const minutes of [0, 10, 20, 30, 40, 50]) {
      const now = dinner.tasks[0]!.startsAt + minutes * 60_000
      const progress = asPlanned(dinner.tasks, now)
      const past = new Set([...progress.done, ...progress.running].map(({ taskKey }) => taskKey))
      const there = { ...standing }
      for (const { key, kind, furnishingId, count } of dinner.tasks) {
        if (furnishingId === null || !past.has(key)) continue
        const name = furnishingId.replace('furnishing_', '')
        const isFromStore = ['set', 'linen-on'].includes(kind) && !key.includes('/from-side-')
        const change = isFromStore ? 1 : kind === 'strike' ? -1 : 0
        there[name] = (there[name] ?? 0) + change * (count ?? 0)
      }
      const without = replannedAt(dinner, minutes * 60_000, progress)
      const told = replannedAt(dinner, minutes * 60_000, {
        ...progress,
        stands: seen(Object.fromEntries(Object.entries(there).filter(([, count]) => count > 0))),
      })
      expect(told.plan?.tasks, String(minutes)).toEqual(without.plan?.tasks)
    }
  })

  test('of one kind changes nothing of another that stands as planned: what is put aside already stays there', () => {
    const parks = dinner.tasks.filter(({ key }) => key.startsWith('park/furnishing_chair/'))
    expect(parks.length).toBeGreaterThan(1)
    const [first] = parks
    const before = dinner.tasks.filter(({ kind }) => kind === 'briefing' || kind === 'walkthrough')
    const progress = {
      ...NOTHING_TOLD,
      done: [...before, first!].map(({ key }) => ({ taskKey: key, doneAt: null })),
    }
    const without = replanned(progress).plan
    const told = replanned({ ...progress, stands: seen({ 'post-pair': 1, chair: 20 }) }).plan
    const chairs = (plan: Plan | null) =>
      plan?.tasks
        .filter(({ furnishingId }) => furnishingId === 'furnishing_chair')
        .map(({ key, count }) => `${key} ${count}`)
        .sort()
    expect(chairs(told)).toEqual(chairs(without))
    expect(pieces(told)['park chair']).toBe(20 - (first!.count ?? 0))
    expect(pieces(told)['strike post-pair']).toBe(1)
    // Nothing is set where posts still stand.
    const posts = told?.tasks.filter(({ furnishingId }) => furnishingId === 'furnishing_post-pair') ?? []
    const signOff = told?.tasks.find(({ kind }) => kind === 'sign-off')
    for (const { endsAt } of posts) expect(signOff?.startsAt).toBeGreaterThanOrEqual(endsAt)
  })

  test('of a kind that neither layout has is struck', () => {
    const hall = dinner.snapshot
    const stool = {
      ...hall.furnishings[0]!,
      id: FurnishingId.parse('furnishing_stool'),
      name: 'stool',
      namePlural: 'stools',
    }
    const part = { ...dinner, snapshot: { ...hall, furnishings: [...hall.furnishings, stool] } }
    const stands = seen({ stool: 3, chair: [20, 20] })
    const { plan } = replannedAt(part, whenCleared, { ...cleared, stands })
    expect(pieces(plan)['strike stool']).toBe(3)
  })

  test('in zones that are told, though such pieces usually stand together, is struck zone by zone', () => {
    const told = StandsNow.parse({
      pieces: [
        {
          furnishingId: 'furnishing_post-pair',
          count: 2,
          inPlace: 0,
          strayByZone: [
            { zone: 1, count: 1 },
            { zone: 3, count: 1 },
          ],
        },
      ],
    })
    const { plan } = replanned({ ...NOTHING_TOLD, stands: told })
    const posts = plan?.tasks.filter(({ furnishingId }) => furnishingId === 'furnishing_post-pair') ?? []
    expect(posts.map(({ kind, zone, count }) => [kind, zone, count])).toEqual([
      ['strike', 1, 1],
      ['strike', 3, 1],
    ])
  })

  test('is taken from the zones where the tasks left take it from and set it, or from those told', () => {
    const tables = dinner.tasks.filter(({ key }) => key.startsWith('set/furnishing_round-table/'))
    const inFirst = tables.filter(({ zone }) => zone === 1)
    const set = inFirst.reduce((sum, { count }) => sum + (count ?? 0), 0)
    expect(set).toBeGreaterThan(0)
    const done = [...cleared.done, ...inFirst.map(({ key }) => ({ taskKey: key, doneAt: null }))]
    // One table more than planned: all the others are set where the plan would, and none where they stand already.
    const pieces = seen({ 'round-table': set, chair: [19, 0] }).pieces
    const plan = replanned({ ...cleared, done, stands: { pieces, equipment: [] } }).plan
    const zones = (name: string, kind: string) =>
      new Set(
        plan?.tasks
          .filter((task) => task.kind === kind && task.furnishingId === name)
          .map(({ zone }) => zone),
      )
    expect([...zones('furnishing_round-table', 'set')].sort()).toEqual([2, 3])
    const stray = pieces.map((one) => ({
      ...one,
      strayByZone: one.count === 19 ? [{ zone: 3, count: 19 }] : null,
    }))
    const told = replanned({ ...NOTHING_TOLD, stands: { pieces: stray, equipment: [] } }).plan
    const from = told?.tasks.filter(
      ({ kind, furnishingId }) => kind === 'park' && furnishingId === 'furnishing_chair',
    )
    expect([...new Set(from?.map(({ zone }) => zone))]).toEqual([3])
  })

  test('where it is wanted is not set again, and the floor that is clean is not cleaned again', () => {
    const { plan, readyAt } = replanned({
      ...cleared,
      stands: seen({ 'round-table': [10, 10], chair: [20, 20] }),
    })
    expect(pieces(plan)).toEqual({ 'set chair': 100, 'set round-table': 5, 'linen-on cloth': 15 })
    expect(kinds(plan)).toEqual(['linen-on', 'mark-out', 'set', 'sign-off', 'switch'])
    expect(readyAt).toBeLessThan(replanned(cleared).readyAt ?? 0)
  })

  test('beside what was put aside is put out of the way with it', () => {
    const { plan } = replanned({ ...cleared, stands: seen({ chair: 26 }) })
    expect(pieces(plan)).toMatchObject({ 'park chair': 26, 'set chair': 120 })
  })

  test('and was to be gone has to go, though somebody ticked it off, under a key of its own', () => {
    const { plan } = replanned({ ...cleared, stands: seen({ 'post-pair': 1, chair: [20, 20] }) })
    expect(pieces(plan)['strike post-pair']).toBe(1)
    const again = plan?.tasks.filter(({ kind }) => kind === 'strike') ?? []
    expect(again.map(({ key }) => key)).toEqual([expect.stringMatching(/^again\//)])
    // What is set in the room waits for it.
    const waits = plan?.tasks.filter(({ after }) => after.includes(again[0]!.key)) ?? []
    expect(waits.length).toBeGreaterThan(0)
  })

  test('counts as in place as far as the tasks done have set it, where nobody says more', () => {
    const tables = dinner.tasks.filter(({ key }) => key.startsWith('set/furnishing_round-table/'))
    const [first] = tables
    const done = [...cleared.done, { taskKey: first!.key, doneAt: null }]
    const set = first!.count ?? 0
    const { plan } = replanned({
      ...cleared,
      done,
      stands: seen({ 'round-table': set + 2, chair: [20, 20] }),
    })
    // Two more stand about: they are put out of the way and set with the rest.
    expect(pieces(plan)['set round-table']).toBe(15 - set)
    expect(pieces(plan)['park round-table'] ?? pieces(plan)['strike round-table']).toBe(2)
  })

  test('with all of it in place leaves nothing but what is not about pieces', () => {
    const all = seen({ 'round-table': [15, 15], chair: [120, 120], cloth: [15, 15] })
    const { plan } = replanned({ ...cleared, stands: all })
    expect(pieces(plan)).toEqual({})
    expect(kinds(plan)).toEqual(['sign-off', 'switch'])
  })

  test('does not touch what is running: its pieces are counted where they go', () => {
    const [table] = dinner.tasks.filter(({ key }) => key.startsWith('set/furnishing_round-table/'))
    const running = [{ taskKey: table!.key, laneIds: null, secondsLeft: 60 }]
    const there = table!.count ?? 0
    const { plan } = replanned({
      ...cleared,
      running,
      stands: seen({ 'round-table': there, chair: [20, 20] }),
    })
    const now = startsAt + whenCleared
    const kept = plan?.tasks.find(({ key }) => key === table!.key)
    expect(kept).toMatchObject({ laneIds: table!.laneIds, startsAt: now, endsAt: now + 60_000 })
    expect(pieces(plan)['set round-table']).toBe(15)
    const signOff = plan?.tasks.find(({ kind }) => kind === 'sign-off')
    expect(signOff?.startsAt).toBeGreaterThanOrEqual(now + 60_000)
  })

  test('of a device sets it out from there', () => {
    const stands = { ...seen({ chair: [20, 20] }), equipment: [] }
    const speech = {
      ...StandsNow.parse({
        pieces: stands.pieces,
        equipment: [{ equipmentId: 'equipment_sound', setting: { kind: 'state', state: 'speech' } }],
      }),
    }
    expect(kinds(replanned({ ...cleared, stands }).plan)).toContain('switch')
    expect(kinds(replanned({ ...cleared, stands: speech }).plan)).not.toContain('switch')
  })

  test('is planned for the evening it is asked about', () => {
    const { plan } = replanned({ ...cleared, stands: seen({ chair: [20, 20] }) })
    for (const task of plan?.tasks ?? []) expect(task.startsAt).toBeGreaterThanOrEqual(evening('21:20'))
  })
})
