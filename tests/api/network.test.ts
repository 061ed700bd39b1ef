/** What would it take: a list of work without any booking, and how its minutes come about. */
import { describe, expect, test } from 'vitest'
import { aService } from './a-service.ts'
import { aDinner, aGamesNight, aSite } from './a-site.ts'

interface TaskShown {
  readonly key: string
  readonly kind: string
  readonly count: number | null
  readonly workPersonSeconds: number
  readonly reckoning: {
    readonly sentence: string
    readonly terms: {
      readonly personSeconds: number
      readonly atPace: boolean
      readonly times: NumberShown[]
    }[]
    readonly paceFactor: NumberShown | null
    readonly allowanceShare: NumberShown | null
  } | null
}
interface NumberShown {
  readonly value: number
  readonly origin: string
  readonly source: string
  readonly ratePath: string | null
}

describe('what it would take to turn a room', () => {
  test('is told from one layout to another: the tasks, the work, and the time by hands', async () => {
    const service = await aService()
    const site = await aSite(service)
    const before = await service.traces(site.siteId)
    const { body } = await service
      .post(`${site.path}/network`, {
        roomId: site.hallId,
        from: { kind: 'layout', layoutId: site.gamesId },
        toLayoutId: site.banquetId,
        outgoing: { headcount: 60 },
        hands: [6, 1, 4, 2],
      })
      .expect(200)
    const tasks: TaskShown[] = body.tasks
    expect(tasks.map(({ kind }) => kind)).toEqual(
      expect.arrayContaining(['briefing', 'walkthrough', 'clean', 'set', 'sign-off']),
    )
    expect(body.workPersonSeconds).toBe(tasks.reduce((sum, task) => sum + task.workPersonSeconds, 0))
    expect(body.byHands.map(({ hands }: { hands: number }) => hands)).toEqual([1, 2, 4, 6])
    // A round table takes two; with more hands it is never later.
    const [alone, ...seconds]: (number | null)[] = body.byHands.map(
      (one: { readyAfterSeconds: number | null }) => one.readyAfterSeconds,
    )
    expect(alone).toBeNull()
    expect(seconds).toEqual([...seconds].sort((a, b) => Number(b) - Number(a)))
    expect(body.caution).toContain('planning aids')
    expect(await service.traces(site.siteId)).toEqual(before)
  })

  test('says piece by piece from where to where, as far as layouts say where pieces stand', async () => {
    const service = await aService()
    const site = await aSite(service)
    const layoutWith = async (name: string, places: readonly (readonly [number, number])[]) => {
      const { body } = await service
        .post(`${site.path}/layouts`, {
          roomId: site.hallId,
          name,
          kind: 'meeting',
          seats: null,
          furnishings: [
            { furnishingId: site.chairId, count: places.length },
            { furnishingId: site.tableId, count: 2 },
          ],
          placements: places.map(([xMetres, yMetres]) => ({ furnishingId: site.chairId, xMetres, yMetres })),
        })
        .expect(201)
      return body.id
    }
    const before = await layoutWith('Left', [
      [1, 1],
      [2, 1],
      [5, 5],
    ])
    const after = await layoutWith('Right', [
      [5, 5],
      [2, 4],
    ])
    const { body } = await service
      .post(`${site.path}/network`, {
        roomId: site.hallId,
        from: { kind: 'layout', layoutId: before },
        toLayoutId: after,
      })
      .expect(200)
    const place = (xMetres: number, yMetres: number) => ({
      kind: 'place',
      xMetres,
      yMetres,
      rotationDegrees: 0,
    })
    expect(body.moves).toEqual([
      {
        furnishingId: site.chairId,
        from: place(2, 1),
        to: place(2, 4),
        parkedAt: 'the side of the room',
        metres: 3,
      },
      {
        furnishingId: site.chairId,
        from: place(1, 1),
        to: { kind: 'store', storagePlaceId: expect.stringMatching(/^storage_/) },
        parkedAt: null,
        metres: expect.any(Number),
      },
    ])
  })

  test('starts from what really stands, when that is said', async () => {
    const service = await aService()
    const site = await aSite(service)
    const banquet = (await service.get(`${site.path}/layouts/${site.banquetId}`).expect(200)).body
    const ask = (pieces: unknown) =>
      service
        .post(`${site.path}/network`, {
          roomId: site.hallId,
          from: { kind: 'pieces', pieces, standsLike: 'banquet' },
          toLayoutId: site.banquetId,
        })
        .expect(200)
    const nearly = (await ask(banquet.furnishings)).body
    const bare = (await ask([])).body
    expect(nearly.workPersonSeconds).toBeLessThan(bare.workPersonSeconds / 2)
  })

  test('each number says whether it is a default, set or learned, and where it comes from; it adds up', async () => {
    const service = await aService()
    const site = await aSite(service)
    await service
      .post(`${site.path}/rate-sets`, {
        name: 'Our stopwatch',
        rates: { fromTrolley: { 'stacking-chair': { setPersonSeconds: 7 } } },
        source: 'five evenings in May',
      })
      .expect(201)
    const { body } = await service
      .post(`${site.path}/network`, {
        roomId: site.hallId,
        from: { kind: 'bare-floor' },
        toLayoutId: site.banquetId,
      })
      .expect(200)
    const tasks: TaskShown[] = body.tasks
    const numbers = tasks.flatMap(({ reckoning }) => reckoning?.terms.flatMap(({ times }) => times) ?? [])
    expect(
      numbers.find(({ ratePath }) => ratePath === 'fromTrolley.stacking-chair.setPersonSeconds'),
    ).toMatchObject({
      value: 7,
      origin: 'set',
      source: 'five evenings in May',
    })
    expect(numbers.find(({ ratePath }) => ratePath === 'trolleyHandlingSeconds')?.origin).toBe('default')
    for (const { source } of numbers) expect(source.length).toBeGreaterThan(0)
    for (const { reckoning, workPersonSeconds } of tasks) {
      const sum = (atPace: boolean) =>
        reckoning!.terms
          .filter((term) => term.atPace === atPace)
          .reduce((total, { personSeconds }) => total + personSeconds, 0)
      const factor = (reckoning!.paceFactor?.value ?? 1) * (1 + (reckoning!.allowanceShare?.value ?? 0))
      expect(Math.abs(sum(true) * factor + sum(false) - workPersonSeconds)).toBeLessThanOrEqual(1)
    }
  })

  test('is refused with what is wrong, and where', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { body } = await service
      .post(`${site.path}/network`, {
        roomId: site.hallId,
        from: { kind: 'layout', layoutId: 'layout_nowhere' },
        toLayoutId: site.banquetId,
      })
      .expect(422)
    expect(body.errors).toEqual([
      { at: '/from/layoutId', in: 'body', message: 'there is no layout layout_nowhere in this site' },
    ])
  })
})

