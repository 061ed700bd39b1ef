/** What becomes of turns to come when the hall, its crew or what stands in it changes. */
import { describe, expect, test } from 'vitest'
import { Closure } from '../../../src/domain/closure.ts'
import { PolicyId, RateSetId, SiteId } from '../../../src/domain/ids.ts'
import { Observation } from '../../../src/domain/observation.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import type { RateSet } from '../../../src/domain/rate-set.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { Turn } from '../../../src/domain/turn.ts'
import { brokenInvariants, decide } from '../../../src/scheduler/decide/index.ts'
import { DEFAULT_RATES } from '../../../src/scheduler/network/index.ts'
import { aHall, at, book, close, type HallWishes, setUp, snapshotAfter } from './a-hall.ts'

const siteId = SiteId.parse('site_test')

/** A dinner at 22:10 after a games night that is clear at 21:00: ready with time to spare for six hands. */
function gamesThenDinner(wishes: HallWishes = {}): SiteSnapshot {
  const asked = [
    book({ name: 'games', layout: 'long-games', doors: '2026-06-05T18:00', clear: '2026-06-05T21:00' }),
    book({
      name: 'dinner',
      layout: 'long-banquet',
      doors: '2026-06-05T22:10',
      clear: '2026-06-05T23:30',
      headcount: 100,
    }),
  ]
  return asked.reduce<SiteSnapshot>(carriedOut, aHall({ hands: 6, ...wishes }))
}

function carriedOut(snapshot: SiteSnapshot, operation: Operation): SiteSnapshot {
  const { changes, reasons } = decide(snapshot, [operation])
  if (!changes) throw new Error(`refused: ${reasons.map(({ message }) => message).join(' ')}`)
  const next = snapshotAfter(snapshot, changes)
  expect(brokenInvariants(next)).toEqual([])
  return next
}

function dinnerTurn(snapshot: SiteSnapshot): Turn {
  const turn = snapshot.turns.find(({ id }) => id === 'turn_dinner')
  if (!turn) throw new Error('the dinner has no turn')
  return turn
}

describe('when the set-up changes', () => {
  test('a turn whose hands stay keeps the plan that people have read', () => {
    const snapshot = gamesThenDinner()
    const [side] = snapshot.rooms.filter(({ id }) => id === 'room_side')
    const renamed = setUp({ kind: 'room', before: side!, after: { ...side!, name: 'Annex' }, retire: false })
    expect(dinnerTurn(carriedOut(snapshot, renamed))).toEqual(dinnerTurn(snapshot))
  })

  test('a shift that is taken out of use leaves the turn it was for failing, and says so', () => {
    const snapshot = gamesThenDinner()
    const [shift] = snapshot.shifts
    const decision = decide(snapshot, [setUp({ kind: 'shift', before: shift!, after: shift!, retire: true })])
    expect(decision.verdict).toBe('does-not-fit')
    expect(decision.affected.map(({ turnId, verdict }) => [turnId, verdict])).toContainEqual([
      'turn_dinner',
      'does-not-fit',
    ])
    expect(decision.changes).not.toBeNull()
  })

  test('a slower crew is planned anew: a policy is judged against every turn of its span', () => {
    const snapshot = gamesThenDinner()
    const slower = { ...snapshot.policy, id: PolicyId.parse('policy_slower'), paceFactor: 3 }
    const changed = carriedOut(
      snapshot,
      setUp({ kind: 'policy', before: null, after: slower, retire: false }),
    )
    expect(dinnerTurn(changed)).toMatchObject({ status: 'failing', judgement: { policyId: 'policy_slower' } })
  })

  test('a new rate set changes how long the turn takes', () => {
    const snapshot = gamesThenDinner()
    const quick: RateSet = {
      id: RateSetId.parse('rateset_quick'),
      siteId,
      number: 1,
      name: 'Quick with tables',
      rates: {
        ...DEFAULT_RATES,
        fromTrolley: {
          ...DEFAULT_RATES.fromTrolley,
          'round-table': { setPersonSeconds: 20, strikePersonSeconds: 20 },
        },
      },
      marks: { 'fromTrolley.round-table.setPersonSeconds': { origin: 'set', source: 'our stopwatch' } },
    }
    const changed = carriedOut(
      snapshot,
      setUp({ kind: 'rateSet', before: null, after: quick, retire: false }),
    )
    const { judgement } = dinnerTurn(changed)
    expect(judgement.rateSetId).toBe('rateset_quick')
    expect(judgement.readyAt!).toBeLessThan(dinnerTurn(snapshot).judgement.readyAt!)
  })

  test('a layout with more to put up is planned anew', () => {
    const snapshot = gamesThenDinner()
    const banquet = snapshot.layouts.find(({ id }) => id === 'layout_long-banquet')!
    const fuller = {
      ...banquet,
      furnishings: banquet.furnishings.map((piece) =>
        piece.furnishingId === 'furnishing_round-table' ? { ...piece, count: 24 } : piece,
      ),
    }
    const changed = carriedOut(
      snapshot,
      setUp({ kind: 'layout', before: banquet, after: fuller, retire: false }),
    )
    const tables = dinnerTurn(changed).plan?.tasks.filter(
      ({ kind, furnishingId }) => kind === 'set' && furnishingId === 'furnishing_round-table',
    )
    const isFailing = dinnerTurn(changed).status === 'failing'
    expect(isFailing || tables?.reduce((sum, { count }) => sum + (count ?? 0), 0) === 24).toBe(true)
    expect(dinnerTurn(changed).inputHash).not.toBe(dinnerTurn(snapshot).inputHash)
  })

  test('a retired layout still says what an earlier booking left standing', () => {
    const snapshot = gamesThenDinner()
    const games = snapshot.layouts.find(({ id }) => id === 'layout_long-games')!
    const changed = carriedOut(snapshot, setUp({ kind: 'layout', before: games, after: games, retire: true }))
    expect(changed.layouts.map(({ id }) => id)).not.toContain('layout_long-games')
    expect(dinnerTurn(changed)).toEqual(dinnerTurn(snapshot))
  })
})

