/** The program that tests send requests as: it keeps the whole installation, and the audit calls it actor_local. */
import { secretsUnder } from '../../src/accounts/secrets.ts'
import { limitsOf } from '../../src/api/limits.ts'
import { configurationFrom } from '../../src/configuration.ts'
import { AccessToken } from '../../src/domain/accounts/access-token.ts'
import type { Store } from '../../src/store/store.ts'

/** The others do the same under other names. */
const ACTORS = ['actor_local', 'actor_ada', 'actor_ben', 'actor_cleo'] as const
const secretOf = (id: string): string => `turnwright_token_${id.padEnd(43, 'k')}`
const SECRET_KEY = Buffer.alloc(32, 7)

export const keeperCalled = (id: (typeof ACTORS)[number]) =>
  ({ authorization: `Bearer ${secretOf(id)}` }) as const
/** Sent along with a request, it is the keeper's. */
export const KEEPER = keeperCalled('actor_local')

/** What an app needs beside its store: no demo, letters that nobody sends, and no limit that a test would meet. */
export const keptParts = {
  configuration: configurationFrom({ DEMO: 'off' }),
  secretKey: SECRET_KEY,
  mail: { send: async () => undefined },
  limits: limitsOf(1_000_000, 1_000_000),
}

/** So that the tokens count. */
export async function addKeeper(store: Store, at: number): Promise<void> {
  for (const id of ACTORS) await addToken(store, id, at)
}

async function addToken(store: Store, id: string, at: number): Promise<void> {
  const token = AccessToken.parse({
    id,
    siteId: null,
    role: 'administrator',
    name: 'tests',
    createdBy: 'actor_local',
    createdAt: at,
    expiresAt: null,
    // Far ahead: no use of it is ever written down.
    lastUsedAt: Date.UTC(2090, 0),
    revokedAt: null,
  })
  const hash = secretsUnder(SECRET_KEY).hashOf('token', secretOf(id))
  if (hash === null) throw new Error('the secret of the tests is none')
  if ((await store.accounts.token(hash)) === null) await store.accounts.addToken(token, hash, null)
}
