/** What the service does by itself between requests, on the real store and with the real decisions, at a clock of the test. */
import { describe, expect, onTestFinished, test } from 'vitest'
import { lapseExpired } from '../src/api/lapse-holds.ts'
import { SiteQueue } from '../src/api/site-queue.ts'
import { type Background, background } from '../src/background/background.ts'
import type { Changes } from '../src/domain/decision.ts'
import { ActorId, PolicyId, SiteId, TurnId } from '../src/domain/ids.ts'
import { Instant } from '../src/domain/instant.ts'
import type { Turn } from '../src/domain/turn.ts'
import { brokenInvariants } from '../src/scheduler/decide/index.ts'
import type { Store } from '../src/store/store.ts'
import type { DecideRequest, Decider } from '../src/worker/decider.ts'
import { inProcessDecider } from '../src/worker/in-process-decider.ts'
import { aService, NOW } from './api/a-service.ts'
import { type ASite, aDinner, aGamesNight, aSite, aWeeklyShift } from './api/a-site.ts'

const QUIET_SECONDS = 60
const somebody = ActorId.parse('actor_test')

interface Hall extends Awaited<ReturnType<typeof aService>> {
  readonly site: ASite
  readonly siteId: SiteId
  /** What was asked of the decider by the background, in order. */
  readonly asked: DecideRequest[]
  /** What went wrong in it. */
  readonly faults: unknown[]
  readonly now: () => Instant
  readonly pass: (seconds: number) => void
  /** The service starts anew: what it has seen since the last start is forgotten. */
  readonly start: (around?: (decider: Decider) => Pick<Decider, 'decide'>) => Background
  /** Written by somebody, as of the version that there is. */
  readonly commit: (changes: Partial<Changes>) => Promise<void>
  readonly turn: (turnId: string) => Promise<Turn>
  readonly book: (body: object) => Promise<Booked>
  readonly broken: () => Promise<string[]>
  readonly audit: () => ReturnType<typeof auditOf>
}

interface Booked {
  readonly id: string
  readonly turnId: string
  readonly doorsAt: string
}

const auditOf = async (store: Store, siteId: SiteId) =>
  (await store.audit(siteId, { limit: 1_000, after: null })).items

async function aHall(options: { hands?: number } = {}): Promise<Hall> {
  let at: number = NOW
  const now = () => Instant.parse(at)
  const service = await aService({ clock: now })
  const { store } = service
  const site = await aSite(service, options)
  const siteId = SiteId.parse(site.siteId)
  const decider = inProcessDecider(store)
  const asked: DecideRequest[] = []
  const faults: unknown[] = []
  const queue = new SiteQueue(64)
  const broken = async () => {
    const window = { fromAt: now(), toAt: Instant.parse(at + 200 * 86_400_000) }
    return brokenInvariants((await store.load(siteId, window, now()))!)
  }
  return {
    ...service,
    site,
    siteId,
    asked,
    faults,
    now,
    broken,
    pass: (seconds) => {
      at += seconds * 1_000
    },
    start(around = (inner) => inner) {
      const recording: Decider = {
        ...decider,
        decide: (request) => {
          asked.push(request)
          return decider.decide(request)
        },
      }
      const own = background({
        store,
        decider: around(recording),
        clock: now,
        inTurn: (id, work) => queue.run(id, work),
        lapse: (id) => lapseExpired({ store, decider, clock: now }, id),
        quietMilliseconds: QUIET_SECONDS * 1_000,
        onFault: (fault) => faults.push(fault),
      })
      onTestFinished(() => own.stop())
      return own
    },
    async commit(changes) {
      await store.commit({
        siteId,
        planningVersionExpected: await store.planningVersion(siteId),
        actorId: somebody,
        action: 'change',
        reason: null,
        at: now(),
        changes: { bookings: [], turns: [], setup: [], ...changes },
      })
    },
    turn: async (turnId) => (await store.turn(siteId, TurnId.parse(turnId)))!,
    book: async (body) => {
      const answer = await service.post(`${site.path}/bookings`, body)
      if (answer.status !== 201) throw new Error(answer.text)
      return answer.body.booking
    },
    audit: () => auditOf(store, siteId),
  }
}

