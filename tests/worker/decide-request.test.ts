import { describe, expect, test } from 'vitest'
import type { Booking } from '../../src/domain/booking.ts'
import { LinkId, SiteId } from '../../src/domain/ids.ts'
import type { Operation } from '../../src/domain/operation.ts'
import {
  decide,
  operationProblems,
  windowOf,
  windowWithAlternatives,
} from '../../src/scheduler/decide/index.ts'
import type { Store } from '../../src/store/store.ts'
import { answerTo } from '../../src/worker/decide-request.ts'
import { DeciderBusy } from '../../src/worker/decider.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { aBooking, aCommit, aStore, at, booked, changes, siteId } from '../store/a-world.ts'

const book = (booking: Booking): Operation => ({ kind: 'book', booking })
const cancel = (booking: Booking): Operation => ({
  kind: 'cancel',
  bookingId: booking.id,
  versionExpected: null,
})
const now = at(-48)
const scheduler = { windowOf, windowWithAlternatives, operationProblems, decide }

describe('an answer', () => {
  test('is a decision on the version that was loaded, and can be committed on it', async () => {
    const store = await aStore()
    const answer = await answerTo(store, { siteId, operations: [book(aBooking('dinner'))], now })
    if (answer.kind !== 'decided' || !answer.decision.changes) throw new Error(`not a yes: ${answer.kind}`)
    expect(answer.planningVersion).toBe(1)
    await store.commit(aCommit({ planningVersionExpected: 1, changes: answer.decision.changes }))
    expect((await store.booking(siteId, aBooking('dinner').id))?.title).toBe('The dinner')
  })

  test('writes nothing', async () => {
    const store = await aStore()
    const before = await store.recordedState(siteId)
    await answerTo(store, { siteId, operations: [book(aBooking('dinner'))], now })
    expect(await store.recordedState(siteId)).toEqual(before)
  })

  test('says that there is no such site', async () => {
    const store = await aStore()
    const elsewhere = SiteId.parse('site_elm-court')
    expect(await answerTo(store, { siteId: elsewhere, operations: [], now })).toEqual({ kind: 'no-site' })
  })

  test('tells of operations that cannot be judged, and does not judge them', async () => {
    const store = await aStore()
    const answer = await answerTo(store, {
      siteId,
      operations: [book(aBooking('dinner', { room: 'attic' }))],
      now,
    })
    expect(answer).toMatchObject({
      kind: 'problems',
      problems: [{ code: 'unknown-id', at: '/roomId' }, { at: '/layoutId' }],
    })
  })

  test('to a cancellation looks around the booking as it is stored, however far away', async () => {
    const store = await aStore()
    const far = aBooking('far', { doors: 24 * 300 })
    await store.commit(booked([far]))
    const answer = await answerTo(store, { siteId, operations: [cancel(far)], now })
    expect(answer).toMatchObject({
      kind: 'decided',
      decision: { changes: { bookings: [{ before: far, after: { status: 'CANCELLED', version: 2 } }] } },
    })
  })

  test('looks again when the booking was moved between reading it and loading around it', async () => {
    const store = await aStore()
    const dinner = aBooking('dinner')
    await store.commit(booked([dinner]))
    const moved = aBooking('dinner', { doors: 24 * 100, version: 2 })
    let isMoved = false
    const moving: Store = {
      ...store,
      async booking(...of) {
        const read = await store.booking(...of)
        const move = changes({ bookings: [{ before: dinner, after: moved }] })
        if (!isMoved)
          await store.commit(aCommit({ planningVersionExpected: 2, action: 'change', changes: move }))
        isMoved = true
        return read
      },
    }
    const answer = await answerTo(moving, { siteId, operations: [cancel(dinner)], now })
    expect(answer).toMatchObject({
      planningVersion: 3,
      decision: { changes: { bookings: [{ before: moved }] } },
    })
  })

  describe('looks around', () => {
    const linked = (word: string, linkId: string | null) =>
      aBooking(word, { doors: { rehearsal: 0, wedding: 24, reception: 48, dinner: 72 }[word] ?? 96, linkId })
    const [rehearsal, wedding, reception] = ['rehearsal', 'wedding', 'reception'].map((word) =>
      linked(word, 'link_wedding'),
    ) as [Booking, Booking, Booking]
    const dinner = linked('dinner', null)
    const all = [rehearsal, wedding, reception]
    const bookingId = wedding.id
    const versionExpected = null
    const linkId = LinkId.parse('link_wedding')
    const cases: readonly [string, Operation, readonly Booking[]][] = [
      ['a booking that is confirmed', { kind: 'confirm', bookingId, versionExpected }, all],
      ['a hold that lapses', { kind: 'lapse', bookingId }, all],
      ['a booking that is cancelled', { kind: 'cancel', bookingId, versionExpected }, all],
      ['guests who stay', { kind: 'clear-later', bookingId, clearAt: at(28), versionExpected }, all],
      ['a booking that changes', { kind: 'change', booking: { ...wedding, version: 2 } }, all],
      ['a link that is undone', { kind: 'unlink', linkId }, all],
      [
        'bookings that are linked',
        {
          kind: 'link',
          linkId: LinkId.parse('link_other'),
          bookingIds: [dinner.id, bookingId],
          keepAsSet: false,
        },
        [dinner, ...all],
      ],
      ['turns that are gone over', { kind: 'polish', turnIds: [dinner.turnId] }, [dinner]],
      ['no booking but the new one', { kind: 'hold', booking: aBooking('new') }, []],
    ]

    test.for(cases)('%s, and all that stand or fall together with it', async ([, operation, expected]) => {
      const store = await aStore()
      await store.commit(booked([...all, dinner]))
      const seen: string[][] = []
      const judge = {
        ...scheduler,
        windowOf: (...[operations, stored, ...rest]: Parameters<typeof windowOf>) => {
          seen.push(stored.map(({ id }) => id).sort())
          return windowOf(operations, stored, ...rest)
        },
        // What is loaded is all that matters here.
        operationProblems: () => [{ code: 'not-allowed', at: '', message: 'not now' } as const],
      }
      await answerTo(store, { siteId, operations: [operation], now }, judge)
      expect(seen).toEqual([expected.map(({ id }) => id).sort()])
    })
  })

  test('gives up on a site that never stands still, and says that trying again may help', async () => {
    const store = await aStore()
    let version = 0
    const restless: Store = { ...store, planningVersion: async () => --version }
    await expect(answerTo(restless, { siteId, operations: [], now }, scheduler)).rejects.toThrow(DeciderBusy)
  })

  test('is the same in the thread it is called in', async () => {
    const store = await aStore()
    const decider = inProcessDecider(store)
    const request = { siteId, operations: [book(aBooking('dinner'))], now }
    expect(decider.isReady()).toBe(true)
    expect(await decider.decide(request)).toEqual(await answerTo(store, request))
    await decider.close()
    expect(await store.isReady()).toBe(true)
  })
})
