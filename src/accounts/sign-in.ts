/** Signing in with e-mail address and password, and out. */
import type { Account } from '../domain/accounts/account.ts'
import type { FailureCount } from '../store/accounts/account-store.ts'
import { Conflict } from '../store/store.ts'
import type { Accounts } from './accounts.ts'
import { isPasswordOf } from './passwords.ts'
import { sessionsOverBefore } from './session-times.ts'
import { failuresAfter, secondsToWait } from './sign-in-delay.ts'

export type SignIn =
  | { readonly kind: 'signed-in'; readonly account: Account; readonly secret: string }
  /** No such account, or another password: which of them is not told. */
  | { readonly kind: 'wrong' }
  | { readonly kind: 'wait'; readonly seconds: number }

/**
 * Each attempt counts as a failure until it has succeeded, and one after the other: many at once are no way around the
 * delay. It takes as long and answers the same for accounts there are not.
 * @param address  where the request comes from
 */
export async function signIn(
  accounts: Accounts,
  { email, password }: { readonly email: string; readonly password: string },
  address: string,
): Promise<SignIn> {
  const { store, secrets } = accounts
  const keys = {
    account: `account:${secrets.nameOf(email)}`,
    address: `address:${secrets.nameOf(address)}`,
  } as const
  const seconds = await waitOrCount(accounts, keys)
  if (seconds > 0) return { kind: 'wait', seconds }
  const account = await store.accountByEmail(email)
  const isIt = await isPasswordOf(account && (await store.passwordHash(account.id)), password)
  if (!account || !isIt) return { kind: 'wrong' }
  await store.clearTrouble(keys.account)
  await store.takeBackFailure(keys.address)
  return { kind: 'signed-in', account, secret: await beginSession(accounts, account, null) }
}

/** @returns seconds to wait, with nothing counted; 0: none, and one more failure is counted for each */
async function waitOrCount(
  { store, clock }: Accounts,
  keys: Readonly<Record<'account' | 'address', string>>,
): Promise<number> {
  // Ends: whenever it goes round, another attempt was counted.
  for (;;) {
    const now = clock()
    const counts: FailureCount[] = []
    let seconds = 0
    for (const kind of ['account', 'address'] as const) {
      const seen = await store.trouble(keys[kind])
      seconds = Math.max(seconds, secondsToWait(seen, kind, now))
      counts.push({ key: keys[kind], seen, failures: failuresAfter(seen, now) })
    }
    if (seconds > 0) return seconds
    try {
      await store.putFailures(counts, now)
      return 0
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
    }
  }
}

/** @param link  hash of the link that is used up by it @returns the secret of the session */
export async function beginSession(
  { store, secrets, clock }: Accounts,
  { id }: Pick<Account, 'id'>,
  link: string | null,
): Promise<string> {
  const { secret, hash } = secrets.fresh('session')
  const now = clock()
  await store.addSession(hash, id, now, { link, overBefore: sessionsOverBefore(now) })
  return secret
}