/** Games on Friday, and a supper in the same room on Saturday. */
async function aWeekend(options: { hands?: number } = {}) {
  const hall = await aHall(options)
  const games = await hall.book(aGamesNight(hall.site))
  const supper = await hall.book(aDinner(hall.site))
  return { ...hall, games, supper }
}

/** So many services in the upper room, one a day. */
async function aDailyService(hall: Hall, days: number): Promise<Booked[]> {
  const booked: Booked[] = []
  for (let day = 1; day <= days; day += 1) {
    const date = new Date(NOW + day * 86_400_000).toISOString().slice(0, 10)
    const { upperRoomId: roomId, worshipId: layoutId } = hall.site
    const times = { startsAt: `${date}T18:00`, endsAt: `${date}T19:00` }
    booked.push(await hall.book({ title: `Service ${day}`, roomId, layoutId, headcount: 40, ...times }))
  }
  return booked
}

/** What cannot wait, and once nobody has written for a minute what is done at leisure. @returns how often it wrote then */
async function untilAtLeisure({ pass }: Hall, own: Background): Promise<number> {
  await own.untilIdle()
  pass(QUIET_SECONDS)
  return own.untilIdle()
}

const otherwiseJudged = (turn: Turn) => ({
  before: turn,
  after: { ...turn, inputHash: 'of another program' },
})
const kindsAsked = ({ asked }: Hall) => asked.map(({ operations: [first] }) => first?.kind)

describe('after a start', () => {
  test('nothing is written where every turn stands as it was judged and has been gone over', async () => {
    const hall = await aWeekend()
    expect(await untilAtLeisure(hall, hall.start())).toBeGreaterThan(0)
    const before = await hall.traces(hall.site.siteId)
    hall.asked.length = 0
    hall.pass(3_600)
    const own = hall.start()
    expect(await own.untilIdle()).toBe(0)
    expect(await untilAtLeisure(hall, own)).toBe(0)
    expect(await hall.traces(hall.site.siteId)).toEqual(before)
    // It has looked all the same.
    expect(kindsAsked(hall)).toEqual(['judge'])
    expect(hall.faults).toEqual([])
  })

  test('turns that an earlier program judged on other inputs are judged anew', async () => {
    const hall = await aWeekend()
    await hall.start().untilIdle()
    await hall.commit({ turns: [otherwiseJudged(await hall.turn(hall.supper.turnId))] })
    expect(await hall.broken()).toEqual([`${hall.supper.turnId} was judged on other inputs than it has`])
    expect(await hall.start().untilIdle()).toBeGreaterThan(0)
    expect(await hall.broken()).toEqual([])
    const judged = (await hall.audit()).filter(({ action }) => action === 'judge')
    expect(judged).toHaveLength(1)
    expect(judged[0]).toMatchObject({
      actorId: 'actor_planner',
      reason: 'after a start of the program',
      effects: [{ table: 'turn', id: hall.supper.turnId }],
    })
  })

  test('a turn that an earlier program left failing is warned of', async () => {
    const hall = await aWeekend()
    const closure = { sectionIds: [hall.site.southId], fromAt: '2026-11-28T12:00', toAt: '2026-11-29T00:00' }
    await hall.post(`${hall.site.path}/closures`, { ...closure, reason: 'Water' }).expect(201)
    const failing = await hall.turn(hall.supper.turnId)
    const unwarned = { ...failing, judgement: { ...failing.judgement, warnedSince: null } }
    await hall.commit({ turns: [{ before: failing, after: unwarned }] })
    expect(await hall.broken()).toEqual([`${failing.id} is in trouble and nobody is warned`])
    hall.pass(60)
    await hall.start().untilIdle()
    expect(await hall.broken()).toEqual([])
    const { status, judgement } = await hall.turn(failing.id)
    expect({ status, since: judgement.warnedSince }).toEqual({ status: 'failing', since: hall.now() })
  })
})

