/** The real service on a database of its own in memory, at a fixed moment; it is closed when the test ends. */
import type { FastifyInstance } from 'fastify'
import request, { type Response, type Test } from 'supertest'
import { onTestFinished } from 'vitest'
import type { Mail } from '../../src/accounts/mail.ts'
import { buildApp } from '../../src/api/app.ts'
import type { Limits } from '../../src/api/limits.ts'
import { configurationFrom } from '../../src/configuration.ts'
import { SiteId } from '../../src/domain/ids.ts'
import { Instant } from '../../src/domain/instant.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import type { Store } from '../../src/store/store.ts'
import type { Decider } from '../../src/worker/decider.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { addKeeper, KEEPER, keptParts } from './a-keeper.ts'

/** Monday 23 November 2026, 09:00 in Chicago. */
export const NOW = Instant.parse(Date.UTC(2026, 10, 23, 15))

export interface Service {
  readonly app: FastifyInstance
  readonly store: Store
  readonly get: (path: string) => Test
  readonly post: (path: string, body: unknown) => Test
  readonly patch: (path: string, body: unknown) => Test
  readonly delete: (path: string) => Test
  /** What is there, as a number that moves with every write, and how many rows the audit has. */
  readonly traces: (
    siteId: string,
  ) => Promise<{ readonly planningVersion: number | null; readonly audit: number }>
}

export interface ServiceOptions {
  readonly decider?: (store: Store) => Decider
  readonly store?: (store: Store) => Store
  /** NOW for ever, where left out. */
  readonly clock?: () => Instant
  readonly mail?: Mail
  readonly demo?: boolean
  readonly publicUrl?: string
  readonly limits?: Limits
}

export async function aService(options: ServiceOptions = {}): Promise<Service> {
  const opened = await openSqliteStore({ file: ':memory:' })
  const store = options.store?.(opened) ?? opened
  const decider = (options.decider ?? inProcessDecider)(store)
  let ids = 0
  const app = buildApp({
    store,
    decider,
    clock: options.clock ?? (() => NOW),
    newId: (prefix) => `${prefix}_t${String(++ids).padStart(4, '0')}`,
    log: false,
    ...keptParts,
    configuration: configurationFrom({
      DEMO: options.demo === true ? 'on' : 'off',
      PUBLIC_URL: options.publicUrl,
    }),
    ...(options.mail ? { mail: options.mail } : {}),
    ...(options.limits ? { limits: options.limits } : {}),
  })
  await app.ready()
  await addKeeper(store, NOW)
  onTestFinished(async () => {
    await app.close()
    await decider.close()
    opened.close()
  })
  const to = () => request(app.server)
  return {
    app,
    store,
    get: (path) => to().get(path).set(KEEPER),
    post: (path, body) => to().post(path).set(KEEPER).send(asBody(body)),
    patch: (path, body) => to().patch(path).set(KEEPER).send(asBody(body)),
    delete: (path) => to().delete(path).set(KEEPER),
    traces: async (siteId) => {
      const site = SiteId.parse(siteId)
      const audit = await store.audit(site, { limit: 200, after: null })
      return { planningVersion: await store.planningVersion(site), audit: audit.items.length }
    },
  }
}

const asBody = (body: unknown): object => {
  if (typeof body !== 'object' || body === null) throw new Error('a body is an object; send text by hand')
  return body
}

/** The id that was given to what a POST made. @throws when it made nothing */
export function idOf(response: Response): string {
  if (response.status !== 201) throw new Error(`${response.status}: ${response.text}`)
  return String(response.headers.location).split('/').at(-1) ?? ''
}
