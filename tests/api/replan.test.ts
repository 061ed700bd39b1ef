/** A turn of the demo that is part done is planned from now, over the real service. */
import { beforeAll, describe, expect, test } from 'vitest'
import { loadDemo } from '../../seed/load-demo.ts'
import { CAUTION } from '../../src/api/caution.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import type { Store } from '../../src/store/store.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { aService, NOW, type Service } from './a-service.ts'

const SITE = '/v1/sites/site_harrow-lane'

interface TaskShown {
  readonly key: string
  readonly kind: string
  readonly startsAt: string
  readonly endsAt: string
  readonly laneIds: string[]
  readonly who: string[]
  readonly running: boolean
}
interface DropShown {
  readonly taskKeys: string[]
  readonly savedSeconds: number
  readonly readyAt: string
  readonly sentence: string
}

// Loaded once: nothing below writes.
let demo: Store
beforeAll(async () => {
  demo = await openSqliteStore({ file: ':memory:' })
  await loadDemo(demo, inProcessDecider(demo), NOW)
  return () => demo.close()
})

/** The turn of Saturday's dinner, from games to 120 at tables; or one of Sunday, to another layout. */
async function aDinner(toLayout = 'layout_long-banquet') {
  const service = await aService({ store: () => demo })
  const list = (await service.get(`${SITE}/turns?from=2026-11-28&to=2026-11-30`).expect(200)).body.items
  const brief = list.find(({ toLayoutId }: { toLayoutId: string }) => toLayoutId === toLayout)
  const turn = (await service.get(`${SITE}/turns/${brief.turnId}`).expect(200)).body
  const tasks: TaskShown[] = turn.tasks
  const replan = (body: object) => service.post(`${SITE}/turns/${turn.id}/replan`, body)
  return { service, turn, tasks, replan }
}

/** What would be told then if all had gone as planned. */
function asPlanned(tasks: readonly TaskShown[], askedAt: string) {
  const now = Date.parse(askedAt)
  return {
    askedAt,
    done: tasks.filter(({ endsAt }) => Date.parse(endsAt) <= now).map(({ key }) => ({ taskKey: key })),
    running: tasks
      .filter(({ startsAt, endsAt }) => Date.parse(startsAt) <= now && now < Date.parse(endsAt))
      .map(({ key, endsAt }) => ({ taskKey: key, secondsLeft: (Date.parse(endsAt) - now) / 1000 })),
  }
}

const traces = (service: Service) => service.traces('site_harrow-lane')

describe('a turn that is part done', () => {
  test('is planned from then on: what is done is gone, what runs goes on, and it is ready as planned', async () => {
    const { service, turn, tasks, replan } = await aDinner()
    const before = await traces(service)
    const told = asPlanned(tasks, tasks[Math.floor(tasks.length / 2)]!.startsAt)
    expect(told.done.length).toBeGreaterThan(5)
    expect(told.running.length).toBeGreaterThan(0)
    const { body } = await replan(told).expect(200)
    expect(body).toMatchObject({
      turnId: turn.id,
      askedAt: told.askedAt,
      dueAt: turn.dueAt,
      readyAt: turn.readyAt,
      slackSeconds: turn.slackSeconds,
      way: 're-timed',
      changes: [],
      warnings: [],
      caution: CAUTION,
    })
    const left: TaskShown[] = body.tasks
    const done = new Set(told.done.map(({ taskKey }) => taskKey))
    expect(left.map(({ key }) => key).sort()).toEqual(
      tasks.flatMap(({ key }) => (done.has(key) ? [] : key)).sort(),
    )
    const isRunning = new Set(told.running.map(({ taskKey }) => taskKey))
    for (const task of left) {
      expect(task.running).toBe(isRunning.has(task.key))
      expect(task.who).toHaveLength(task.laneIds.length)
    }
    for (const lane of body.lanes) {
      expect(lane.tasks).toEqual(
        left.filter(({ laneIds }) => laneIds.includes(lane.laneId)).map(({ key }) => key),
      )
    }
    expect(await traces(service)).toEqual(before)
  })

  test('tells what can be left out and what that saves, most first, and never the sign-off', async () => {
    const { tasks, replan } = await aDinner('layout_long-overflow')
    const told = asPlanned(tasks, tasks[0]!.startsAt)
    const { body } = await replan(told).expect(200)
    const drops: DropShown[] = body.dropList.items
    expect(drops.length).toBeGreaterThan(1)
    const optional = new Set(drops.flatMap(({ taskKeys }) => taskKeys))
    for (const { key, kind } of tasks) {
      if (optional.has(key)) expect(['mark-out', 'bins', 'settings', 'set']).toContain(kind)
    }
    for (const { savedSeconds, readyAt, sentence } of [...drops, body.dropList.all]) {
      expect(Date.parse(readyAt)).toBe(Date.parse(body.readyAt) - savedSeconds * 1000)
      expect(sentence).toMatch(
        savedSeconds === 0
          ? /^Leave out .+: that saves no time now\.$/
          : /^Leave out .+: ready \d+ (min|s) sooner, at \d\d:\d\d\.$/,
      )
    }
    expect(body.dropList.all.taskKeys).toEqual([...optional].sort())
    expect(body.dropList.all.sentence).toMatch(/^Leave out all \d+ tasks that can be left out: /)
  })

  test('says who has other tasks when somebody goes home, with names, and who has come', async () => {
    const { tasks, replan } = await aDinner()
    const told = asPlanned(tasks, tasks[Math.floor(tasks.length / 2)]!.startsAt)
    const running = new Set(told.running.map(({ taskKey }) => taskKey))
    const atWork = new Set(tasks.filter(({ key }) => running.has(key)).flatMap(({ laneIds }) => laneIds))
    const done = new Set(told.done.map(({ taskKey }) => taskKey))
    const left = tasks.filter(({ key }) => !done.has(key) && !running.has(key))
    const laneId = left.flatMap(({ laneIds }) => laneIds)[0]!
    const { body } = await replan({ ...told, missing: [{ laneId }], added: [{ skills: ['sound'] }] }).expect(
      200,
    )
    const gone = body.changes.find((one: { laneId: string }) => one.laneId === laneId)
    expect(gone.newTasks).toEqual([])
    expect(gone.goneTasks.length).toBe(left.filter(({ laneIds }) => laneIds.includes(laneId)).length)
    expect(gone.label).not.toBe('')
    for (const task of body.tasks.filter((one: TaskShown) => !one.running)) {
      expect(task.laneIds).not.toContain(laneId)
    }
    expect(body.tasks.flatMap(({ who }: TaskShown) => who)).toContain('hand who has come 1')
    expect(atWork.size).toBeGreaterThan(0)
  })

  test('is planned from what really stands, where that is told', async () => {
    const { tasks, replan } = await aDinner()
    const told = asPlanned(tasks, tasks[0]!.startsAt)
    const pieces = [{ furnishingId: 'furnishing_round-table', count: 15, inPlace: 15 }]
    const { body } = await replan({ ...told, stands: { pieces } }).expect(200)
    const kinds = new Set(body.tasks.map(({ kind }: TaskShown) => kind))
    expect(body.tasks.filter(({ key }: TaskShown) => key.includes('round-table'))).toEqual([])
    expect(kinds).toContain('sign-off')
    expect(Date.parse(body.readyAt)).toBeLessThan(Date.parse((await replan(told)).body.readyAt))
  })

  test('that has not begun is planned as it stands, now, with nothing told at all', async () => {
    const { turn, replan } = await aDinner()
    const { body } = await replan({}).expect(200)
    expect(body).toMatchObject({ way: 'as-planned', readyAt: turn.readyAt, changes: [] })
    expect(body.sentence).toMatch(/^Ready Fri 27 Nov \d\d:\d\d, .+ before it must be, Sat 28 Nov 16:30\.$/)
  })
})