describe('after a change of the hall that many turns feel', () => {
  /** Emptying bins is work of every turn: none of the plans holds without it. */
  const noBins = { binsPerHundredGuests: 0 }
  const warningsOf = async ({ get, site }: Hall) =>
    (await get(`${site.path}/warnings?limit=200`).expect(200)).body

  test('the rest is looked at nearest doors first, until nothing is stale any more', async () => {
    const hall = await aHall()
    const booked = await aDailyService(hall, 60)
    const own = hall.start()
    await own.untilIdle()
    const added = await hall.post(`${hall.site.path}/policies`, noBins).expect(201)
    const policyId = added.headers.location?.split('/').at(-1)
    const { judgedThroughAt, staleCount, items } = await warningsOf(hall)
    expect(staleCount).toBeGreaterThan(20)
    const stale = booked.filter(({ doorsAt }) => doorsAt >= judgedThroughAt)
    expect(staleCount).toBe(stale.length)
    expect(items.map(({ kind }: { kind: string }) => kind)).toEqual(stale.map(() => 'stale'))
    expect(items.map(({ turnId }: { turnId: string }) => turnId)).toEqual(stale.map(({ turnId }) => turnId))
    expect(await hall.broken()).toEqual([])
    hall.asked.length = 0
    await own.untilIdle()
    expect(await warningsOf(hall)).toMatchObject({ judgedThroughAt: null, staleCount: 0, items: [] })
    expect(await hall.broken()).toEqual([])
    for (const { turnId } of booked) {
      const turn = await hall.turn(turnId)
      // Who has begun goes on as planned.
      if (turn.plan!.startsAt > hall.now()) expect(turn.judgement.policyId).toBe(policyId)
    }
    const judged = (await hall.audit()).filter(({ action }) => action === 'judge')
    expect(new Set(judged.map(({ reason }) => reason))).toEqual(new Set(['after a change of the hall']))
    expect(hall.faults).toEqual([])
  }, 60_000)

  test('some at a time: the first of them stand before the last are looked at', async () => {
    const hall = await aHall()
    const booked = await aDailyService(hall, 60)
    const own = hall.start()
    await own.untilIdle()
    const turns = await Promise.all(booked.map(({ turnId }) => hall.turn(turnId)))
    await hall.commit({ turns: turns.map(otherwiseJudged), judgedThroughAt: hall.now() })
    hall.asked.length = 0
    const staleCounts: number[] = []
    hall.store.onCommit(() => {
      void hall.store.judgedThroughAt(hall.siteId).then(async (at) => {
        staleCounts.push(at === null ? 0 : await hall.store.countTurnsDueFrom(hall.siteId, at))
      })
    })
    await own.untilIdle()
    const spans = hall.asked.flatMap(({ operations }) =>
      operations.flatMap((one) => (one.kind === 'judge' ? one.span : [])),
    )
    expect(spans).toHaveLength(2)
    expect(spans[0]!.toAt).toBeLessThanOrEqual(turns[50]!.dueAt)
    expect(spans[0]!.toAt).toBeGreaterThan(turns[49]!.dueAt)
    expect(spans[1]!.fromAt).toBeLessThan(turns[50]!.dueAt)
    expect(staleCounts.slice(0, 2)).toEqual([10, 0])
    expect(await hall.broken()).toEqual([])
  }, 60_000)

  test('a room that is put back by just then is looked at too', async () => {
    const hall = await aHall()
    const { site } = hall
    const home = { homeLayoutId: site.gamesId }
    await hall.patch(`${site.path}/rooms/${site.hallId}`, home).set('If-Match', '"1"').expect(200)
    await hall.post(`${site.path}/policies`, { returnHomeAfterSeconds: 43_200 }).expect(201)
    const supper = await hall.book(aDinner(site))
    const own = hall.start()
    await own.untilIdle()
    const homeTurn = await hall.turn(`${supper.turnId}-home`)
    await hall.commit({ turns: [otherwiseJudged(homeTurn)], judgedThroughAt: homeTurn.dueAt })
    await own.untilIdle()
    expect((await hall.turn(homeTurn.id)).inputHash).toBe(homeTurn.inputHash)
    expect(await hall.broken()).toEqual([])
  })

  test('so is one that is to be put back after the last booking of all', async () => {
    const hall = await aHall()
    const { site } = hall
    const home = { homeLayoutId: site.gamesId }
    await hall.patch(`${site.path}/rooms/${site.hallId}`, home).set('If-Match', '"1"').expect(200)
    const supper = await hall.book(aDinner(site))
    const before = (await hall.store.setup(hall.siteId))!.policy
    const after = { ...before, id: PolicyId.parse('policy_home'), returnHomeAfterSeconds: 43_200 }
    // Without being judged, as an earlier program might have written it.
    await hall.store.commit({
      siteId: hall.siteId,
      planningVersionExpected: null,
      actorId: somebody,
      action: 'add-policy',
      reason: null,
      at: hall.now(),
      setup: [
        { kind: 'policy', before, after: before, retire: true },
        { kind: 'policy', before: null, after, retire: false },
      ],
    })
    expect(await hall.broken()).toContain(`${supper.id} is not followed by its way home`)
    await hall.start().untilIdle()
    expect(await hall.turn(`${supper.turnId}-home`)).toMatchObject({
      purpose: 'return-home',
      status: 'ready',
    })
    expect(await hall.broken()).toEqual([])
  })

  test('what somebody changes while it is looked at is looked at as well, and nobody is told of a fault', async () => {
    const hall = await aWeekend()
    const own = hall.start(intruding)
    const turns = [await hall.turn(hall.games.turnId), await hall.turn(hall.supper.turnId)]
    let intrusions = 3
    function intruding(decider: Decider): Decider {
      return {
        ...decider,
        async decide(request) {
          const answer = await decider.decide(request)
          if (request.operations[0]?.kind !== 'judge' || intrusions === 0) return answer
          intrusions -= 1
          const [games] = turns
          const before = await hall.turn(games!.id)
          const after = { ...before, inputHash: `of a change ${intrusions}` }
          await hall.commit({ turns: [{ before, after }], judgedThroughAt: games!.dueAt })
          return answer
        },
      }
    }
    await hall.commit({ turns: [otherwiseJudged(turns[1]!)], judgedThroughAt: turns[1]!.dueAt })
    await own.untilIdle()
    expect(intrusions).toBe(0)
    expect(await hall.store.judgedThroughAt(hall.siteId)).toBeNull()
    expect(await hall.broken()).toEqual([])
    expect(hall.faults).toEqual([])
  })
})

