import fc from 'fast-check'
import { describe, expect, onTestFinished, test } from 'vitest'
import type { Booking } from '../../src/domain/booking.ts'
import { homeTurnId } from '../../src/domain/home-turn-id.ts'
import type { Instant } from '../../src/domain/instant.ts'
import type { Turn } from '../../src/domain/turn.ts'
import {
  aBooking,
  aCommit,
  added,
  aPlan,
  aStore,
  aTurn,
  at,
  changes,
  site,
  siteId,
} from '../store/a-world.ts'
import { aService, type Service } from './a-service.ts'

const path = `/v1/sites/${siteId}/warnings`

type Trouble = 'none' | 'failing' | 'at-risk' | 'assumed'

interface Planned {
  readonly word: string
  /** Hours from now. */
  readonly doors: number
  readonly trouble: Trouble
  readonly room?: string
}

interface Shown {
  readonly kind: string
  readonly bookingId: string
  readonly turnId: string
  readonly doorsAt: string
  readonly isStale: boolean
}

const short = (booking: Booking) => ({
  code: 'hands-short',
  turnId: booking.turnId,
  side: 'before',
  toLayoutId: booking.layoutId,
  neededSeconds: 7_200,
  availableSeconds: 3_600,
  shortSeconds: 3_600,
  readyAt: booking.doorsAt + 3_600_000,
  doorsAt: booking.doorsAt,
  handsOnDuty: 4,
  proof: 'none-found',
  handsNeeded: 6,
})

const assumedHands = (booking: Booking, hands: number) => ({
  code: 'hands-assumed',
  turnId: booking.turnId,
  side: 'before',
  handsAssumed: hands,
  fromAt: booking.doorsAt - 3_600_000,
  toAt: booking.doorsAt - 600_000,
})

const risk = { actorId: 'actor_ben', why: 'The choir helps.', acceptedAt: at(-12) }

function booked({ word, doors, trouble, room = 'east' }: Planned, rest: object = {}) {
  const length = { doors, clear: doors + 0.05 }
  const booking = aBooking(word, {
    room,
    ...length,
    ...(trouble === 'at-risk' ? { riskAccepted: risk } : {}),
    ...rest,
  })
  return { booking, turn: turnIn(trouble, booking) }
}

function turnIn(trouble: Trouble, booking: Booking, judged: object = {}): Turn {
  const turn = aTurn(booking)
  if (trouble === 'none') return turn
  if (trouble === 'assumed') {
    const reasons = [assumedHands(booking, 2)]
    const hands = { needed: 4, onDuty: 2, assumed: 2 }
    const judgement = { ...turn.judgement, verdict: 'tight', reasons, hands, warnedSince: at(-30), ...judged }
    return aTurn(booking, { judgement })
  }
  const judgement = {
    ...turn.judgement,
    verdict: 'does-not-fit',
    reasons: [short(booking)],
    warnedSince: at(-20),
    ...judged,
  }
  return aTurn(booking, { status: 'failing', plan: null, judgement })
}

interface World {
  readonly service: Service
  readonly moveTo: (hours: number) => void
}

/** The service over a hall in which these stand as they are; what is due from `staleFrom` on is yet to be looked at. */
async function aWorld(
  rows: readonly { readonly booking: Booking | null; readonly turn: Turn }[],
  staleFrom: number | null = null,
): Promise<World> {
  const store = await aStore()
  onTestFinished(() => store.close())
  await store.commit(
    aCommit({
      changes: changes({
        bookings: rows.flatMap(({ booking }) => (booking ? [added(booking)] : [])),
        turns: rows.map(({ turn }) => added(turn)),
        ...(staleFrom === null ? {} : { judgedThroughAt: at(staleFrom) }),
      }),
    }),
  )
  let now = 0
  const service = await aService({ store: () => store, clock: () => at(now) })
  return {
    service,
    moveTo: (hours) => {
      now = hours
    },
  }
}

const listOf = async ({ service }: World, query = '') =>
  (await service.get(`${path}${query}`).expect(200)).body
const words = (items: readonly Shown[]) =>
  items.map(({ kind, bookingId }) => `${kind} ${bookingId.replace('booking_', '')}`)

