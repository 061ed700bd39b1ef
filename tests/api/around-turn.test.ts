import { describe, expect, test } from 'vitest'
import { CAUTION } from '../../src/api/caution.ts'
import { Instant } from '../../src/domain/instant.ts'
import { DeciderBusy } from '../../src/worker/decider.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { aService, NOW, type Service } from './a-service.ts'
import { type ASite, aDinner, aGamesNight, aSite } from './a-site.ts'

async function aDinnerAfterGames(service: Service): Promise<{ site: ASite; path: string; turnId: string }> {
  const site = await aSite(service)
  await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)
  const { turnId } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body.booking
  return { site, path: `${site.path}/turns/${turnId}`, turnId }
}

interface Point {
  readonly hands: number
  readonly ofCrew: number
  readonly readyAt: string | null
}

describe('the curve of hands', () => {
  test('has a point for each number up to twelve, or as many as are asked for, in times of the site', async () => {
    const service = await aService()
    const { path, turnId } = await aDinnerAfterGames(service)
    const { body } = await service.get(`${path}/hands-curve`).expect(200)
    expect(body).toMatchObject({ turnId, crew: 4, caution: CAUTION })
    const points: Point[] = body.points
    expect(points.map(({ hands }) => hands)).toEqual(Array.from({ length: 12 }, (_, index) => index + 1))
    const moments = points.map(({ readyAt }) => (readyAt === null ? Number.MAX_VALUE : Date.parse(readyAt)))
    expect(moments).toEqual(moments.toSorted((a, b) => b - a))
    expect(points.at(-1)?.readyAt).toMatch(/-06:00$/)
    const few = await service.get(`${path}/hands-curve?hands=3`).expect(200)
    expect(few.body.points).toEqual(body.points.slice(0, 3))
    expect(few.body.work.searches).toBeGreaterThan(0)
  })

  test('is asked for other doors, by the clock of the site', async () => {
    const service = await aService()
    const { site, path } = await aDinnerAfterGames(service)
    const turn = (await service.get(path)).body
    const stored: { fewest: { atAll: { hands: number } }; points: Point[] } = (
      await service.get(`${path}/hands-curve`)
    ).body
    const second = stored.points.find(({ readyAt }) => readyAt !== null && readyAt < turn.readyAt)
    const doors = String(second?.readyAt).slice(0, 16)
    const sooner = await service.get(`${path}/hands-curve?doorsAt=${doors}`).expect(200)
    expect(sooner.body.doorsAt.slice(0, 16)).toBe(doors)
    expect(sooner.body.fewest.atAll.hands).toBeGreaterThanOrEqual(stored.fewest.atAll.hands)
    for (const [doorsAt, message] of [
      ['soon', 'expected a date and time such as 2026-11-28T17:00 or 2026-11-28T17:00:00-06:00'],
      ['2026-11-20T17:00', 'must be after the last of those before are out'],
      ['2026-12-20T17:00', 'must be within a day after doors of the turn: later is not looked at'],
    ] as const) {
      const refused = await service.get(`${path}/hands-curve?doorsAt=${doorsAt}`).expect(422)
      expect(refused.body.errors).toEqual([{ at: '/doorsAt', in: 'query', message }])
    }
    expect(site.siteId).toBeTruthy()
  })

  test('takes one to twenty hands, and nothing it does not know', async () => {
    const service = await aService()
    const { path } = await aDinnerAfterGames(service)
    for (const hands of ['0', '21', '4.5', 'many']) {
      const { body } = await service.get(`${path}/hands-curve?hands=${hands}`).expect(422)
      expect(body.errors[0]).toMatchObject({ at: '/hands', message: 'expected a whole number from 1 to 20' })
    }
    await service.get(`${path}/hands-curve?people=4`).expect(422)
  })
})