describe('plans are gone over at leisure', () => {
  /** How often somebody goes on to another task: other work, or the same on other pieces. */
  function changesIn({ plan }: Turn): number {
    const tasks = plan?.tasks ?? []
    const workOf = ({ kind, furnishingId }: (typeof tasks)[number]) => {
      if (kind === 'briefing' || kind === 'walkthrough') return 'opening'
      if (kind === 'strike' || kind === 'park') return `away ${furnishingId}`
      return kind === 'set' || kind === 'restack' ? `${kind} ${furnishingId}` : kind
    }
    const laneIds = new Set(tasks.flatMap((task) => task.laneIds))
    return [...laneIds].reduce((sum, laneId) => {
      const own = tasks.filter((task) => task.laneIds.includes(laneId))
      const isChange = own.map((task, index) => {
        const before = own[index - 1]
        return before !== undefined && workOf(before) !== workOf(task)
      })
      return sum + isChange.filter(Boolean).length
    }, 0)
  }

  test('each is easier to follow or sooner, never much later, but for those that have begun; then nothing is left to do', async () => {
    const hall = await aWeekend()
    await aDailyService(hall, 3)
    const turnsOf = async () => {
      const { items } = await hall.store.turns(
        hall.siteId,
        { fromAt: hall.now(), toAt: Instant.parse(hall.now() + 20 * 86_400_000) },
        { limit: 100, after: null },
      )
      return items
    }
    const before = new Map((await turnsOf()).map((turn) => [turn.id, turn]))
    const own = hall.start()
    const [begun] = await turnsOf()
    expect(begun?.plan?.startsAt).toBe(hall.now())
    await untilAtLeisure(hall, own)
    const [stillBegun, ...after] = await turnsOf()
    expect(after).toHaveLength(4)
    expect(stillBegun).toEqual(begun)
    expect(begun).toEqual(before.get(begun!.id))
    for (const turn of after) {
      const earlier = before.get(turn.id)!
      const [plan, planBefore] = [turn.plan!, earlier.plan!]
      const toleranceMs = Math.max(120_000, 0.03 * (planBefore.readyAt - earlier.releaseAt))
      expect(plan.readyAt, turn.id).toBeLessThanOrEqual(planBefore.readyAt + toleranceMs)
      const isSooner = plan.readyAt < planBefore.readyAt - 120_000
      if (!isSooner) expect(changesIn(turn), turn.id).toBeLessThanOrEqual(changesIn(earlier))
      expect(turn.judgement, turn.id).toMatchObject({ polishedAt: hall.now(), verdict: 'fits' })
      expect(plan.smoothness?.changes, turn.id).toBe(changesIn(turn))
    }
    expect(await hall.broken()).toEqual([])
    const polished = (await hall.audit()).filter(({ action }) => action === 'polish')
    expect(new Set(polished.map(({ actorId }) => actorId))).toEqual(new Set(['actor_planner']))
    expect(polished.flatMap(({ effects }) => effects.map(({ id }) => id)).sort()).toEqual(
      after.map(({ id }) => id).sort(),
    )
    hall.pass(3_600)
    expect(await own.untilIdle()).toBe(0)
  })

  test('and where no plan can be sooner, that is known', async () => {
    const hall = await aHall({ hands: 1 })
    await hall.book(aGamesNight(hall.site))
    const next = { startsAt: '2026-11-28T18:30', endsAt: '2026-11-28T21:00' }
    const { turnId } = await hall.book({ ...aGamesNight(hall.site), ...next })
    await untilAtLeisure(hall, hall.start())
    const { polishedAt, proof, neededSeconds, lowerBoundSeconds } = (await hall.turn(turnId)).judgement
    expect({ polishedAt, proof }).toEqual({ polishedAt: hall.now(), proof: 'bound' })
    expect(neededSeconds).toBe(lowerBoundSeconds)
  })

  test('but not before nobody has written for a minute; what the service writes by itself does not count', async () => {
    const hall = await aWeekend()
    const own = hall.start()
    await own.untilIdle()
    const late = await hall.book({
      ...aDinner(hall.site),
      startsAt: '2026-11-30T17:00',
      endsAt: '2026-11-30T19:00',
    })
    const polishedAt = async () => (await hall.turn(late.turnId)).judgement.polishedAt
    await own.untilIdle()
    hall.pass(QUIET_SECONDS - 1)
    await own.untilIdle()
    expect(await polishedAt()).toBeNull()
    const turn = await hall.turn(late.turnId)
    await hall.commit({ turns: [otherwiseJudged(turn)], judgedThroughAt: turn.dueAt })
    hall.pass(1)
    expect(await own.untilIdle()).toBe(1)
    expect((await hall.audit()).at(-1)).toMatchObject({ action: 'judge' })
    expect(await polishedAt()).toBeNull()
    hall.pass(QUIET_SECONDS)
    await own.untilIdle()
    expect(await polishedAt()).toBe(hall.now())
  })

  test('nor so soon after a start: whoever wrote last may just have been cut off by it', async () => {
    const hall = await aWeekend()
    hall.pass(3_600)
    const own = hall.start()
    const polishedAt = async () => (await hall.turn(hall.supper.turnId)).judgement.polishedAt
    await own.untilIdle()
    hall.pass(QUIET_SECONDS - 1)
    await own.untilIdle()
    expect(await polishedAt()).toBeNull()
    hall.pass(1)
    await own.untilIdle()
    expect(await polishedAt()).toBe(hall.now())
  })

  test('those of which nothing can be said do not keep the others waiting', async () => {
    const hall = await aHall()
    const own = hall.start()
    await own.untilIdle()
    const booked = await aDailyService(hall, 6)
    const turns = await Promise.all(booked.map(({ turnId }) => hall.turn(turnId)))
    // Nobody has said that these are stale: they are left alone.
    await hall.commit({ turns: turns.slice(0, 5).map(otherwiseJudged) })
    await own.untilIdle()
    hall.pass(QUIET_SECONDS)
    await own.untilIdle()
    const polished = await Promise.all(
      booked.map(async ({ turnId }) => (await hall.turn(turnId)).judgement.polishedAt),
    )
    expect(polished).toEqual([null, null, null, null, null, hall.now()])
  })

  test('only once what is stale elsewhere has been looked at', async () => {
    const hall = await aWeekend()
    const other = await aSite(hall)
    const supper = (await hall.post(`${other.path}/bookings`, aDinner(other)).expect(201)).body.booking
    expect(supper.turnId).toBeDefined()
    await untilAtLeisure(hall, hall.start())
    const kinds = kindsAsked(hall)
    expect(kinds.lastIndexOf('judge')).toBeLessThan(kinds.indexOf('polish'))
    expect(kinds.filter((kind) => kind === 'judge')).toHaveLength(2)
  })
})

