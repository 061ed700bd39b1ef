import { describe, expect, test } from 'vitest'
import { CAUTION } from '../../src/api/caution.ts'
import { ActorId, SiteId, TurnId } from '../../src/domain/ids.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { aService, NOW, type Service } from './a-service.ts'
import { type ASite, aDinner, aGamesNight, aSite } from './a-site.ts'

/** Games on Friday, a dinner on Saturday. */
async function aWeekend(service: Service, site: ASite) {
  const games = (await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)).body.booking
  const dinner = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body.booking
  return { games, dinner }
}

interface StintShown {
  readonly text: string
  readonly zones: number[]
  readonly startsAt: string
  readonly endsAt: string
  readonly tasks: string[]
}

interface TaskShown {
  readonly key: string
  readonly hands: number
  readonly laneIds: string[]
  readonly who: string[]
  readonly startsAt: string
  readonly endsAt: string
}

describe('a turn', () => {
  test('is read whole: tasks by start with places, counts, hands and names, and the same by lane', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { dinner } = await aWeekend(service, site)
    const turn = (await service.get(`${site.path}/turns/${dinner.turnId}`).expect(200)).body
    expect(turn).toMatchObject({
      bookingId: dinner.id,
      fromLayoutIds: [site.gamesId],
      toLayoutId: site.banquetId,
      status: 'ready',
      verdict: 'fits',
      reasons: [],
      caution: CAUTION,
    })
    const tasks: TaskShown[] = turn.tasks
    expect(tasks.map(({ startsAt }) => startsAt)).toEqual(tasks.map(({ startsAt }) => startsAt).sort())
    expect(turn.startsAt).toBe(tasks[0]?.startsAt)
    for (const task of tasks) {
      expect(task.laneIds).toHaveLength(task.hands)
      expect(task.who).toHaveLength(task.hands)
      expect(task.who.every((who) => /^Crew hand [1-4]$/.test(who))).toBe(true)
    }
    for (const lane of turn.lanes) {
      expect(lane.label).toMatch(/^Crew hand [1-4]$/)
      expect(lane.tasks).toEqual(
        tasks.filter((task) => task.laneIds.includes(lane.laneId)).map(({ key }) => key),
      )
    }
    expect(turn.criticalTaskKeys.length).toBeGreaterThan(0)
    for (const key of turn.criticalTaskKeys) expect(tasks.map((task) => task.key)).toContain(key)
    expect(turn.lowerBoundSeconds).toBeLessThanOrEqual(turn.neededSeconds)
  })

  test('has for each pair of hands a few tasks, as they would stand on a card, each with all that belongs to it', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { dinner } = await aWeekend(service, site)
    const turn = (await service.get(`${site.path}/turns/${dinner.turnId}`).expect(200)).body
    const inPlan = new Map<string, TaskShown>(turn.tasks.map((one: TaskShown) => [one.key, one]))
    const page = (await service.get(`/turns/${dinner.turnId}?site=${site.siteId}`)).text
    const counts = turn.lanes.map(({ stints, tasks }: { stints: StintShown[]; tasks: string[] }) => {
      expect(stints.flatMap((stint) => stint.tasks)).toEqual(tasks)
      for (const stint of stints) {
        const own = stint.tasks.map((key) => inPlan.get(key)!)
        expect(stint.startsAt).toBe(own[0]!.startsAt)
        expect(stint.endsAt).toBe(own.at(-1)!.endsAt)
        const span = [stint.startsAt, stint.endsAt].map((moment) => moment.slice(11, 16)).join('–')
        expect(page).toContain(`<li>${span} <strong>${stint.text}</strong><ul>`)
      }
      for (const [at, stint] of stints.slice(1).entries()) expect(stint.text).not.toBe(stints[at]!.text)
      return stints.length
    })
    expect(turn.smoothness).toMatchObject({ stintsMost: Math.max(...counts), priceSeconds: null })
    expect(turn.smoothness.changes).toBe(counts.reduce((sum: number, count: number) => sum + count - 1, 0))
    expect(turn.smoothnessSentence).toBeNull()
    expect(page).not.toContain('easier to follow')
    const texts = turn.lanes.flatMap(({ stints }: { stints: StintShown[] }) => stints.map(({ text }) => text))
    expect(texts).toContainEqual(expect.stringMatching(/^Set .*, zones? [1-9]/))
  })

  test('says what it costs that its plan is easy to follow, once it was gone over, and its page says so too', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { dinner } = await aWeekend(service, site)
    const siteId = SiteId.parse(site.siteId)
    const turnIds = [TurnId.parse(dinner.turnId)]
    const polish = { siteId, operations: [{ kind: 'polish' as const, turnIds }], now: NOW }
    const answer = await inProcessDecider(service.store).decide(polish)
    if (answer.kind !== 'decided' || !answer.decision.changes) throw new Error('it was not gone over')
    await service.store.commit({
      siteId,
      planningVersionExpected: answer.planningVersion,
      actorId: ActorId.parse('actor_planner'),
      action: 'polish',
      reason: null,
      at: NOW,
      changes: answer.decision.changes,
    })
    const turn = (await service.get(`${site.path}/turns/${dinner.turnId}`).expect(200)).body
    const { priceSeconds, stintsMost } = turn.smoothness
    expect(priceSeconds).toBeGreaterThan(0)
    expect(priceSeconds).toBeLessThanOrEqual(120)
    const said = new RegExp(
      `^Ready .*later than the quickest plan found, to be easier to follow: nobody has more than ${stintsMost} tasks\\.$`,
    )
    expect(turn.smoothnessSentence).toMatch(said)
    const page = (await service.get(`/turns/${dinner.turnId}?site=${site.siteId}`)).text
    expect(page).toContain(`<p>${turn.smoothnessSentence}</p>`)
  })

  test('calls people by their name', async () => {
    const service = await aService()
    const site = await aSite(service, { hands: 0 })
    const shift = {
      name: 'Weekend',
      crew: { kind: 'person', personId: site.personId },
      times: { kind: 'once', startsAt: '2026-11-28T08:00', endsAt: '2026-11-28T16:30' },
    }
    await service.post(`${site.path}/shifts`, shift).expect(201)
    const three = { name: 'Helpers', crew: { kind: 'hands', hands: 3, adults: true }, times: shift.times }
    await service.post(`${site.path}/shifts`, three).expect(201)
    const dinner = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body.booking
    const turn = (await service.get(`${site.path}/turns/${dinner.turnId}`)).body
    const labels = turn.lanes.map(({ label }: { label: string }) => label)
    expect(labels).toContain('Ottoline Reed')
    expect(labels).toContain('Helpers hand 1')
  })

  test('says what each task of the chain that decides waits for, and where its minutes go, in one sentence', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { dinner } = await aWeekend(service, site)
    const turn = (await service.get(`${site.path}/turns/${dinner.turnId}`).expect(200)).body
    expect(turn).toMatchObject({ purpose: 'prepare', waysOut: [], warnedSince: null })
    const keys = turn.chain.map(({ taskKey }: { taskKey: string }) => taskKey)
    expect(keys).toEqual(turn.criticalTaskKeys)
    const inPlan = new Map<string, TaskShown>(turn.tasks.map((task: TaskShown) => [task.key, task]))
    for (const { binds } of turn.chain) {
      if ('taskKey' in binds && binds.taskKey !== null) expect(inPlan.has(binds.taskKey)).toBe(true)
    }
    const minutes =
      (Date.parse(inPlan.get(keys.at(-1))!.endsAt) - Date.parse(inPlan.get(keys[0])!.startsAt)) / 60_000
    const said = new RegExp(
      `^Ready at the end of a chain of ${keys.length} tasks.*: [0-9]+ of its ${Math.ceil(minutes)} min `,
    )
    expect(turn.criticalSentence).toMatch(said)
  })

  test('has what the event itself takes beside the list of work, and in the lanes of those who do it', async () => {
    const service = await aService()
    const site = await aSite(service)
    const ushers = {
      what: 'ushers',
      fromAt: '2026-11-28T16:15',
      toAt: '2026-11-28T20:30',
      hands: 2,
      skill: null,
    }
    const asked = { ...aDinner(site), crewDemands: [ushers] }
    const { booking } = (await service.post(`${site.path}/bookings`, asked).expect(201)).body
    const turn = (await service.get(`${site.path}/turns/${booking.turnId}`).expect(200)).body
    expect(turn.tasks.map(({ kind }: { kind: string }) => kind)).not.toContain('duty')
    expect(turn.eventTasks).toHaveLength(1)
    const [duty] = turn.eventTasks
    expect(duty).toMatchObject({
      key: 'duty/1',
      kind: 'duty',
      text: 'At the event in Long Hall: ushers.',
      startsAt: '2026-11-28T16:15:00-06:00',
      endsAt: '2026-11-28T20:30:00-06:00',
      hands: 2,
    })
    const busy = turn.lanes.filter(({ tasks }: { tasks: string[] }) => tasks.includes('duty/1'))
    expect(busy.map(({ laneId }: { laneId: string }) => laneId)).toEqual(duty.laneIds)
    expect(busy.map(({ label }: { label: string }) => label)).toEqual(duty.who)
    const page = (await service.get(`/turns/${booking.turnId}`).expect(200)).text
    expect(page).toContain('<li>Sat 28 Nov 16:15–20:30  At the event in Long Hall: ushers.</li>')
    expect(page.slice(page.indexOf('<tbody>'), page.indexOf('</tbody>'))).not.toContain('ushers')
  })

  test('calls those who help after their own event helpers, and those whom nobody has promised so', async () => {
    const service = await aService()
    const site = await aSite(service, { hands: 2 })
    await service.post(`${site.path}/policies`, { planningHands: 6 }).expect(201)
    const games = { ...aGamesNight(site), ownHelp: { hands: 4, seconds: 900 } }
    await service.post(`${site.path}/bookings`, games).expect(201)
    const soon = { ...aDinner(site), startsAt: '2026-11-27T22:35', endsAt: '2026-11-28T01:00' }
    const { booking, decision } = (await service.post(`${site.path}/bookings`, soon).expect(201)).body
    const { assumed } = decision.before.hands
    expect(assumed).toBeGreaterThan(0)
    const turn = (await service.get(`${site.path}/turns/${booking.turnId}`).expect(200)).body
    const labels = turn.lanes.map(({ label }: { label: string }) => label)
    expect(labels).toContain('helper 1 of Youth games night')
    expect(labels.filter((label: string) => label.startsWith('hand nobody has promised '))).toEqual(
      Array.from({ length: assumed }, (_, index) => `hand nobody has promised ${index + 1}`),
    )
    expect(turn.warnedSince).toBe('2026-11-23T09:00:00-06:00')
    const { reasons } = turn
    const hands = reasons.find(({ code }: { code: string }) => code === 'hands-assumed')
    expect(turn.waysOut).toEqual([
      expect.objectContaining({ kind: 'more-hands', hands: assumed, fromAt: hands.fromAt, toAt: hands.toAt }),
    ])
    const warnings = (await service.get(`${site.path}/warnings`).expect(200)).body.items
    expect(warnings).toHaveLength(1)
    expect(warnings[0]).toMatchObject({ kind: 'assumed', turnId: booking.turnId, message: hands.message })
  })

  test('is listed in brief with its status, by doors, within a span of time', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { games, dinner } = await aWeekend(service, site)
    const all = (await service.get(`${site.path}/turns`).expect(200)).body.items
    expect(all.map(({ turnId }: { turnId: string }) => turnId)).toEqual([games.turnId, dinner.turnId])
    expect(all[1]).toMatchObject({
      status: 'ready',
      purpose: 'prepare',
      verdict: 'fits',
      toLayoutId: site.banquetId,
    })
    expect(all[1]).not.toHaveProperty('tasks')
    const saturday = (await service.get(`${site.path}/turns?from=2026-11-28&to=2026-11-29`)).body.items
    expect(saturday.map(({ turnId }: { turnId: string }) => turnId)).toEqual([dinner.turnId])
  })
})

