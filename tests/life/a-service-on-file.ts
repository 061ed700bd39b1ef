/** The real service on a database file, with its own thread that decides, listening on a port of its own. */
import type { AddressInfo } from 'node:net'
import { buildApp } from '../../src/api/app.ts'
import { randomId } from '../../src/random-id.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import type { Store } from '../../src/store/store.ts'
import type { Decider } from '../../src/worker/decider.ts'
import { threadDecider } from '../../src/worker/thread-decider.ts'
import { addKeeper, keptParts } from '../api/a-keeper.ts'
import { NOW } from '../api/a-service.ts'

export interface ServiceOnFile {
  readonly url: string
  readonly store: Store
  stop(): Promise<void>
}

/** @param around  what stands between the service and the thread that decides; the caller stops the service */
export async function aServiceOnFile(
  file: string,
  around: (decider: Decider) => Decider = (decider) => decider,
): Promise<ServiceOnFile> {
  const store = await openSqliteStore({ file })
  const decider = await threadDecider({ file })
  const app = buildApp({
    store,
    decider: around(decider),
    clock: () => NOW,
    newId: randomId,
    log: false,
    ...keptParts,
  })
  await addKeeper(store, NOW)
  await app.listen({ port: 0, host: '127.0.0.1' })
  const { port } = app.server.address() as AddressInfo
  return {
    url: `http://127.0.0.1:${port}`,
    store,
    async stop() {
      app.server.closeAllConnections()
      await app.close()
      await decider.close()
      store.close()
    },
  }
}