describe('ways out of what fails', () => {
  const close = ({ post, site }: Hall, fromAt: string, toAt: string) =>
    post(`${site.path}/closures`, { sectionIds: [site.southId], fromAt, toAt, reason: 'Water' }).expect(201)

  test('are looked for and kept with its turn, which goes on failing; each is taken when it is asked for', async () => {
    const hall = await aWeekend()
    const own = hall.start()
    await own.untilIdle()
    hall.pass(1)
    await close(hall, '2026-11-28T12:00', '2026-11-29T00:00')
    hall.pass(1)
    await own.untilIdle()
    const { status, judgement } = await hall.turn(hall.supper.turnId)
    expect({ status, code: judgement.reasons[0]?.code }).toEqual({ status: 'failing', code: 'room-closed' })
    expect(judgement.waysOut.length).toBeGreaterThan(0)
    expect(await hall.broken()).toEqual([])
    const warned = (await hall.get(`${hall.site.path}/warnings`)).body.items
    expect(warned.map(({ turnId }: { turnId: string }) => turnId)).toEqual([hall.supper.turnId])
    expect(warned[0].waysOut.map(({ message }: { message: string }) => message)).toEqual(
      judgement.waysOut.map(({ message }) => message),
    )
    expect((await hall.audit()).at(-1)).toMatchObject({ actorId: 'actor_planner', action: 'find-ways-out' })
    const path = `${hall.site.path}/bookings/${hall.supper.id}`
    for (const way of warned[0].waysOut) {
      expect(way).toMatchObject({ kind: 'other-doors', certainty: 'yes' })
      const { startsAt, endsAt, doorsAt, clearAt } = way
      const { version } = (await hall.get(path)).body
      const moved = await hall
        .patch(`${path}?dryRun=true`, { startsAt, endsAt, doorsAt, clearAt })
        .set('If-Match', `"${version}"`)
      expect(moved.body.decision.verdict).toBe(way.verdict)
    }
  })

  test('are looked for once, and again after a day, since others have booked meanwhile', async () => {
    const hall = await aWeekend()
    const own = hall.start()
    await close(hall, '2026-11-28T12:00', '2026-11-29T00:00')
    const lookedAt = async () => (await hall.turn(hall.supper.turnId)).judgement.polishedAt
    hall.pass(1)
    await own.untilIdle()
    const first = await lookedAt()
    expect(first).toBe(hall.now())
    hall.pass(86_399)
    await own.untilIdle()
    expect(await lookedAt()).toBe(first)
    hall.pass(1)
    await own.untilIdle()
    expect(await lookedAt()).toBe(hall.now())
  })

  test('are looked for at once, though somebody has just written', async () => {
    const hall = await aWeekend()
    const own = hall.start()
    await own.untilIdle()
    hall.pass(1)
    await close(hall, '2026-11-28T12:00', '2026-11-29T00:00')
    hall.pass(1)
    await hall.book({ ...aDinner(hall.site), startsAt: '2026-12-05T17:00', endsAt: '2026-12-05T19:00' })
    await own.untilIdle()
    expect((await hall.turn(hall.supper.turnId)).judgement.waysOut).not.toEqual([])
  })

  test('name the hands that would do, where hands are what is missing, also for what is at somebody’s risk', async () => {
    const hall = await aHall({ hands: 0 })
    const { site } = hall
    const shift = await hall.post(`${site.path}/shifts`, aWeeklyShift(4)).expect(201)
    await hall.book(aGamesNight(site))
    const soon = { ...aDinner(site), startsAt: '2026-11-27T22:45', endsAt: '2026-11-28T01:00' }
    const supper = await hall.book(soon)
    const own = hall.start()
    await own.untilIdle()
    const fewer = { crew: { kind: 'hands', hands: 2, adults: true } }
    const path = `${site.path}/shifts/${shift.headers.location?.split('/').at(-1)}`
    await hall.patch(path, fewer).set('If-Match', '"1"').expect(200)
    const codes = async () => (await hall.turn(supper.turnId)).judgement.reasons.map(({ code }) => code)
    expect(await codes()).toEqual(['hands-short'])
    hall.pass(1)
    await own.untilIdle()
    expect(await hall.broken()).toEqual([])
    expect(await codes()).toEqual(['hands-short'])
    const { waysOut } = (await hall.turn(supper.turnId)).judgement
    expect(waysOut.map(({ kind }) => kind)).toContain('more-hands')
  })
})

