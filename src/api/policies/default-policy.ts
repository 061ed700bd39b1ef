/** The policy a new site starts with. */
import type { PolicyId, SiteId } from '../../domain/ids.ts'
import type { Policy } from '../../domain/policy.ts'
import { DEFAULT_POLICY_NUMBERS } from '../../scheduler/network/index.ts'

/** A copy of its own, so that what somebody changes in it stays theirs. */
export const defaultPolicy = (id: PolicyId, siteId: SiteId): Policy => ({
  id,
  siteId,
  ...structuredClone(DEFAULT_POLICY_NUMBERS),
})
