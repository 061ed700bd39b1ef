/** Random weeks of bookings, and of changes to the hall and its crew, through the real service on a real database. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { loadDemo } from '../../seed/load-demo.ts'
import { Booking } from '../../src/domain/booking.ts'
import type { SiteId } from '../../src/domain/ids.ts'
import type { Operation } from '../../src/domain/operation.ts'
import {
  brokenInvariants,
  decide,
  operationProblems,
  windowOf,
  windowWithAlternatives,
} from '../../src/scheduler/decide/index.ts'
import { instantFromLocal } from '../../src/scheduler/timeline/wall-time.ts'
import { stateFromAudit } from '../../src/store/replay.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { aService, NOW, type Service } from '../api/a-service.ts'
import { everything } from './everything.ts'

const layouts = [
  'long-games',
  'long-banquet',
  'long-worship',
  'long-south-meeting',
  'garden-meeting',
  'upper-worship',
]
const roomOf = (layout: string) => `room_${layout.slice(0, layout.lastIndexOf('-'))}`

const step = fc.record({
  kind: fc.constantFrom(
    'book',
    'book',
    'book',
    'change',
    'change',
    'cancel',
    'close',
    'crew',
    'layout',
    'observe',
  ),
  layout: fc.constantFrom(...layouts),
  day: fc.integer({ min: 4, max: 6 }),
  /** In quarters of an hour from 08:00. */
  starts: fc.integer({ min: 0, max: 52 }),
  length: fc.integer({ min: 2, max: 12 }),
  which: fc.nat(30),
})
type Step = typeof step extends fc.Arbitrary<infer One> ? One : never

const local = (day: number, quarters: number) => {
  const minutes = 8 * 60 + quarters * 15
  const two = (number: number) => String(number).padStart(2, '0')
  return `2026-12-${two(day)}T${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`
}

interface Life {
  readonly service: Service
  readonly site: string
  readonly known: { id: string; version: number }[]
}

async function live({ service, site, known }: Life, one: Step): Promise<number> {
  const times = {
    startsAt: local(one.day, one.starts),
    endsAt: local(one.day, Math.min(62, one.starts + one.length)),
  }
  const body = {
    title: 'Something',
    roomId: roomOf(one.layout),
    layoutId: `layout_${one.layout}`,
    headcount: 12,
    ...times,
  }
  const chosen = known[one.which % Math.max(1, known.length)]
  switch (one.kind) {
    case 'book': {
      const answer = await service.post(`${site}/bookings`, body)
      if (answer.status === 201) known.push({ id: answer.body.booking.id, version: 1 })
      return answer.status
    }
    case 'change': {
      if (!chosen) return 0
      const answer = await service
        .patch(`${site}/bookings/${chosen.id}`, { ...body, doorsAt: null, clearAt: null })
        .set('If-Match', `"${chosen.version}"`)
      if (answer.status === 200) chosen.version += 1
      return answer.status
    }
    case 'cancel': {
      if (!chosen) return 0
      const answer = await service.delete(`${site}/bookings/${chosen.id}`)
      if (answer.status === 200) known.splice(known.indexOf(chosen), 1)
      return answer.status
    }
    case 'crew': {
      const crew = { kind: 'hands', hands: 1 + (one.which % 6), skills: [], adults: one.which % 3 > 0 }
      return (await service.patch(`${site}/shifts/shift_saturday`, { crew }).set('If-Match', '*')).status
    }
    case 'layout': {
      const furnishings = [{ furnishingId: 'furnishing_chair', count: 90 + one.which }]
      const changed = service.patch(`${site}/layouts/layout_long-worship`, {
        furnishings,
        placements: [],
        seats: 90 + one.which,
      })
      return (await changed.set('If-Match', '*')).status
    }
    case 'observe': {
      const pieces = [{ furnishingId: 'furnishing_chair', count: 1 + 3 * one.which }]
      const seen = { roomId: body.roomId, seenAt: '2026-11-23T08:30', pieces }
      return (await service.post(`${site}/observations`, seen)).status
    }
    default: {
      const sectionIds = [['section_long-south', 'section_garden', 'section_upper'][one.which % 3]]
      const closure = { sectionIds, fromAt: times.startsAt, toAt: times.endsAt, reason: 'works' }
      return (await service.post(`${site}/closures`, closure)).status
    }
  }
}

