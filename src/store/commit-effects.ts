/** What a commit changed, as the audit and the change log tell it. Personal fields never come here. */
import type { Turn } from '../domain/turn.ts'
import type { PendingWrite } from './pending-write.ts'
import type { AuditEffect } from './store.ts'

/** A set-up row as it is recorded: with when it was retired. */
export const recordedSetupRow = (row: object, retiredAt: number | null) => ({ ...row, retiredAt })

/** A turn as it is recorded: with the hash of its plan in place of the plan. */
export function recordedTurn(turn: Turn, planHash: string | null) {
  const { plan: _, ...alone } = turn
  return { ...alone, planHash }
}

/** Rows before and after, by table and id. A row comes once. */
export function commitEffects(write: PendingWrite): AuditEffect[] {
  const effects: AuditEffect[] = []
  if (write.site) effects.push({ table: 'site', id: write.site.after.id, ...write.site })
  if (write.policyRetired) {
    effects.push({
      table: 'policy',
      id: write.policyRetired.id,
      before: recordedSetupRow(write.policyRetired, null),
      after: recordedSetupRow(write.policyRetired, write.commit.at),
    })
  }
  for (const { kind, row, before } of write.setup) {
    const recorded = recordedSetupRow(row, null)
    effects.push({
      table: kind,
      id: row.id,
      before: before && recordedSetupRow(before, null),
      after: recorded,
    })
  }
  for (const { before, after } of write.bookings)
    effects.push({ table: 'booking', id: after.id, before, after })
  for (const { before, after, planHashBefore, planHashAfter } of write.turns) {
    effects.push({
      table: 'turn',
      id: after.id,
      before: before && recordedTurn(before, planHashBefore),
      after: recordedTurn(after, planHashAfter),
    })
  }
  return effects
}

export interface LoggedChange {
  readonly resourceKind: string
  readonly resourceId: string
  readonly what: 'added' | 'changed' | 'cancelled' | 'dropped' | 'retired'
}

/** The same in brief, for those who listen. */
export function loggedChanges(write: PendingWrite): LoggedChange[] {
  const changes: LoggedChange[] = []
  const log = (resourceKind: string, resourceId: string, what: LoggedChange['what']) => {
    changes.push({ resourceKind, resourceId, what })
  }
  if (write.site) log('site', write.site.after.id, write.site.before ? 'changed' : 'added')
  if (write.policyRetired) log('policy', write.policyRetired.id, 'retired')
  for (const { kind, row, before } of write.setup) log(kind, row.id, before ? 'changed' : 'added')
  for (const { personId } of write.personDetails) log('personDetails', personId, 'changed')
  for (const { before, after } of write.bookings) {
    const isCancelled = after.status === 'CANCELLED' && before?.status !== 'CANCELLED'
    log('booking', after.id, isCancelled ? 'cancelled' : before ? 'changed' : 'added')
  }
  for (const { before, after } of write.turns) {
    const isDropped = after.status === 'dropped' && before?.status !== 'dropped'
    log('turn', after.id, isDropped ? 'dropped' : before ? 'changed' : 'added')
  }
  return changes
}
