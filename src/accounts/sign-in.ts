/** Signing in with e-mail address and password, and out. */
import type { Account } from '../domain/accounts/account.ts'
import type { Accounts } from './accounts.ts'
import { isPasswordOf } from './passwords.ts'
import { sessionsOverBefore } from './session-times.ts'
import { isForgotten, secondsToWait } from './sign-in-delay.ts'

export type SignIn =
  | { readonly kind: 'signed-in'; readonly account: Account; readonly secret: string }
  /** No such account, or another password: which of them is not told. */
  | { readonly kind: 'wrong' }
  | { readonly kind: 'wait'; readonly seconds: number }

/**
 * Each attempt counts as a failure until it has succeeded, so that many at once are no way around the delay. It takes as
 * long and answers the same for accounts there are not.
 * @param address  where the request comes from
 */
export async function signIn(
  accounts: Accounts,
  { email, password }: { readonly email: string; readonly password: string },
  address: string,
): Promise<SignIn> {
  const { store, secrets, clock } = accounts
  const now = clock()
  const keys = {
    account: `account:${secrets.nameOf(email)}`,
    address: `address:${secrets.nameOf(address)}`,
  } as const
  const waits: number[] = []
  for (const kind of ['account', 'address'] as const) {
    const trouble = await store.trouble(keys[kind])
    waits.push(secondsToWait(trouble, kind, now))
    if (trouble && isForgotten(trouble, now)) await store.clearTrouble(keys[kind])
  }
  const seconds = Math.max(...waits)
  if (seconds > 0) return { kind: 'wait', seconds }
  await store.addFailure(keys.account, now)
  await store.addFailure(keys.address, now)
  const account = await store.accountByEmail(email)
  const isIt = await isPasswordOf(account && (await store.passwordHash(account.id)), password)
  if (!account || !isIt) return { kind: 'wrong' }
  await store.clearTrouble(keys.account)
  await store.takeBackFailure(keys.address)
  return { kind: 'signed-in', account, secret: await beginSession(accounts, account, null) }
}

/** @param link  hash of the link that is used up by it @returns the secret of the session */
export async function beginSession(
  { store, secrets, clock }: Accounts,
  { id }: Pick<Account, 'id'>,
  link: string | null,
): Promise<string> {
  const secret = secrets.fresh('session')
  const hash = secrets.hashOf('session', secret)
  if (hash === null) throw new Error('a fresh secret has no hash')
  const now = clock()
  await store.addSession(hash, id, now, { link, overBefore: sessionsOverBefore(now) })
  return secret
}