describe('a turn that is planned', () => {
  test('still starts from what stands there when something is booked days later', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { dinner } = await aWeekend(service, site)
    const brunch = { ...aDinner(site), startsAt: '2026-11-29T11:00', endsAt: '2026-11-29T12:00' }
    const { turnId } = (await service.post(`${site.path}/bookings`, brunch).expect(201)).body.booking
    const before = (await service.get(`${site.path}/turns/${turnId}`)).body
    expect(before.predecessorBookingIds).toEqual([dinner.id])
    const later = { ...aDinner(site), startsAt: '2026-12-01T13:00', endsAt: '2026-12-01T15:00' }
    await service.post(`${site.path}/bookings`, later).expect(201)
    expect((await service.get(`${site.path}/turns/${turnId}`)).body).toEqual(before)
  })
})

describe('a room’s timeline', () => {
  test('has bookings and gaps in order without holes, each gap with the verdict of its turn', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { games, dinner } = await aWeekend(service, site)
    const timeline = (await service.get(`${site.path}/rooms/${site.hallId}/timeline`).expect(200)).body
    expect(timeline).toMatchObject({
      roomId: site.hallId,
      fromAt: '2026-11-23T00:00:00-06:00',
      toAt: '2026-11-30T00:00:00-06:00',
    })
    const [first, friday, between, saturday, last, ...rest] = timeline.entries
    expect(first).toMatchObject({
      kind: 'gap',
      fromAt: timeline.fromAt,
      toAt: games.doorsAt,
      verdict: 'fits',
    })
    expect(friday).toEqual({ kind: 'booking', booking: games })
    expect(between).toMatchObject({
      kind: 'gap',
      fromAt: games.clearAt,
      toAt: dinner.doorsAt,
      verdict: 'fits',
    })
    expect(between.turn.turnId).toBe(dinner.turnId)
    expect(saturday).toEqual({ kind: 'booking', booking: dinner })
    expect(last).toEqual({
      kind: 'gap',
      fromAt: dinner.clearAt,
      toAt: timeline.toAt,
      verdict: null,
      turn: null,
      homeTurn: null,
      keptAsSet: false,
    })
    expect(rest).toEqual([])
  })

  test('shows what holds a part of its floor, and not what was cancelled', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { games, dinner } = await aWeekend(service, site)
    await service.delete(`${site.path}/bookings/${games.id}`).expect(200)
    const { entries } = (await service.get(`${site.path}/rooms/${site.southRoomId}/timeline`)).body
    const shown = entries.filter(({ kind }: { kind: string }) => kind === 'booking')
    expect(shown).toEqual([{ kind: 'booking', booking: dinner }])
    const upper = (await service.get(`${site.path}/rooms/${site.upperRoomId}/timeline`)).body
    expect(upper.entries).toHaveLength(1)
  })
})