/** A request that nothing has been done about, for the same hall. */
function asRequest(siteId: SiteId, one: Step): Operation {
  const at = (quarters: number) =>
    instantFromLocal('America/Chicago', local(one.day, Math.min(62, quarters))).instant
  return {
    kind: 'book',
    booking: Booking.parse({
      id: 'booking_asked',
      turnId: 'turn_asked',
      siteId,
      title: 'Asked',
      roomId: roomOf(one.layout),
      layoutId: `layout_${one.layout}`,
      headcount: 12,
      doorsAt: at(one.starts),
      startsAt: at(one.starts),
      endsAt: at(one.starts + one.length),
      clearAt: at(one.starts + one.length),
      foodServed: false,
      floorWet: false,
      status: 'CONFIRMED',
      version: 1,
    }),
  }
}

describe('a decision on the days around a request', () => {
  test('is the decision on everything there is, to the letter', async () => {
    const verdicts = new Map<string, number>()
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 4, maxLength: 10 }), step, async (steps, asked) => {
        const service = await aService()
        const demo = await loadDemo(service.store, inProcessDecider(service.store), NOW)
        const life = { service, site: `/v1/sites/${demo.site.id}`, known: [] as Life['known'] }
        for (const one of steps) await live(life, one)
        const operations = [asRequest(demo.site.id, asked)]
        const all = await everything(service.store, demo.site.id, NOW)
        if (operationProblems(all, operations).length > 0) return
        const near = await service.store.load(demo.site.id, windowOf(operations, [], NOW), NOW)
        const wide = await service.store.load(demo.site.id, windowWithAlternatives(operations, [], NOW), NOW)
        const withoutAlternatives = true
        expect(decide(near!, operations, { withoutAlternatives })).toEqual(
          decide(all, operations, { withoutAlternatives }),
        )
        const decision = decide(wide!, operations)
        expect(decision).toEqual(decide(all, operations))
        verdicts.set(decision.verdict, (verdicts.get(decision.verdict) ?? 0) + 1)
      }),
      { seed: 20261125, numRuns: 30 },
    )
    expect(verdicts.get('fits') ?? 0).toBeGreaterThan(5)
    expect(verdicts.get('does-not-fit') ?? 0).toBeGreaterThan(5)
  }, 120_000)
})

describe('whatever is asked of the service, in whatever order', () => {
  test('no promise is broken, every answer is an answer, and the audit replays to what is stored', async () => {
    const seen = new Map<number, number>()
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 6, maxLength: 16 }), async (steps) => {
        const service = await aService()
        const decider = inProcessDecider(service.store)
        const demo = await loadDemo(service.store, decider, NOW)
        const life = { service, site: `/v1/sites/${demo.site.id}`, known: [] as Life['known'] }
        for (const one of steps) {
          const status = await live(life, one)
          seen.set(status, (seen.get(status) ?? 0) + 1)
          expect([0, 200, 201, 409]).toContain(status)
          expect(brokenInvariants(await everything(service.store, demo.site.id, NOW))).toEqual([])
        }
        const audit = await service.store.audit(demo.site.id, { limit: 1_000, after: null })
        expect(stateFromAudit(audit.items)).toEqual(await service.store.recordedState(demo.site.id))
      }),
      { seed: 20261125, numRuns: 10 },
    )
    // Worth something only if it met yes and no, often.
    expect(seen.get(201) ?? 0).toBeGreaterThan(30)
    expect(seen.get(200) ?? 0).toBeGreaterThan(5)
    expect(seen.get(409) ?? 0).toBeGreaterThan(10)
  }, 120_000)
})