/** Every page, so many a page. */
async function pageByPage(world: World, limit: number, between = () => {}): Promise<Shown[]> {
  const items: Shown[] = []
  for (let cursor: string | null = null, pages = 0; pages < 100; pages += 1) {
    const page = await listOf(world, `?limit=${limit}${cursor === null ? '' : `&cursor=${cursor}`}`)
    items.push(...page.items)
    cursor = page.nextCursor
    if (cursor === null) return items
    between()
  }
  throw new Error('The list does not end')
}

describe('the list of warnings', () => {
  test('is empty where everything stands, and nothing is stale', async () => {
    const world = await aWorld([booked({ word: 'dinner', doors: 30, trouble: 'none' })])
    expect(await listOf(world)).toEqual({ items: [], nextCursor: null, judgedThroughAt: null, staleCount: 0 })
  })

  test('tells first what is soon, within that what is worse, and then what has doors first', async () => {
    const plans: Planned[] = [
      { word: 'far-failing', doors: 400, trouble: 'failing' },
      { word: 'far-risk', doors: 300, trouble: 'at-risk' },
      { word: 'week-assumed', doors: 80, trouble: 'assumed' },
      { word: 'week-risk', doors: 90, trouble: 'at-risk' },
      { word: 'week-failing', doors: 160, trouble: 'failing' },
      { word: 'soon-assumed', doors: 10, trouble: 'assumed' },
      { word: 'soon-risk', doors: 20, trouble: 'at-risk' },
      { word: 'soon-late', doors: 71, trouble: 'failing' },
      { word: 'soon-early', doors: 30, trouble: 'failing' },
      { word: 'soon-west', doors: 30, trouble: 'failing', room: 'west' },
    ]
    const world = await aWorld(plans.map((plan) => booked(plan)))
    expect(words((await listOf(world)).items)).toEqual([
      'failing soon-early',
      'failing soon-west',
      'failing soon-late',
      'at-risk soon-risk',
      'assumed soon-assumed',
      'failing week-failing',
      'at-risk week-risk',
      'assumed week-assumed',
      'failing far-failing',
      'at-risk far-risk',
    ])
  })

  test('counts three days and seven to the moment', async () => {
    const doors = [71.9, 72, 167.9, 168]
    const plans = doors.flatMap((at): Planned[] => [
      { word: `east-${at * 10}`, doors: at, trouble: 'at-risk' },
      { word: `west-${at * 10}`, doors: at, trouble: 'assumed', room: 'west' },
    ])
    const world = await aWorld(plans.map((plan) => booked(plan)))
    expect(words((await listOf(world)).items)).toEqual([
      'at-risk east-719',
      'assumed west-719',
      'at-risk east-720',
      'at-risk east-1679',
      'assumed west-720',
      'assumed west-1679',
      'at-risk east-1680',
    ])
  })

  test('is the same list page by page, however long a page is: each thing once, in the order that is told', async () => {
    const trouble = fc.constantFrom<Trouble>('none', 'failing', 'at-risk', 'assumed')
    const one = fc.record({ doors: fc.integer({ min: 1, max: 25 }), trouble, isWest: fc.boolean() })
    const asked = fc.record({
      plans: fc.uniqueArray(one, { maxLength: 16, selector: ({ doors, isWest }) => `${doors} ${isWest}` }),
      staleFrom: fc.option(fc.integer({ min: 0, max: 25 })),
      limit: fc.integer({ min: 1, max: 5 }),
    })
    await fc.assert(
      fc.asyncProperty(asked, async ({ plans, staleFrom, limit }) => {
        const rows = plans.map(({ doors, trouble, isWest }) =>
          booked({ word: `${doors}-${isWest}`, doors: doors * 10, trouble, room: isWest ? 'west' : 'east' }),
        )
        const world = await aWorld(rows, staleFrom === null ? null : staleFrom * 10)
        const whole = await listOf(world, '?limit=200')
        expect(await pageByPage(world, limit)).toEqual(whole.items)
        expect(whole.nextCursor).toBeNull()
        expect(words(whole.items)).toEqual(
          words(expected(rows, staleFrom === null ? null : at(staleFrom * 10))),
        )
        const stale = rows.filter(({ turn }) => staleFrom !== null && turn.dueAt >= at(staleFrom * 10))
        expect(whole.staleCount).toBe(stale.length)
      }),
      { numRuns: 25, seed: 7 },
    )
  })

  /** Straight from the words of the documentation. */
  function expected(rows: readonly { booking: Booking; turn: Turn }[], staleFromAt: Instant | null) {
    const kinds = ['failing', 'at-risk', 'assumed', 'stale']
    const found = rows.flatMap(({ booking, turn }) => {
      const isStale = staleFromAt !== null && turn.dueAt >= staleFromAt
      const isAssumed = turn.judgement.hands.assumed > 0 && turn.dueAt < at(168)
      const kind = booking.riskAccepted
        ? 'at-risk'
        : turn.status === 'failing'
          ? 'failing'
          : isAssumed
            ? 'assumed'
            : isStale
              ? 'stale'
              : null
      const soon = turn.dueAt < at(72) ? 0 : turn.dueAt < at(168) ? 1 : 2
      const rank = [soon, kinds.indexOf(kind ?? ''), turn.dueAt] as const
      return kind ? [{ kind, rank, bookingId: booking.id, turnId: turn.id, doorsAt: '', isStale }] : []
    })
    return found.sort(
      (a, b) =>
        a.rank[0] - b.rank[0] ||
        a.rank[1] - b.rank[1] ||
        a.rank[2] - b.rank[2] ||
        (a.bookingId < b.bookingId ? -1 : 1),
    )
  }

  test('goes on as of when it was first asked for: nothing is told twice or left out because time passes', async () => {
    const plans = [60, 70, 80, 90, 150, 160, 170, 180].map(
      (doors): Planned => ({ word: `at-${doors}`, doors, trouble: doors % 20 === 0 ? 'failing' : 'at-risk' }),
    )
    const world = await aWorld(plans.map((plan) => booked(plan)))
    const whole = words((await listOf(world)).items)
    let hours = 0
    const paged = await pageByPage(world, 1, () => {
      hours += 5
      world.moveTo(hours)
    })
    expect(words(paged)).toEqual(whole)
    expect(whole).toHaveLength(plans.length)
  })

  test('does not go on from where it never was', async () => {
    const world = await aWorld([])
    for (const key of [
      [at(1), 0, at(2), 'x'],
      [at(0), 0, 'x'],
      [at(0), -1, at(2), 'x'],
    ]) {
      const cursor = Buffer.from(JSON.stringify(key)).toString('base64url')
      const answer = await world.service.get(`${path}?cursor=${cursor}`).expect(422)
      expect(answer.body.errors[0]).toMatchObject({ at: '/cursor', in: 'query' })
    }
  })

  test('ends a page early where it has looked at a thousand that are none of its kind, and goes on from there', async () => {
    const step = 4 / 60
    const rows = Array.from({ length: 1_010 }, (_, index) => {
      const doors = Math.round(at(1) + index * step * 3_600_000)
      const times = { doorsAt: doors, startsAt: doors, endsAt: doors + 60_000, clearAt: doors + 60_000 }
      const booking = aBooking(`n${String(index).padStart(4, '0')}`, { ...times, riskAccepted: risk })
      return { booking, turn: turnIn('failing', booking) }
    })
    const world = await aWorld(rows)
    // What fails comes first: all of these do, and are told as at risk.
    const first = await listOf(world, '?limit=200')
    expect(first.items).toEqual([])
    expect(first.nextCursor).not.toBeNull()
    const all = await pageByPage(world, 200)
    expect(all.map(({ bookingId }) => bookingId)).toEqual(rows.map(({ booking }) => booking.id))
  })
})

