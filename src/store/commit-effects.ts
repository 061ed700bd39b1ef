/** What a commit changed, as the audit and the change log tell it. Personal fields never come here. */
import type { PendingWrite } from './pending-write.ts'
import { recordedSetupRow, recordedTurn } from './recorded-rows.ts'
import type { AuditEffect } from './store.ts'

/** Rows before and after, by table and id. A row comes once. */
export function commitEffects(write: PendingWrite): AuditEffect[] {
  const effects: AuditEffect[] = []
  if (write.site) effects.push({ table: 'site', id: write.site.after.id, ...write.site })
  for (const { kind, before, after, retire, versionBefore } of write.setup) {
    effects.push({
      table: kind,
      id: after.id,
      before: before && recordedSetupRow(before, versionBefore, null),
      after: recordedSetupRow(after, versionBefore + 1, retire ? write.commit.at : null),
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
  if (write.judging) effects.push({ table: 'judging', id: write.commit.siteId, ...write.judging })
  return effects
}

export interface LoggedChange {
  readonly resourceKind: string
  readonly resourceId: string
  readonly what: 'added' | 'changed' | 'cancelled' | 'dropped' | 'retired' | 'erased'
}

/** The same in brief, for those who listen: of rows that they can read, not of how far the service has got in judging. */
export function loggedChanges(write: PendingWrite): LoggedChange[] {
  const changes: LoggedChange[] = []
  const log = (resourceKind: string, resourceId: string, what: LoggedChange['what']) => {
    changes.push({ resourceKind, resourceId, what })
  }
  if (write.site) log('site', write.site.after.id, write.site.before ? 'changed' : 'added')
  for (const { kind, before, after, retire } of write.setup)
    log(kind, after.id, retire ? 'retired' : before ? 'changed' : 'added')
  for (const { personId } of write.personDetails) log('personDetails', personId, 'changed')
  for (const personId of write.personDetailsErased) log('personDetails', personId, 'erased')
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