describe('a gap', () => {
  const gapsOf = async (service: Service, site: ASite, query = '') => {
    const { entries } = (await service.get(`${site.path}/rooms/${site.hallId}/timeline${query}`).expect(200))
      .body
    return entries.filter(({ kind }: { kind: string }) => kind === 'gap')
  }

  test('may hold two turns: one puts the room back, one prepares what comes next', async () => {
    const service = await aService()
    const site = await aSite(service)
    const home = { homeLayoutId: site.gamesId }
    await service.patch(`${site.path}/rooms/${site.hallId}`, home).set('If-Match', '"1"').expect(200)
    await service.post(`${site.path}/policies`, { returnHomeAfterSeconds: 43_200 }).expect(201)
    const friday = { ...aDinner(site), startsAt: '2026-11-27T12:00', endsAt: '2026-11-27T14:00' }
    const first = (await service.post(`${site.path}/bookings`, friday).expect(201)).body.booking
    const { booking: second } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body
    const gaps = await gapsOf(service, site)
    expect(gaps).toHaveLength(3)
    expect(gaps[0]).toMatchObject({ homeTurn: null, turn: { turnId: first.turnId } })
    expect(gaps[1]).toMatchObject({
      keptAsSet: false,
      turn: { turnId: second.turnId, bookingId: second.id, toLayoutId: site.banquetId },
      homeTurn: { bookingId: first.id, toLayoutId: site.gamesId, releaseAt: first.clearAt },
    })
    expect(gaps[2]).toMatchObject({ turn: null, verdict: null, homeTurn: { bookingId: second.id } })
    const homeTurnId = gaps[1].homeTurn.turnId
    const turn = (await service.get(`${site.path}/turns/${homeTurnId}`).expect(200)).body
    expect(turn).toMatchObject({ purpose: 'return-home', bookingId: first.id, status: 'ready' })
    const inside = '?from=2026-11-27T16:00&to=2026-11-27T20:00'
    expect(await gapsOf(service, site, inside)).toMatchObject([
      { turn: null, homeTurn: { turnId: homeTurnId } },
    ])
    const { text } = await service.get('/').expect(200)
    expect(text).toContain(`href="/turns/${homeTurnId}?site=${site.siteId}"`)
    expect(text).toContain('<span>put back by 02:45</span>')
    expect((await service.get(`/turns/${homeTurnId}`).expect(200)).text).toContain(
      'Long Hall, put back after Harvest supper.',
    )
  })

  test('in which a room waits as it is set for the next of its link says so, wherever one looks from', async () => {
    const service = await aService()
    const site = await aSite(service)
    const rehearsal = { ...aDinner(site), startsAt: '2026-11-27T18:00', endsAt: '2026-11-27T19:00' }
    const first = (await service.post(`${site.path}/bookings`, rehearsal).expect(201)).body.booking
    const second = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body.booking
    const kept = async (query = '') =>
      (await gapsOf(service, site, query)).map(({ keptAsSet }: { keptAsSet: boolean }) => keptAsSet)
    expect(await kept()).toEqual([false, false, false])
    const link = { bookingIds: [first.id, second.id], keepAsSet: true }
    await service.post(`${site.path}/links`, link).expect(201)
    expect(await kept()).toEqual([false, true, false])
    expect(await kept('?from=2026-11-28&to=2026-11-29')).toEqual([true, false])
    expect(await kept('?from=2026-11-27&to=2026-11-28')).toEqual([false, true])
  })
})

