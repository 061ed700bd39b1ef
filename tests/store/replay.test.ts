import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Booking } from '../../src/domain/booking.ts'
import { type SetupWrite, setupKinds } from '../../src/domain/setup.ts'
import type { Turn } from '../../src/domain/turn.ts'
import { stateFromAudit } from '../../src/store/replay.ts'
import { type Commit, Conflict, type Store } from '../../src/store/store.ts'
import {
  aBooking,
  aCommit,
  addition,
  aPlan,
  aPolicy,
  aStore,
  aTurn,
  at,
  booked,
  change,
  changes,
  hours,
  retirement,
  site,
  siteId,
  wrensDetails,
} from './a-world.ts'
import { oneOfEach, otherwise } from './one-of-each.ts'

const all = { limit: 1_000, after: null }
const replayed = async (store: Store) => stateFromAudit((await store.audit(siteId, all)).items)

/** One thing somebody does; `pick` chooses among the bookings there are. */
const step = fc.record({
  what: fc.constantFrom(
    'book',
    'book',
    'book',
    'move',
    'cancel',
    'replan',
    'judge',
    'close',
    'policy',
    'rename',
    'phone',
    'set-up',
    'set-up',
    'set-up',
    'set-up',
    'set-up',
  ),
  kind: fc.constantFrom(...setupKinds),
  how: fc.constantFrom('add', 'change', 'change', 'stale', 'stale', 'retire'),
  room: fc.constantFrom('east', 'west', 'whole'),
  doors: fc.integer({ min: 0, max: 40 }),
  pick: fc.nat(),
})
type Step = typeof step extends fc.Arbitrary<infer One> ? One : never

/** One row of the set-up added, changed or retired; null when it is not there, or there already. */
async function setupWriteOf(store: Store, { kind, how, pick }: Step): Promise<SetupWrite | null> {
  const { after } = oneOfEach[kind]
  const stored = await store.setupRow(siteId, kind, after.id)
  if (how === 'add') return stored ? null : oneOfEach[kind]
  if (!stored) return null
  // Also once it is out of use, which is refused. The last policy stays: nothing is decided without one.
  if (how === 'retire') return kind === 'policy' ? null : retirement(kind, stored.row)
  const read = how === 'stale' ? after : stored.row
  return change(kind, read, pick % 2 === 0 ? otherwise[kind] : after)
}

/** A hold of a link, whose room is kept for some hours. */
const held = (doors: number) => ({
  status: 'TENTATIVE',
  holdExpiresAt: at(doors),
  linkId: 'link_spring',
  keepAsSet: true,
  keptUntilAt: at(doors + 5),
  ownHelp: { hands: 2, seconds: 600 },
})

/** The commit of a step; null when there is nothing yet that it could be done to. */
function commitOf(
  { what, room, doors, pick }: Step,
  index: number,
  version: number,
  turns: readonly Turn[],
  bookings: readonly Booking[],
  setupWrite: SetupWrite | null,
): Commit | null {
  const make = (rest: Partial<Commit>) => aCommit({ planningVersionExpected: version, action: what, ...rest })
  const booking = bookings[pick % Math.max(1, bookings.length)]
  const turn = turns.find(({ bookingId }) => bookingId === booking?.id)
  switch (what) {
    case 'book':
      return booked([aBooking(`b${index}`, { room, doors, ...(pick % 4 === 0 ? held(doors) : {}) })], {
        planningVersionExpected: version,
      })
    case 'move': {
      if (!booking || !turn) return null
      const after = {
        ...aBooking('x', { room, doors }),
        id: booking.id,
        turnId: turn.id,
        version: booking.version + 1,
      }
      const turnAfter = aTurn(after)
      return make({
        changes: changes({
          bookings: [{ before: booking, after }],
          turns: [{ before: turn, after: turnAfter }],
        }),
      })
    }
    case 'cancel': {
      if (!booking || !turn) return null
      const after: Booking = { ...booking, status: 'CANCELLED', version: booking.version + 1 }
      const turnAfter: Turn = { ...turn, status: 'dropped', plan: null }
      return make({
        changes: changes({
          bookings: [{ before: booking, after }],
          turns: [{ before: turn, after: turnAfter }],
        }),
      })
    }
    case 'replan':
      if (!booking || !turn) return null
      return make({
        changes: changes({
          turns: [
            { before: turn, after: { ...turn, status: 'ready', plan: aPlan(booking, 1 + (pick % 4)) } },
          ],
        }),
      })
    case 'judge':
      return make({ changes: changes({ judgedThroughAt: pick % 3 === 0 ? null : at(doors) }) })
    case 'close': {
      const row = {
        id: `closure_c${index}`,
        sectionIds: ['section_east'],
        ...hours(doors, doors + 1),
        reason: 'Works',
      }
      return make({ setup: [addition('closure', row)] })
    }
    case 'policy':
      return make({ setup: [aPolicy(`policy_p${index}`)] })
    case 'set-up':
      return setupWrite && make({ action: `change-${setupWrite.kind}`, setup: [setupWrite] })
    case 'rename':
      return make({ site: { ...site, name: `Larch Court ${index}` } })
    default:
      return make({ personDetails: [{ ...wrensDetails, phone: `0100 555 ${1_000 + index}` }] })
  }
}

