/** Which version each row had at which version of the site, and which were over by then, as the audit tells it. */
import { z } from 'zod'
import type { AuditEntry } from '../../src/store/store.ts'

interface RowVersion {
  readonly sinceSiteVersion: number
  readonly version: number
  readonly isOver: boolean
}

const Told = z.object({
  version: z.int(),
  status: z.string().optional(),
  retiredAt: z.int().nullish(),
})

export class VersionsTold {
  readonly #byRow = new Map<string, RowVersion[]>()

  constructor(entries: readonly AuditEntry[]) {
    for (const { planningVersion, effects } of entries) {
      for (const { table, id, before, after } of effects) {
        if (table === 'turn') continue
        const history = this.#byRow.get(id) ?? []
        if (history.length === 0 && before !== null) history.push(rowVersion(0, before))
        this.#byRow.set(id, [...history, rowVersion(planningVersion, after)])
      }
    }
  }

  /** As it was at any time between the two versions of the site, both included; none: it was not there. */
  during(rowId: string, siteVersionFrom: number, siteVersionTo: number): readonly RowVersion[] {
    const history = this.#byRow.get(rowId) ?? []
    return history.filter(
      ({ sinceSiteVersion }, index) =>
        sinceSiteVersion <= siteVersionTo &&
        (history[index + 1]?.sinceSiteVersion ?? Number.POSITIVE_INFINITY) > siteVersionFrom,
    )
  }

  /** Every version that a row has had, in order. */
  of(rowId: string): readonly number[] {
    return (this.#byRow.get(rowId) ?? []).map(({ version }) => version)
  }
}

function rowVersion(sinceSiteVersion: number, row: unknown): RowVersion {
  const { version, status, retiredAt } = Told.parse(row)
  return { sinceSiteVersion, version, isOver: status === 'CANCELLED' || (retiredAt ?? null) !== null }
}
