/** How the minutes of a stored turn come about: its network made anew. Nothing is solved, and nothing is kept. */
import { instantPlusSeconds } from '../../domain/instant.ts'
import { TURN_LONGEST_SECONDS, type Turn } from '../../domain/turn.ts'
import { type ReckonedNetwork, reckonedNetwork } from '../../scheduler/network/index.ts'
import { homeTurnInputOf, turnInputOf } from '../../scheduler/timeline/turn-input.ts'
import { worldOf } from '../../scheduler/timeline/world.ts'
import type { ApiContext } from '../context.ts'

/** @returns null when there is no plan, or it was made from another set-up, policy or rate set than today's */
export async function reckonedToday(
  { store, clock }: ApiContext,
  { siteId, bookingId, purpose, dueAt, inputHash, judgement, plan }: Turn,
): Promise<ReckonedNetwork | null> {
  if (!plan) return null
  const window = {
    fromAt: instantPlusSeconds(dueAt, -TURN_LONGEST_SECONDS),
    toAt: instantPlusSeconds(dueAt, 1),
  }
  const snapshot = await store.load(siteId, window, clock())
  const booking = snapshot?.bookings.find(({ id }) => id === bookingId)
  if (!snapshot || !booking) return null
  const { policy, rateSet } = snapshot
  if (judgement.policyId !== policy.id || judgement.rateSetId !== (rateSet?.id ?? null)) return null
  const world = worldOf(snapshot)
  const input = purpose === 'prepare' ? turnInputOf(world, booking) : homeTurnInputOf(world, booking)
  return input?.inputHash === inputHash ? reckonedNetwork(input.network) : null
}
