/**
 * Random days at a hall with links over several rooms that keep what they can as it is set. After each step `lived` asks
 * that nobody stands where a room is kept, and that it is kept where a link asks for it. For a long look:
 * `LIFE_RUNS=300 LIFE_SEED=7 npx vitest run tests/scheduler/decide/links-at-random.test.ts`.
 */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { aBusyHall } from './random-life/a-busy-hall.ts'
import { bookAgain, bookOnce, type Happening, happening, linkThatKeeps } from './random-life/happening.ts'
import { lived, type Outcome } from './random-life/lived.ts'
import { untilWhenKept } from './random-life/sets-kept.ts'

const place = { zone: 'America/Chicago', firstDate: '2026-03-05' }
const seed = Number(process.env.LIFE_SEED ?? 20261125)
const numRuns = Number(process.env.LIFE_RUNS ?? 8)
const PATIENCE_MILLISECONDS = 120_000 * Math.max(1, numRuns / 20)

const kindsAround: ReadonlySet<Happening['what']> = new Set([
  'book',
  'hold',
  'book-again',
  'confirm',
  'move',
  'move-place',
  'swap',
  'cancel',
  'unlink',
  'clear-later',
  'policy',
  'clock',
])
const around = happening.filter(({ what }) => kindsAround.has(what))

/** Bookings, some of them once more; then links, and what may come between. */
const life: fc.Arbitrary<Happening[]> = fc
  .tuple(
    fc.array(bookOnce, { minLength: 5, maxLength: 8, size: 'max' }),
    fc.array(bookAgain, { minLength: 3, maxLength: 6, size: 'max' }),
    fc.array(fc.tuple(linkThatKeeps, fc.array(around, { maxLength: 3 })), {
      minLength: 4,
      maxLength: 6,
      size: 'max',
    }),
  )
  .map(([bookings, again, rest]) => [
    ...bookings,
    ...again,
    ...rest.flatMap(([link, others]) => [link, ...others]),
  ])

/** What came of the links that were asked for, and how often one over several rooms kept a set. */
interface Met {
  readonly outcomes: Map<Outcome, number>
  keptOverRooms: number
}

function lifeLived(all: readonly Happening[], met: Met): void {
  let snapshot = aBusyHall(place)
  for (const [index, one] of all.entries()) {
    const name = `n${index + 1}`
    const { snapshot: next, outcome } = lived(snapshot, one, { ...place, name }, { alternatives: false })
    snapshot = next
    if (one.what !== 'link') continue
    met.outcomes.set(outcome, (met.outcomes.get(outcome) ?? 0) + 1)
    if (outcome === 'taken' && keepsOverRooms(snapshot, `link_${name}`)) met.keptOverRooms += 1
  }
}

function keepsOverRooms(snapshot: SiteSnapshot, id: string): boolean {
  const linked = snapshot.bookings.filter(({ linkId }) => linkId === id)
  const kept = untilWhenKept(snapshot)
  return new Set(linked.map(({ roomId }) => roomId)).size > 1 && linked.some((one) => one.id in kept)
}

test(
  'rooms that links keep as set are kept, whatever else happens, and nobody else stands in them',
  () => {
    const met: Met = { outcomes: new Map(), keptOverRooms: 0 }
    fc.assert(
      fc.property(life, (all) => lifeLived(all, met)),
      { seed, numRuns },
    )
    // Worth something only if there was something to keep, and sometimes nothing.
    expect(met.keptOverRooms).toBeGreaterThan(5)
    expect(met.outcomes.get('refused') ?? 0).toBeGreaterThan(0)
    expect(met.outcomes.get('problems') ?? 0).toBeGreaterThan(0)
  },
  PATIENCE_MILLISECONDS,
)