describe('what somebody saw standing', () => {
  const seen = (pieces: readonly unknown[], seenAt: string): Operation =>
    setUp({
      kind: 'observation',
      before: null,
      after: Observation.parse({
        id: 'observation_evening',
        siteId: 'site_test',
        roomId: 'room_long',
        seenAt: at(seenAt),
        pieces,
        standsLike: 'banquet',
      }),
      retire: false,
    })
  const asWanted = [
    { furnishingId: 'furnishing_round-table', count: 15 },
    { furnishingId: 'furnishing_chair', count: 120 },
    { furnishingId: 'furnishing_cloth', count: 15 },
  ]

  test('takes the place of what the last booking should have left', () => {
    const snapshot = gamesThenDinner()
    const changed = carriedOut(snapshot, seen(asWanted, '2026-06-05T20:55'))
    const setUpPieces = (one: SiteSnapshot) =>
      dinnerTurn(one)
        .plan!.tasks.filter(({ kind }) => kind === 'set')
        .reduce((sum, { count }) => sum + (count ?? 0), 0)
    expect(setUpPieces(changed)).toBeLessThan(setUpPieces(snapshot) / 4)
  })

  test('no longer counts once the room has been used again', () => {
    const snapshot = gamesThenDinner()
    const changed = carriedOut(snapshot, seen(asWanted, '2026-06-05T17:00'))
    expect(dinnerTurn(changed)).toEqual(dinnerTurn(snapshot))
  })
})

describe('a closed way', () => {
  const closure = (of: object): Operation =>
    close(
      Closure.parse({
        id: 'closure_way',
        siteId: 'site_test',
        sectionIds: [],
        ...of,
        fromAt: at('2026-06-05T20:00'),
        toAt: at('2026-06-05T21:40'),
        reason: 'the floor there is being sealed',
      }),
    )

  test('a store that is closed is neither fetched from nor filled meanwhile', () => {
    const changed = carriedOut(gamesThenDinner({ hands: 8 }), closure({ storagePlaceIds: ['storage_north'] }))
    for (const task of dinnerTurn(changed).plan?.tasks ?? []) {
      if ([task.fromPlace, task.toPlace].includes('North store')) {
        expect(task.startsAt).toBeGreaterThanOrEqual(at('2026-06-05T21:40'))
      }
    }
    expect(dinnerTurn(changed).judgement.readyAt).not.toBe(
      dinnerTurn(gamesThenDinner({ hands: 8 })).judgement.readyAt,
    )
  })

  test('nothing is carried through a passage that is closed', () => {
    const passages = [{ id: 'passage_double-door', name: 'Double door', kind: 'doorway' }]
    const hall = { hands: 8, passages, storeRoutePassageIds: ['passage_double-door'] }
    const changed = carriedOut(gamesThenDinner(hall), closure({ passageIds: ['passage_double-door'] }))
    const through = (dinnerTurn(changed).plan?.tasks ?? []).filter(({ uses }) =>
      uses.some(({ resource }) => resource === 'passage:passage_double-door'),
    )
    for (const task of through) expect(task.startsAt).toBeGreaterThanOrEqual(at('2026-06-05T21:40'))
    expect(dinnerTurn(changed).judgement.readyAt).not.toBe(
      dinnerTurn(gamesThenDinner(hall)).judgement.readyAt,
    )
  })

  test('a passage elsewhere is nobody’s business here', () => {
    const snapshot = gamesThenDinner()
    const changed = carriedOut(snapshot, closure({ passageIds: ['passage_attic-stairs'] }))
    expect(dinnerTurn(changed)).toEqual(dinnerTurn(snapshot))
  })
})

