/** What the program knows of accounts in the database. Whatever is said to count once fails with Conflict the second time. */
import type { AccessToken } from '../../domain/accounts/access-token.ts'
import type { Account, AccountDetails, Membership } from '../../domain/accounts/account.ts'
import type { OneTimeLink } from '../../domain/accounts/one-time-link.ts'
import type { ActorId, SiteId } from '../../domain/ids.ts'
import type { Instant } from '../../domain/instant.ts'

export interface NewAccount {
  readonly id: ActorId
  readonly details: AccountDetails
  readonly passwordHash: string | null
  readonly keepsAll: boolean
  readonly membership: Membership | null
}

/** Hash of a secret, keyed. */
export type SecretHash = string

export interface StoredSession {
  readonly account: Account
  readonly createdAt: Instant
  readonly seenAt: Instant
}

export interface Trouble {
  readonly failures: number
  readonly lastAt: Instant
}

/** How often something has failed now, and what was known of it when that was counted. */
export interface FailureCount {
  readonly key: string
  readonly seen: Trouble | null
  readonly failures: number
}

/** What an account change leaves in the audit of a site. */
export interface AccountAudit {
  readonly siteId: SiteId
  readonly at: Instant
  readonly actorId: ActorId
  readonly action: string
  readonly effects: readonly {
    readonly table: string
    readonly id: string
    readonly before: unknown
    readonly after: unknown
  }[]
}

export interface AccountStore {
  /** Any that is not removed. */
  hasAccounts(): Promise<boolean>
  account(id: ActorId): Promise<Account | null>
  /** Not one that is removed. */
  accountByEmail(email: string): Promise<Account | null>
  passwordHash(id: ActorId): Promise<string | null>
  members(siteId: SiteId): Promise<Account[]>

  /**
   * @param link  that is used up by it
   * @throws Conflict when the link is used, revoked or over, or the address has an account
   */
  addAccount(
    account: NewAccount,
    at: Instant,
    link: SecretHash | null,
    audit: AccountAudit | null,
  ): Promise<void>
  changeDetails(id: ActorId, details: AccountDetails): Promise<void>
  /** @param link  that is used up by it; every session ends */
  setPassword(id: ActorId, passwordHash: string, at: Instant, link: SecretHash | null): Promise<void>
  /** Name and address are erased, sessions and memberships end; the id stays for the audit. */
  removeAccount(id: ActorId, at: Instant, audits: readonly AccountAudit[]): Promise<void>
  /** @param link  that is used up by it */
  setMembership(id: ActorId, membership: Membership, audit: AccountAudit, link?: SecretHash): Promise<void>
  endMembership(id: ActorId, siteId: SiteId, audit: AccountAudit): Promise<void>

  /** A link is used up by it; sessions that began before some moment are cleared away. */
  addSession(
    hash: SecretHash,
    id: ActorId,
    at: Instant,
    other: { readonly link: SecretHash | null; readonly overBefore: Instant },
  ): Promise<void>
  session(hash: SecretHash): Promise<StoredSession | null>
  touchSession(hash: SecretHash, seenAt: Instant): Promise<void>
  endSession(hash: SecretHash): Promise<void>
  endSessions(id: ActorId): Promise<void>

  addToken(token: AccessToken, hash: SecretHash, audit: AccountAudit | null): Promise<void>
  token(hash: SecretHash): Promise<AccessToken | null>
  tokens(siteId: SiteId): Promise<AccessToken[]>
  touchToken(id: ActorId, lastUsedAt: Instant): Promise<void>
  /** false: there is none of that site in force */
  revokeToken(siteId: SiteId, id: ActorId, at: Instant, audit: AccountAudit): Promise<boolean>

  addLink(link: OneTimeLink, hash: SecretHash, audit: AccountAudit | null): Promise<void>
  /** In force at that moment; null: unknown, used, revoked or over. */
  link(hash: SecretHash, at: Instant): Promise<OneTimeLink | null>
  invitations(siteId: SiteId): Promise<OneTimeLink[]>
  /** false: there is none of that site in force */
  revokeInvitation(siteId: SiteId, id: string, at: Instant, audit: AccountAudit): Promise<boolean>
  /** All of one purpose: a new one takes their place. */
  revokeLinks(purpose: OneTimeLink['purpose'], accountId: ActorId | null, at: Instant): Promise<void>

  trouble(key: string): Promise<Trouble | null>
  /**
   * All or none.
   * @throws Conflict when one of them is not as it was seen: another attempt was faster
   */
  putFailures(counts: readonly FailureCount[], at: Instant): Promise<void>
  /** It was none after all. */
  takeBackFailure(key: string): Promise<void>
  clearTrouble(key: string): Promise<void>
}