describe('replaying the audit', () => {
  test('of a site that was just founded gives its set-up', async () => {
    const store = await aStore()
    const state = await replayed(store)
    expect(state).toEqual(await store.recordedState(siteId))
    expect([...state.keys()].sort()).toEqual([
      'equipment',
      'furnishing',
      'layout',
      'person',
      'policy',
      'room',
      'section',
      'shift',
      'site',
      'storagePlace',
    ])
  })

  test('gives the rows that are stored, whatever was done and refused before', async () => {
    let refused = 0
    const done = new Set<string>()
    const begun = fc.subarray([...setupKinds].filter((kind) => kind !== 'policy'))
    const steps = fc.array(step, { minLength: 15, maxLength: 40, size: 'max' })
    const property = fc.asyncProperty(begun, steps, async (kinds, taken) => {
      const store = await aStore()
      await store.commit(aCommit({ setup: kinds.map((kind) => oneOfEach[kind]) }))
      for (const [index, one] of taken.entries()) {
        const state = await store.load(siteId, hours(-100, 100), hours(0, 0).fromAt)
        const setupWrite = await setupWriteOf(store, one)
        const commit =
          state && commitOf(one, index, state.planningVersion, state.turns, state.bookings, setupWrite)
        if (!commit) continue
        try {
          await store.commit(commit)
          for (const { kind, before, retire } of commit.setup ?? [])
            done.add(`${kind} ${retire ? 'retired' : before ? 'changed' : 'added'}`)
        } catch (error) {
          if (!(error instanceof Conflict)) throw error
          refused += 1
        }
      }
      expect(await replayed(store)).toEqual(await store.recordedState(siteId))
      store.close()
    })
    await fc.assert(property, { seed: 20261125, numRuns: 12 })
    expect(refused).toBeGreaterThan(5)
    // That it walked through most of what can be done to a set-up, and not only through bookings.
    expect(done.size).toBeGreaterThan(20)
  })

  test('of every kind of row, added, changed and retired, gives the rows that are stored', async () => {
    const store = await aStore()
    for (const kind of setupKinds) {
      const { after } = oneOfEach[kind]
      const changed = change(kind, after, otherwise[kind])
      for (const setup of [oneOfEach[kind], changed, retirement(kind, changed.after)])
        await store.commit(
          aCommit({ planningVersionExpected: null, action: `write-${kind}`, setup: [setup] }),
        )
    }
    const state = await replayed(store)
    expect(state).toEqual(await store.recordedState(siteId))
    for (const kind of setupKinds)
      expect(state.get(kind)?.get(oneOfEach[kind].after.id)).toMatchObject({
        version: 3,
        retiredAt: expect.any(Number),
      })
  })

  test('says so when a line is missing in between', async () => {
    const store = await aStore()
    const dinner = aBooking('dinner')
    await store.commit(booked([dinner]))
    const moved = { ...dinner, title: 'Supper', version: 2 }
    const move = changes({ bookings: [{ before: dinner, after: moved }] })
    await store.commit(aCommit({ planningVersionExpected: 2, action: 'change', changes: move }))
    const entries = (await store.audit(siteId, all)).items
    expect(() => stateFromAudit(entries)).not.toThrow()
    expect(() => stateFromAudit(entries.filter(({ action }) => action !== 'book'))).toThrow(
      'another booking booking_dinner',
    )
  })

  test('of no lines gives nothing', () => {
    expect(stateFromAudit([]).size).toBe(0)
  })
})