describe('what would help', () => {
  test('is a ranked list of sentences with what each gains; it writes nothing, and is the same again', async () => {
    const service = await aService()
    const { site, path } = await aDinnerAfterGames(service)
    const before = await service.traces(site.siteId)
    const { body } = await service.get(`${path}/what-would-help`).expect(200)
    expect(body.caution).toBe(CAUTION)
    const gains = body.items.map(({ secondsGained }: { secondsGained: number }) => secondsGained)
    expect(gains).toEqual(gains.toSorted((a: number, b: number) => b - a))
    const sentences: string[] = body.items.map(({ sentence }: { sentence: string }) => sentence)
    expect(sentences.some((one) => /^One more pair of hands: ready \d+ min sooner, at /.test(one))).toBe(true)
    expect((await service.get(`${path}/what-would-help`).expect(200)).body).toEqual(body)
    expect(await service.traces(site.siteId)).toEqual(before)
  })
})

describe('a question around a turn', () => {
  test('is one about a turn that is there', async () => {
    const service = await aService()
    const { site } = await aDinnerAfterGames(service)
    for (const question of ['hands-curve', 'what-would-help'])
      for (const id of ['turn_none', 'dinner'])
        expect((await service.get(`${site.path}/turns/${id}/${question}`).expect(404)).body.type).toBe(
          '/problems/unknown-resource',
        )
  })

  test('is not answered of one that is under way, given up or over', async () => {
    let now = NOW
    const service = await aService({ clock: () => now })
    const { site, path, turnId } = await aDinnerAfterGames(service)
    const turn = (await service.get(path)).body
    const typeOf = async () => (await service.get(`${path}/what-would-help`).expect(409)).body.type
    now = Instant.parse(Date.parse(turn.startsAt))
    expect(await typeOf()).toBe('/problems/turn-has-begun')
    expect((await service.get(`${path}/hands-curve`).expect(409)).body.type).toBe('/problems/turn-has-begun')
    expect((await service.get(`/turns/${turnId}`).expect(200)).text).not.toContain('What would help')
    now = Instant.parse(Date.parse(turn.dueAt))
    expect(await typeOf()).toBe('/problems/turn-is-over')
    now = NOW
    const booking = await service.get(`${site.path}/bookings/${turn.bookingId}`)
    await service
      .delete(`${site.path}/bookings/${turn.bookingId}`)
      .set('If-Match', String(booking.headers.etag))
      .expect(200)
    expect(await typeOf()).toBe('/problems/turn-is-over')
  })

  test('is shown on the page of the turn: the curve with doors, the table, and what would help', async () => {
    const service = await aService()
    const { path, turnId } = await aDinnerAfterGames(service)
    const curve = (await service.get(`${path}/hands-curve`)).body
    const help = (await service.get(`${path}/what-would-help`)).body
    const { text } = await service.get(`/turns/${turnId}`).expect(200)
    for (const sentence of curve.sentences) expect(text).toContain(sentence)
    expect(text).toContain('<line class="doors"')
    const possible = curve.points.filter(({ readyAt }: Point) => readyAt !== null)
    expect(text.match(/<circle /g)).toHaveLength(possible.length)
    expect(text.match(/<td>not possible<\/td>/g) ?? []).toHaveLength(12 - possible.length)
    for (const { sentence, secondsGained } of help.items)
      expect(text.includes(sentence), sentence).toBe(secondsGained !== 0)
  })

  test('leaves the page of the turn without it where too much is waiting to be decided', async () => {
    const service = await aService({
      decider: (store) => ({
        ...inProcessDecider(store),
        aroundTurn: () => Promise.reject(new DeciderBusy('busy')),
      }),
    })
    const { path, turnId } = await aDinnerAfterGames(service)
    const { text } = await service.get(`/turns/${turnId}`).expect(200)
    expect(text).toContain('Who does what')
    expect(text).not.toContain('What would help')
    await service.get(`${path}/what-would-help`).expect(503)
  })
})
