/** What a client of a contest asks for next: drawn by lot, from what all of them know. */
import { seededRandom } from '../../src/scheduler/turn/seeded-random.ts'
import type { Asked } from './a-client.ts'
import type { ContestedHall } from './a-contested-hall.ts'
import type { Board } from './board.ts'
import { nameOfEnding } from './recording-decider.ts'

export interface Wish {
  readonly kind: 'book' | 'ask' | 'repeat' | 'reuse' | 'change' | 'cancel' | 'crew' | 'close' | 'reopen'
  /** What the rows that it writes are called by. */
  readonly name: string
  readonly asked: Asked
}

export interface Chances {
  /** A whole number from 0 to one less than `count`. */
  below(count: number): number
  oneOf<Thing>(things: readonly [Thing, ...Thing[]]): Thing
  any<Thing>(things: readonly Thing[]): Thing | null
}

export function chances(seed: number): Chances {
  const random = seededRandom(seed)
  const below = (count: number) => Math.floor(random() * count)
  return {
    below,
    oneOf: (things) => things[below(things.length)] ?? things[0],
    any: (things) => things[below(things.length)] ?? null,
  }
}

/** What is wanted of so many attempts, in hundredths; where there is nothing yet to do it to, a booking is asked for. */
const kinds: readonly Wish['kind'][] = [
  ...Array<Wish['kind']>(27).fill('book'),
  ...Array<Wish['kind']>(6).fill('ask'),
  ...Array<Wish['kind']>(12).fill('repeat'),
  ...Array<Wish['kind']>(2).fill('reuse'),
  ...Array<Wish['kind']>(22).fill('change'),
  ...Array<Wish['kind']>(23).fill('cancel'),
  ...Array<Wish['kind']>(3).fill('crew'),
  ...Array<Wish['kind']>(2).fill('close'),
  ...Array<Wish['kind']>(3).fill('reopen'),
]

/** @param posts  that were sent to the same service, oldest first */
export function nextWish(
  board: Board,
  posts: readonly Wish[],
  hall: ContestedHall,
  chance: Chances,
  name: string,
): Wish {
  const { path } = hall
  const known = chance.any(board.bookings)
  const ifMatch = (version: number) => ({ 'if-match': chance.below(20) === 0 ? '*' : `"${version}"` })
  switch (chance.any(kinds)) {
    case 'ask': {
      const body = wanted(hall, chance, name)
      return { kind: 'ask', name, asked: { method: 'POST', path: `${path}/bookings?dryRun=true`, body } }
    }
    case 'repeat': {
      const post = chance.any(posts.slice(-40))
      if (post) return { ...post, kind: 'repeat' }
      break
    }
    case 'reuse': {
      const post = chance.any(posts.slice(0, -40))
      if (post?.kind !== 'book') break
      // Nobody brings so many of their own accord.
      return { ...post, kind: 'reuse', asked: { ...post.asked, body: { ...post.asked.body, headcount: 17 } } }
    }
    case 'change': {
      if (!known) break
      const isRetitled = chance.below(4) === 0
      const body = isRetitled
        ? { title: name }
        : { ...wanted(hall, chance, name), doorsAt: null, clearAt: null }
      const asked: Asked = {
        method: 'PATCH',
        path: `${path}/bookings/${known.id}`,
        body,
        headers: ifMatch(known.version),
      }
      return { kind: 'change', name, asked }
    }
    case 'cancel': {
      if (!known || board.bookings.length < 6) break
      const headers = chance.below(2) === 0 ? {} : ifMatch(known.version)
      const asked: Asked = { method: 'DELETE', path: `${path}/bookings/${known.id}`, headers }
      return { kind: 'cancel', name: nameOfEnding(known.id), asked }
    }
    case 'crew': {
      const crew = { kind: 'hands', hands: 1 + chance.below(3), adults: true }
      const headers = { 'if-match': `"${board.shiftVersion}"` }
      const asked: Asked = {
        method: 'PATCH',
        path: `${path}/shifts/${hall.shiftId}`,
        body: { name, crew },
        headers,
      }
      return { kind: 'crew', name, asked }
    }
    case 'close': {
      if (board.closures.length > 2) break
      const { startsAt: fromAt, endsAt: toAt } = times(chance)
      const body = { sectionIds: [hall.southSectionId], fromAt, toAt, reason: name }
      return {
        kind: 'close',
        name,
        asked: { method: 'POST', path: `${path}/closures`, body, headers: { 'idempotency-key': name } },
      }
    }
    case 'reopen': {
      const id = chance.any(board.closures)
      if (!id) break
      const asked: Asked = { method: 'DELETE', path: `${path}/closures/${id}`, headers: { 'if-match': '*' } }
      return { kind: 'reopen', name: nameOfEnding(id), asked }
    }
    default:
  }
  const body = wanted(hall, chance, name)
  return {
    kind: 'book',
    name,
    asked: { method: 'POST', path: `${path}/bookings`, body, headers: { 'idempotency-key': name } },
  }
}

function wanted({ layouts }: ContestedHall, chance: Chances, title: string): object {
  // One in ten brings more people than seats: no other time helps against that.
  const headcount = chance.below(10) === 0 ? 49 : 1 + chance.below(16)
  return { title, ...chance.any(layouts), headcount, ...times(chance) }
}

const days = ['2026-12-04', '2026-12-05', '2026-12-06', '2026-12-07', '2026-12-08'] as const
/** Each day has two gaps of two hours and a half that everybody wants; before and after there is always room. */
const gapsFromHour = [9, 15] as const

function times(chance: Chances): { readonly startsAt: string; readonly endsAt: string } {
  const [day, hour] = [chance.oneOf(days), chance.oneOf(gapsFromHour)]
  const begin = 5 * chance.below(24)
  const at = (minutes: number) => {
    const two = (number: number) => String(number).padStart(2, '0')
    return `${day}T${two(hour + Math.floor(minutes / 60))}:${two(minutes % 60)}`
  }
  return { startsAt: at(begin), endsAt: at(begin + chance.oneOf([15, 20, 30])) }
}
