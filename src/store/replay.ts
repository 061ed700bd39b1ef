/** What the audit alone says the rows must be: replaying its effects gives the state. */
import { isDeepStrictEqual } from 'node:util'
import { recordedAsOfToday } from './recorded-rows.ts'
import type { AuditEntry, RecordedState } from './store.ts'

/** Entry by entry, for audits that are too long to be held as a whole. */
export class AuditReplay {
  readonly #state = new Map<string, Map<string, unknown>>()
  #planningVersion: number | null = null

  /**
   * Goes on from what an effect leaves, also where it does not start from what the one before it left.
   * @param entry  the next one of the site; an earlier version of the program may have written it
   * @returns for each effect that starts from another row than the entries before it left, the end of a sentence that
   *   begins with the entry
   * @throws Error when an effect is of no row that the audit may tell of
   */
  take({ planningVersion, effects }: AuditEntry): string[] {
    const holes: string[] = []
    for (const { table, id, before, after } of effects) {
      const rows = this.#state.get(table) ?? new Map<string, unknown>()
      if (!isDeepStrictEqual(rows.get(id) ?? null, recordedAsOfToday(table, before))) {
        holes.push(`starts from another ${table} ${id} than the one before it left`)
      }
      this.#state.set(table, rows.set(id, recordedAsOfToday(table, after)))
    }
    this.#planningVersion = planningVersion
    return holes
  }

  /** The rows after the last entry, comparable with `Store.recordedState`; no tables for no entries. */
  state(): RecordedState {
    const state = new Map(this.#state)
    const sites = [...(state.get('site') ?? [])]
    // The site's version moves with each entry without being an effect of any.
    const withVersion = (site: unknown) =>
      typeof site === 'object' ? { ...site, planningVersion: this.#planningVersion } : site
    if (sites.length > 0) state.set('site', new Map(sites.map(([id, site]) => [id, withVersion(site)])))
    return state
  }
}

/**
 * @param entries  of one site, oldest first, all of them; earlier versions of the program may have written some
 * @returns the rows after the last entry, comparable with `Store.recordedState`; no tables for no entries
 * @throws Error when an effect starts from another row than the entries before it left: the audit has a hole
 */
export function stateFromAudit(entries: readonly AuditEntry[]): RecordedState {
  const replay = new AuditReplay()
  for (const entry of entries) {
    const [hole] = replay.take(entry)
    if (hole !== undefined) throw new Error(`Entry ${entry.sequence} of the audit ${hole}`)
  }
  return replay.state()
}