describe('holds', () => {
  test('that are over are given up, by the service, and their turns are gone', async () => {
    const hall = await aHall()
    const held = await hall.book({ ...aDinner(hall.site), hold: { expiresAt: '2026-11-23T12:00' } })
    const own = hall.start()
    hall.pass(3 * 3_600 - 1)
    await own.untilIdle()
    const booking = async () => (await hall.get(`${hall.site.path}/bookings/${held.id}`)).body
    expect((await booking()).status).toBe('TENTATIVE')
    hall.pass(1)
    await own.untilIdle()
    expect((await booking()).status).toBe('CANCELLED')
    expect((await hall.audit()).at(-1)).toMatchObject({ actorId: 'actor_service', action: 'lapse' })
    expect(await hall.broken()).toEqual([])
  })
})

describe('the service at work by itself', () => {
  /** What the audit has of the planner, as soon as there is more of it. */
  const planned = ({ store, siteId }: Hall) =>
    new Promise<void>((resolve) => {
      const stop = store.onCommit(() => {
        void auditOf(store, siteId).then((entries) => {
          if (entries.at(-1)?.actorId !== 'actor_planner') return
          stop()
          resolve()
        })
      })
    })

  test('begins by itself, and again when somebody has written', async () => {
    const hall = await aWeekend()
    const supper = await hall.turn(hall.supper.turnId)
    await hall.commit({ turns: [otherwiseJudged(supper)] })
    const first = planned(hall)
    const own = hall.start()
    own.run()
    await first
    const again = planned(hall)
    await hall.commit({ turns: [otherwiseJudged(supper)], judgedThroughAt: supper.dueAt })
    await again
    await own.stop()
    expect((await hall.turn(supper.id)).inputHash).toBe(supper.inputHash)
    expect(hall.faults).toEqual([])
  })

  test('stops while something is being decided, and writes nothing any more', async () => {
    const hall = await aWeekend()
    let isAsked = () => {}
    const asked = new Promise<void>((resolve) => {
      isAsked = resolve
    })
    const own = hall.start(() => ({
      decide() {
        isAsked()
        return new Promise(() => {})
      },
    }))
    const before = await hall.traces(hall.site.siteId)
    own.run()
    await asked
    await own.stop()
    expect(await own.untilIdle()).toBe(0)
    expect(await hall.traces(hall.site.siteId)).toEqual(before)
    expect(hall.faults).toEqual([])
  })

  test('tells what went wrong, and does the rest all the same', async () => {
    const hall = await aWeekend()
    const own = hall.start((decider) => ({
      decide: (request) =>
        request.operations[0]?.kind === 'judge'
          ? Promise.reject(new Error('It cannot be judged'))
          : decider.decide(request),
    }))
    await untilAtLeisure(hall, own)
    expect(hall.faults).toContainEqual(new Error('It cannot be judged'))
    expect((await hall.turn(hall.supper.turnId)).judgement.polishedAt).toBe(hall.now())
  })
})