describe('a warning', () => {
  const time = (hours: number) => new Date(at(hours)).toISOString().replace('.000Z', '+00:00')

  test('of what fails says since when, why, and what would help, that is still to come', async () => {
    const { booking } = booked({ word: 'dinner', doors: 30, trouble: 'failing' })
    const doors = (hours: number) => ({
      kind: 'other-doors',
      certainty: 'yes',
      doorsAt: at(hours),
      startsAt: at(hours),
      endsAt: at(hours + 1),
      clearAt: at(hours + 1),
      verdict: 'fits',
      message: `With doors at ${hours} it fits.`,
    })
    const more = {
      kind: 'more-hands',
      certainty: 'yes-if',
      hands: 2,
      handsWithSkills: 0,
      skills: [],
      toAt: at(30),
      message: 'If 2 more hands are there, it fits.',
    }
    const waysOut = [doors(-1), doors(40), { ...more, fromAt: at(-2), agreeByAt: at(-2) }]
    const turn = turnIn('failing', booking, { waysOut })
    const [item] = (await listOf(await aWorld([{ booking, turn }]))).items
    expect(item).toMatchObject({
      kind: 'failing',
      purpose: 'prepare',
      bookingId: 'booking_dinner',
      turnId: 'turn_dinner',
      roomId: 'room_east',
      title: 'The dinner',
      doorsAt: time(30),
      since: time(-20),
      isStale: false,
      reasons: [{ code: 'hands-short', overridable: true }],
      waysOut: [{ kind: 'other-doors', doorsAt: time(40), message: 'With doors at 40 it fits.' }],
      holder: null,
    })
    expect(item.waysOut).toHaveLength(1)
    expect(item.message).toBe(item.reasons[0].message)
  })

  test('of a turn that is short of hands tells how many would do before anybody has looked for more', async () => {
    const { booking, turn } = booked({ word: 'dinner', doors: 30, trouble: 'failing' })
    const [item] = (await listOf(await aWorld([{ booking, turn }]))).items
    expect(item.waysOut).toEqual([
      {
        kind: 'more-hands',
        certainty: 'yes-if',
        hands: 2,
        handsWithSkills: 0,
        skills: [],
        fromAt: time(6),
        toAt: time(30),
        agreeByAt: time(6),
        unpaid: false,
        grownUp: false,
        isTight: false,
        message: 'If 2 more hands are there from Mon 23 Nov 18:00 to Tue 24 Nov 18:00, it fits.',
      },
    ])
  })

  test('offers no hands where something else is missing too, or where it is too late for them', async () => {
    const { booking } = booked({ word: 'dinner', doors: 30, trouble: 'failing' })
    const milestone = {
      code: 'noise-next-door',
      bookingId: booking.id,
      fromAt: booking.doorsAt,
      toAt: booking.clearAt,
    }
    const both = turnIn('failing', booking, { reasons: [short(booking), milestone] })
    expect((await listOf(await aWorld([{ booking, turn: both }]))).items[0].waysOut).toEqual([])
    const late = booked({ word: 'late', doors: 20, trouble: 'failing' })
    expect((await listOf(await aWorld([late]))).items[0].waysOut).toEqual([])
  })

  test('of what is at risk says who answers for it, why and since when, until it is clear', async () => {
    const { booking, turn } = booked({ word: 'choir', doors: 5, trouble: 'at-risk' }, { clearAt: at(9) })
    const world = await aWorld([{ booking, turn }])
    const { items } = await listOf(world)
    expect(items).toHaveLength(1)
    expect(items[0]).toMatchObject({
      kind: 'at-risk',
      since: time(-12),
      message: 'Taken at the risk of actor_ben: The choir helps.',
      holder: { actorId: 'actor_ben', why: 'The choir helps.' },
      reasons: [{ code: 'hands-short' }],
    })
    expect(Object.keys(items[0].holder)).toEqual(['actorId', 'why'])
    world.moveTo(8.9)
    expect(words((await listOf(world)).items)).toEqual(['at-risk choir'])
    world.moveTo(9)
    expect((await listOf(world)).items).toEqual([])
  })

  test('of assumed hands comes seven days before doors, and says how many have to be found by when', async () => {
    const world = await aWorld([booked({ word: 'dinner', doors: 170, trouble: 'assumed' })])
    expect((await listOf(world)).items).toEqual([])
    world.moveTo(2)
    expect((await listOf(world)).items).toEqual([])
    world.moveTo(3)
    const [item] = (await listOf(world)).items
    expect(item).toMatchObject({
      kind: 'assumed',
      since: time(-30),
      message:
        'The turn before it counts on 2 hands that nobody has promised, from Mon 30 Nov 13:00 to Mon 30 Nov 13:50.',
      waysOut: [
        {
          kind: 'more-hands',
          hands: 2,
          agreeByAt: time(169),
          message: 'If 2 more hands are there from Mon 30 Nov 13:00 to 13:50, it fits.',
        },
      ],
    })
  })

  test('of what is stale says that it is looked at again; what fails and is stale is told once', async () => {
    const rows = [
      booked({ word: 'before', doors: 10, trouble: 'none' }),
      booked({ word: 'fine', doors: 20, trouble: 'none' }),
      booked({ word: 'fails', doors: 30, trouble: 'failing' }),
    ]
    const world = await aWorld(rows, 20)
    const { items, judgedThroughAt, staleCount } = await listOf(world)
    expect({ judgedThroughAt, staleCount }).toEqual({ judgedThroughAt: time(20), staleCount: 2 })
    expect(items.map(({ kind, bookingId, isStale }: Shown) => [kind, bookingId, isStale])).toEqual([
      ['failing', 'booking_fails', true],
      ['stale', 'booking_fine', true],
    ])
    expect(items[1]).toMatchObject({
      since: time(-48),
      message: 'The hall has changed since it was judged; it is looked at again, nearest doors first.',
      reasons: [],
      waysOut: [],
    })
    world.moveTo(25)
    expect(await listOf(world)).toMatchObject({ staleCount: 1, judgedThroughAt: time(20) })
  })

  test('of a room that cannot be put back names the booking after which it should be, at nobody’s risk', async () => {
    const { booking, turn } = booked({ word: 'dinner', doors: 10, trouble: 'at-risk' })
    const home = aTurn(booking, {
      id: homeTurnId(booking.turnId),
      purpose: 'return-home',
      releaseAt: booking.clearAt,
      dueAt: at(40),
      status: 'failing',
      plan: null,
      judgement: turnIn('failing', booking).judgement,
    })
    const ready = { ...turn, status: 'ready' as const, plan: aPlan(booking) }
    const { items } = await listOf(
      await aWorld([
        { booking, turn: ready },
        { booking: null, turn: home },
      ]),
    )
    expect(items.map(({ kind, purpose, bookingId }: Turn & Shown) => [kind, purpose, bookingId])).toEqual([
      ['failing', 'return-home', booking.id],
      ['at-risk', 'prepare', booking.id],
    ])
    expect(items[0].doorsAt).toBe(time(40))
  })
})

