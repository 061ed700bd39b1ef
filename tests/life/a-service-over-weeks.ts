/** The real service with all that it does by itself, on a database file of its own, at a clock that a test moves. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import request, { type Response, type Test } from 'supertest'
import { buildApp } from '../../src/api/app.ts'
import { lapseExpired } from '../../src/api/lapse-holds.ts'
import { SiteQueue, WRITERS_WAITING_MOST } from '../../src/api/site-queue.ts'
import { background } from '../../src/background/background.ts'
import { Instant } from '../../src/domain/instant.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import type { Store } from '../../src/store/store.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { addKeeper, KEEPER, keptParts } from '../api/a-keeper.ts'

/** Longer than this nobody has written, and plans are gone over. */
export const QUIET_SECONDS = 60

export interface ServiceOverWeeks {
  readonly file: string
  readonly store: Store
  readonly now: () => Instant
  /** Later only. */
  readonly moveClock: (to: Instant) => void
  /** What the service does by itself, until there is nothing more to do. @returns how many times it wrote */
  readonly settle: () => Promise<number>
  readonly post: (path: string, body: object) => Test
  readonly patch: (path: string, body: object) => Test
  readonly delete: (path: string) => Test
  readonly get: (path: string) => Test
  readonly stop: () => Promise<void>
}

/** The caller stops it. */
export async function aServiceOverWeeks(startsAt: Instant): Promise<ServiceOverWeeks> {
  const folder = mkdtempSync(path.join(tmpdir(), 'weeks-'))
  const file = path.join(folder, 'hall.sqlite')
  const store = await openSqliteStore({ file })
  const decider = inProcessDecider(store)
  let at: number = startsAt
  let ids = 0
  const now = () => Instant.parse(at)
  const queue = new SiteQueue(WRITERS_WAITING_MOST)
  const app = buildApp({
    store,
    decider,
    clock: now,
    newId: (prefix) => `${prefix}_w${String(++ids).padStart(5, '0')}`,
    log: false,
    ...keptParts,
    queue,
  })
  await app.ready()
  await addKeeper(store, startsAt)
  const faults: unknown[] = []
  const own = background({
    store,
    decider,
    clock: now,
    inTurn: (siteId, work) => queue.run(siteId, work),
    lapse: (siteId) => lapseExpired({ store, decider, clock: now }, siteId),
    quietMilliseconds: QUIET_SECONDS * 1000,
    onFault: (fault) => faults.push(fault),
  })
  const to = () => request(app.server)
  return {
    file,
    store,
    now,
    moveClock: (to) => {
      at = Math.max(at, to)
    },
    settle: async () => {
      const writes = await own.untilIdle()
      if (faults.length > 0) throw new AggregateError(faults, 'what the service does by itself went wrong')
      return writes
    },
    post: (path, body) => to().post(path).set(KEEPER).send(body),
    patch: (path, body) => to().patch(path).set(KEEPER).set('if-match', '*').send(body),
    delete: (path) => to().delete(path).set(KEEPER).set('if-match', '*'),
    get: (path) => to().get(path).set(KEEPER),
    stop: async () => {
      await own.stop()
      await app.close()
      await decider.close()
      store.close()
      rmSync(folder, { recursive: true })
    },
  }
}

/** The id that was given to what a POST made. @throws when it made nothing */
export function idOf(response: Response): string {
  if (response.status !== 201) throw new Error(`${response.status}: ${response.text}`)
  return String(response.headers.location).split('/').at(-1) ?? ''
}
