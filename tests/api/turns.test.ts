import { describe, expect, test } from 'vitest'
import { CAUTION } from '../../src/api/caution.ts'
import { aService, type Service } from './a-service.ts'
import { type ASite, aDinner, aGamesNight, aSite } from './a-site.ts'

/** Games on Friday, a dinner on Saturday. */
async function aWeekend(service: Service, site: ASite) {
  const games = (await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)).body.booking
  const dinner = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body.booking
  return { games, dinner }
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

  test('is listed in brief with its status, by doors, within a span of time', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { games, dinner } = await aWeekend(service, site)
    const all = (await service.get(`${site.path}/turns`).expect(200)).body.items
    expect(all.map(({ turnId }: { turnId: string }) => turnId)).toEqual([games.turnId, dinner.turnId])
    expect(all[1]).toMatchObject({ status: 'ready', verdict: 'fits', toLayoutId: site.banquetId })
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

describe('the watch list', () => {
  test('is empty while everything fits', async () => {
    const service = await aService()
    const site = await aSite(service)
    await aWeekend(service, site)
    expect((await service.get(`${site.path}/warnings`).expect(200)).body).toEqual({
      items: [],
      nextCursor: null,
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
    const closed = await service.post(`${site.path}/closures`, closure).expect(201)
    expect(closed.body.closure).toMatchObject({
      fromAt: '2026-11-27T12:00:00-06:00',
      reason: 'Water on the floor',
    })
    expect(closed.body.decision.verdict).toBe('does-not-fit')
    const { items } = (await service.get(`${site.path}/warnings`).expect(200)).body
    expect(items.map(({ booking }: { booking: { id: string } }) => booking.id)).toEqual([games.id, dinner.id])
    expect(items[0].turn.verdict).toBe('does-not-fit')
    expect(items[0].booking).toEqual({
      id: games.id,
      title: games.title,
      roomId: site.hallId,
      doorsAt: games.doorsAt,
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
    const { version: _version, retiredAt: _retiredAt, ...standingClosure } = closed.body.closure
    expect(timeline.closures).toEqual([standingClosure])
    const refused = await service.post(`${site.path}/bookings`, {
      ...aDinner(site),
      startsAt: '2026-11-27T13:00',
      endsAt: '2026-11-27T14:00',
    })
    expect(refused.body.decision.reasons[0].code).toBe('room-closed')
  })
})