test('the page of the week shows the warnings in words, and what is yet to be looked at', async () => {
  const rows = [
    booked({ word: 'dinner', doors: 30, trouble: 'failing' }),
    booked({ word: 'choir', doors: 35, trouble: 'at-risk' }),
    booked({ word: 'games', doors: 40, trouble: 'assumed' }),
    booked({ word: 'fine', doors: 50, trouble: 'none' }),
  ]
  const held = booked(
    { word: 'held', doors: 60, trouble: 'none' },
    { status: 'TENTATIVE', holdExpiresAt: at(20) },
  )
  const { service } = await aWorld([...rows, held], 50)
  const { text } = await service.get(`/?site=${site.id}`).expect(200)
  const list = text.slice(text.indexOf('<h2>Warnings</h2>'), text.indexOf('</section>'))
  const order = [
    'The dinner',
    'The choir',
    'The games',
    '2 turns are yet to be looked at again, from Wed 25 Nov 14:00 on.',
  ]
  const places = order.map((words) => list.indexOf(words))
  expect(Math.min(...places)).toBeGreaterThan(0)
  expect(places).toEqual([...places].sort((a, b) => a - b))
  expect(list).not.toContain('The fine')
  expect(list).toContain('<strong>does not fit</strong>')
  expect(list).toContain('Taken at the risk of actor_ben: The choir helps.')
  expect(list).toContain('<strong>rests on hands that nobody has promised</strong>')
  const week = text.slice(text.indexOf('</section>'))
  expect(week).toContain('<span>held until Tue 24 Nov 08:00</span>')
  expect(week).toContain('<span>at risk: actor_ben answers for it</span>')
  expect(week).toContain('with 2 hands that nobody has promised')
  const turnPage = (await service.get(`/turns/turn_held?site=${site.id}`).expect(200)).text
  expect(turnPage).toContain('<p>The booking is held until Tue 24 Nov 08:00.</p>')
})