describe('the watch list', () => {
  test('is empty while everything fits', async () => {
    const service = await aService()
    const site = await aSite(service)
    await aWeekend(service, site)
    expect((await service.get(`${site.path}/warnings`).expect(200)).body).toEqual({
      items: [],
      nextCursor: null,
      judgedThroughAt: null,
      staleCount: 0,
    })
  })

  test('has what a closure breaks, nearest doors first, with the reason in words; the closure stands', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { games, dinner } = await aWeekend(service, site)
    const closure = {
      sectionIds: [site.southId],
      fromAt: '2026-11-27T12:00',
      toAt: '2026-11-29T00:00',
      reason: 'Water on the floor',
    }
    const told = await service.post(`${site.path}/closures?dryRun=true`, closure).expect(200)
    expect(Object.keys(told.body)).toEqual(['decision'])
    expect((await service.get(`${site.path}/closures`)).body.items).toEqual([])
    const closed = await service.post(`${site.path}/closures`, closure).expect(201)
    // Nobody has its id before it is written.
    const untold = JSON.parse(
      JSON.stringify(told.body.decision, (key, value) => (key === 'closureId' ? closed.body.id : value)),
    )
    expect(closed.body.decision).toEqual(untold)
    expect(closed.body).toMatchObject({
      fromAt: '2026-11-27T12:00:00-06:00',
      reason: 'Water on the floor',
    })
    expect(closed.body.decision.verdict).toBe('does-not-fit')
    const { items } = (await service.get(`${site.path}/warnings`).expect(200)).body
    expect(items.map(({ bookingId }: { bookingId: string }) => bookingId)).toEqual([games.id, dinner.id])
    expect(items[0]).toMatchObject({
      kind: 'failing',
      purpose: 'prepare',
      turnId: games.turnId,
      title: games.title,
      roomId: site.hallId,
      doorsAt: games.doorsAt,
      since: '2026-11-23T09:00:00-06:00',
      holder: null,
    })
    expect(items[0].reasons[0]).toMatchObject({
      code: 'room-closed',
      why: 'Water on the floor',
      overridable: false,
    })
    expect(items[0].reasons[0].message).toContain('Water on the floor')
    const standing = (await service.get(`${site.path}/bookings/${games.id}/decision`)).body
    expect(standing.verdict).toBe('does-not-fit')
    expect(standing.reasons[0].code).toBe('room-closed')
    const timeline = (await service.get(`${site.path}/rooms/${site.hallId}/timeline`)).body
    const { version: _version, retiredAt: _retiredAt, decision: _decision, ...standingClosure } = closed.body
    expect(timeline.closures).toEqual([standingClosure])
    const refused = await service.post(`${site.path}/bookings`, {
      ...aDinner(site),
      startsAt: '2026-11-27T13:00',
      endsAt: '2026-11-27T14:00',
    })
    expect(refused.body.decision.reasons[0].code).toBe('room-closed')
  })
})
