/** What the audit alone says the rows must be: replaying its effects gives the state. */
import { isDeepStrictEqual } from 'node:util'
import { recordedAsOfToday } from './recorded-rows.ts'
import type { AuditEntry, RecordedState } from './store.ts'

/**
 * @param entries  of one site, oldest first, all of them; earlier versions of the program may have written some
 * @returns the rows after the last entry, comparable with `Store.recordedState`; no tables for no entries
 * @throws Error when an effect starts from another row than the entries before it left: the audit has a hole
 */
export function stateFromAudit(entries: readonly AuditEntry[]): RecordedState {
  const state = new Map<string, Map<string, unknown>>()
  for (const { sequence, effects } of entries) {
    for (const { table, id, ...effect } of effects) {
      const rows = state.get(table) ?? new Map<string, unknown>()
      if (!isDeepStrictEqual(rows.get(id) ?? null, recordedAsOfToday(table, effect.before))) {
        throw new Error(
          `Entry ${sequence} of the audit starts from another ${table} ${id} than the one before it left`,
        )
      }
      state.set(table, rows.set(id, recordedAsOfToday(table, effect.after)))
    }
  }
  // The site's version moves with each entry without being an effect of any.
  const planningVersion = entries.at(-1)?.planningVersion
  for (const [id, site] of state.get('site') ?? []) {
    if (typeof site === 'object') state.get('site')?.set(id, { ...site, planningVersion })
  }
  return state
}
