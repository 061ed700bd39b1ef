/** Many clients at once want the same gaps of a small hall: they ask, change, cancel, repeat themselves, and move the hall. */
import type { SiteId } from '../../src/domain/ids.ts'
import type { Store } from '../../src/store/store.ts'
import { type Answered, aClient } from './a-client.ts'
import type { ContestedHall } from './a-contested-hall.ts'
import { type Board, readAgain, see } from './board.ts'
import { chances, nextWish, type Wish } from './wishes.ts'

export interface Attempt extends Wish {
  readonly answered: Answered
  /** Everything up to this version of the site was written before it was sent. */
  readonly versionBefore: number
  /** Nothing after this version was written before it was answered. */
  readonly versionAfter: number
}

/** Somewhere the contest takes place: several may serve the same file. */
export interface Place {
  readonly url: string
  readonly store: Store
}

export interface Contest {
  readonly clients: number
  readonly attempts: number
  readonly seed: number
}

/** @returns every attempt, in the order of answers */
export async function contest(
  places: readonly Place[],
  hall: ContestedHall,
  siteId: SiteId,
  { clients, attempts, seed }: Contest,
): Promise<Attempt[]> {
  const board: Board = { bookings: [], closures: [], shiftVersion: 1 }
  // By the place they were sent to: they are repeated there.
  const postsOf = places.map((): Wish[] => [])
  const done: Attempt[] = []
  let begun = 0

  async function play(index: number): Promise<void> {
    const { url, store } = places[index % places.length]!
    const posts = postsOf[index % places.length]!
    const client = aClient(url)
    const chance = chances(seed + index)
    const version = async () => (await store.planningVersion(siteId)) ?? 0
    while (begun < attempts) {
      begun += 1
      const wish = nextWish(board, posts, hall, chance, `${index}-${begun}`)
      if (wish.kind === 'book' || wish.kind === 'close') posts.push(wish)
      const versionBefore = await version()
      const answered = await client.ask(wish.asked)
      done.push({ ...wish, answered, versionBefore, versionAfter: await version() })
      see(board, wish, answered)
      if (answered.status === 412)
        readAgain(board, wish, await client.ask({ method: 'GET', path: wish.asked.path }))
    }
    client.close()
  }

  await Promise.all(Array.from({ length: clients }, (_, index) => play(index)))
  return done
}
