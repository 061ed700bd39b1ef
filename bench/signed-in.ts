/** What is measured is measured as whoever uses it: signed in, here by the token of a program that keeps all sites. */
import { keyFileOf, secretKeyIn } from '../src/accounts/secret-key-file.ts'
import { secretsUnder } from '../src/accounts/secrets.ts'
import { AccessToken } from '../src/domain/accounts/access-token.ts'
import { openSqliteStore } from '../src/store/open-sqlite-store.ts'

const SECRET = `turnwright_token_${'b'.repeat(43)}`

export const SIGNED_IN = { authorization: `Bearer ${SECRET}` } as const

/** So that it counts for the service on this database. */
export async function letSignIn(databaseFile: string): Promise<void> {
  const hash = secretsUnder(secretKeyIn(keyFileOf(databaseFile))).hashOf('token', SECRET)
  if (hash === null) throw new Error('the secret of the bench is none')
  const store = await openSqliteStore({ file: databaseFile })
  if ((await store.accounts.token(hash)) === null) {
    const id = 'actor_bench'
    const dates = { createdAt: Date.now(), expiresAt: null, lastUsedAt: null, revokedAt: null }
    const token = { id, siteId: null, role: 'administrator', name: 'bench', createdBy: id, ...dates }
    await store.accounts.addToken(AccessToken.parse(token), hash, null)
  }
  store.close()
}