describe('the document of the service', () => {
  test('has every member of the answer, and says what is told', async () => {
    const { service, replan } = await aDinner()
    const { body: document } = await service.get('/openapi.json').expect(200)
    const { post } = document.paths['/v1/sites/{site}/turns/{id}/replan']
    const answer = post.responses['200'].content['application/json'].schema
    const { body } = await replan({}).expect(200)
    expect(Object.keys(answer.properties).sort()).toEqual(Object.keys(body).sort())
    expect(Object.keys(answer.properties.tasks.items.properties)).toEqual(
      expect.arrayContaining(Object.keys(body.tasks[0])),
    )
    const asked = post.requestBody.content['application/json'].schema
    expect(Object.keys(asked.properties)).toEqual([
      'askedAt',
      'done',
      'running',
      'missing',
      'added',
      'stands',
    ])
    expect(asked.required ?? []).toEqual([])
  })
})

describe('what cannot be taken of a turn', () => {
  test('is told with its place', async () => {
    const { tasks, replan } = await aDinner()
    const key = tasks[0]!.key
    const { body } = await replan({
      done: [{ taskKey: key, doneAt: '2026-11-28T12:00' }, { taskKey: 'polish/the-bell' }],
      running: [{ taskKey: key, secondsLeft: 60 }],
    }).expect(422)
    expect(body.type).toBe('/problems/invalid-input')
    expect(body.errors).toEqual([
      { at: '/done/1/taskKey', in: 'body', message: 'the plan of this turn has no task polish/the-bell' },
      {
        at: '/running/0/taskKey',
        in: 'body',
        message: `task ${key} is told as done and as running; it is one or the other`,
      },
      {
        at: '/done',
        in: 'body',
        message: 'more than 48 h before those before are out nothing of it can be done or running',
      },
      {
        at: '/done/0/doneAt',
        in: 'body',
        message: 'nothing is done yet that is done later: it must not be after the moment asked about',
      },
    ])
  })

  test('is refused where a moment or a condition does not exist, or a field is misspelt', async () => {
    const { replan } = await aDinner()
    const moment = await replan({ askedAt: '2026-02-30T12:00' }).expect(422)
    expect(moment.body.errors[0].at).toBe('/askedAt')
    const equipment = [{ equipmentId: 'equipment_long-sound', setting: { kind: 'level', levelPercent: 3 } }]
    const device = await replan({ stands: { pieces: [], equipment } }).expect(422)
    expect(device.body.errors[0].at).toMatch(/^\/stands\/equipment\/0\//)
    const misspelt = await replan({ finished: [] }).expect(422)
    expect(misspelt.body.errors).toEqual([{ at: '/finished', in: 'body', message: 'no such field here' }])
  })

  test('is ready where everything is done, and unknown where there is no such turn', async () => {
    const { service, tasks, replan } = await aDinner()
    const askedAt = tasks
      .map(({ endsAt }) => endsAt)
      .sort()
      .at(-1)
    const { body } = await replan({ askedAt, done: tasks.map(({ key }) => ({ taskKey: key })) }).expect(200)
    expect(body).toMatchObject({ tasks: [], lanes: [], readyAt: askedAt, way: 'as-planned' })
    expect(body.sentence).toMatch(/^Everything of it is done\. Ready Fri 27 Nov /)
    await service.post(`${SITE}/turns/turn_nobody/replan`, {}).expect(404)
    await service.post(`${SITE}/turns/nonsense/replan`, {}).expect(404)
  })
})