describe('the minutes of a turn that is booked', () => {
  test('are explained as long as the hall is as it was when the turn was judged', async () => {
    const service = await aService()
    const site = await aSite(service)
    await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)
    const dinner = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body.booking
    const turn = (await service.get(`${site.path}/turns/${dinner.turnId}`).expect(200)).body
    for (const task of turn.tasks as TaskShown[]) {
      expect(task.reckoning?.sentence.length, task.key).toBeGreaterThan(0)
    }
    const reached: { milestone: string; reachedAt: string }[] = turn.milestones
    expect(reached.map(({ milestone }) => milestone)).toContain('tables-up')
    for (const { reachedAt } of reached) {
      expect(Date.parse(reachedAt)).toBeGreaterThan(Date.parse(turn.startsAt))
      expect(Date.parse(reachedAt)).toBeLessThanOrEqual(Date.parse(turn.readyAt))
    }
  })
})

describe('advice on a layout', () => {
  test('covers occupancy, exits, access and lifting, each number with its source, under a caution', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { body } = await service
      .get(`${site.path}/layouts/${site.banquetId}/advice?headcount=110`)
      .expect(200)
    const topics = new Set(body.items.map(({ topic }: { topic: string }) => topic))
    expect([...topics].sort()).toEqual(['access', 'aisles', 'exits', 'lifting', 'occupancy'])
    for (const item of body.items) {
      expect(item.source.length).toBeGreaterThan(0)
      expect(item.status.length).toBeGreaterThan(0)
    }
    expect(body.caution).toBe(
      'Planning aids only: the posted occupant limit, the local fire and building code and the fire marshal decide.',
    )
    // 2010 ADA Standards, 226.1: 5 % of the dining surfaces, rounded up; the layout seats 120.
    const dining = body.items.find(({ code }: { code: string }) => code === 'accessible-dining-places')
    expect(dining.required).toBe(6)
  })

  test('counts the chairs and the stage that stand in it, and the limit posted in the room', async () => {
    const service = await aService()
    const site = await aSite(service)
    const deck = {
      name: 'stage deck',
      namePlural: 'stage decks',
      kind: 'stage-deck',
      countOwned: 8,
      massKilograms: 55,
      storagePlaceId: site.storageId,
      method: 'carry',
      handsPerPiece: 2,
      trolley: null,
    }
    const furnishing = async (wishes: object) =>
      (await service.post(`${site.path}/furnishings`, { ...deck, ...wishes }).expect(201)).body.id
    const measured = await furnishing({ widthMetres: 2, depthMetres: 1 })
    const unmeasured = await furnishing({ name: 'old deck', namePlural: 'old decks' })
    const items = async (furnishings: object[], kind = 'meeting') => {
      const layout = await service
        .post(`${site.path}/layouts`, {
          roomId: site.hallId,
          name: `Of ${furnishings.length}`,
          kind,
          furnishings,
        })
        .expect(201)
      const { body } = await service.get(`${site.path}/layouts/${layout.body.id}/advice`).expect(200)
      await service.delete(`${site.path}/layouts/${layout.body.id}`)
      return (code: string) => body.items.find((item: { code: string }) => item.code === code)
    }
    // 214 m² at 15 ft² a person, 153; of chairs alone at 7 ft², 330.
    const chairs = await items([{ furnishingId: site.chairId, count: 40 }])
    expect(chairs('occupant-load').required).toBe(153)
    expect(chairs('exits-people').required).toBe(330)
    // The hall is posted for 220, more than it holds at tables.
    const tables = await items([{ furnishingId: site.tableId, count: 10 }])
    expect(tables('exits-people').text).toContain('220 people, the posted limit')
    // Four decks of 2 m²: 147 at tables on 206 m² and 5 on the stage.
    const ten = { furnishingId: site.tableId, count: 10 }
    const staged = await items([ten, { furnishingId: measured, count: 4 }])
    expect(staged('occupant-load')).toMatchObject({ required: 152 })
    expect(staged('occupant-load').text).toContain('5 people on a stage or platform')
    const unknown = await items([ten, { furnishingId: unmeasured, count: 4 }])
    expect(unknown('occupant-load').text).toContain('the stage, whose size is not known')
  })

  test('is only there for layouts in force', async () => {
    const service = await aService()
    const site = await aSite(service)
    await service.get(`${site.path}/layouts/layout_nowhere/advice`).expect(404)
  })
})