describe('a turn that is under way', () => {
  /** At 21:20 the room is being turned for the dinner. */
  const running = (): SiteSnapshot => ({ ...gamesThenDinner(), now: at('2026-06-05T21:20') })

  test('goes on as it was planned when a shift or a layout changes', () => {
    const snapshot = running()
    const [shift] = snapshot.shifts
    const gone = carriedOut(snapshot, setUp({ kind: 'shift', before: shift!, after: shift!, retire: true }))
    expect(dinnerTurn(gone)).toEqual(dinnerTurn(snapshot))
    const banquet = snapshot.layouts.find(({ id }) => id === 'layout_long-banquet')!
    const renamed = setUp({
      kind: 'layout',
      before: banquet,
      after: { ...banquet, name: 'supper' },
      retire: false,
    })
    expect(dinnerTurn(carriedOut(snapshot, renamed))).toEqual(dinnerTurn(snapshot))
  })

  test('goes on as it was planned when somebody books the room after it, though the hall has changed since', () => {
    const snapshot = running()
    const banquet = snapshot.layouts.find(({ id }) => id === 'layout_long-banquet')!
    const fuller = {
      ...banquet,
      furnishings: banquet.furnishings.map((piece) =>
        piece.furnishingId === 'furnishing_round-table' ? { ...piece, count: 16 } : piece,
      ),
    }
    const changed = carriedOut(
      snapshot,
      setUp({ kind: 'layout', before: banquet, after: fuller, retire: false }),
    )
    const brunch = book({
      name: 'brunch',
      layout: 'long-games',
      doors: '2026-06-06T10:00',
      clear: '2026-06-06T12:00',
    })
    expect(dinnerTurn(carriedOut(changed, brunch))).toEqual(dinnerTurn(snapshot))
  })

  test('is planned anew from what somebody sees there', () => {
    const snapshot = running()
    const seen = setUp({
      kind: 'observation',
      before: null,
      after: Observation.parse({
        id: 'observation_now',
        siteId: 'site_test',
        roomId: 'room_long',
        seenAt: at('2026-06-05T21:20'),
        pieces: [
          { furnishingId: 'furnishing_round-table', count: 15 },
          { furnishingId: 'furnishing_chair', count: 60 },
        ],
        standsLike: 'banquet',
      }),
      retire: false,
    })
    const turn = dinnerTurn(carriedOut(snapshot, seen))
    expect(turn.plan!.startsAt).toBeGreaterThanOrEqual(at('2026-06-05T21:20'))
    expect(turn.plan!.tasks.some(({ kind, count }) => kind === 'set' && (count ?? 0) > 0)).toBe(true)
    expect(turn.inputHash).not.toBe(dinnerTurn(snapshot).inputHash)
  })
})

test('a change that no turn feels writes no turn', () => {
  // As it comes back from where it is stored.
  const decided = gamesThenDinner()
  const snapshot = { ...decided, turns: decided.turns.map((turn) => Turn.parse(turn)) }
  const [side] = snapshot.rooms.filter(({ id }) => id === 'room_side')
  const renamed = setUp({ kind: 'room', before: side!, after: { ...side!, name: 'Annex' }, retire: false })
  const decision = decide({ ...snapshot, now: at('2026-06-02T09:00') }, [renamed])
  expect(decision.changes?.turns).toEqual([])
})
