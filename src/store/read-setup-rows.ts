/** Single set-up rows as they are stored: with their version, and since when they are out of use. */
import { and, eq, isNull } from 'drizzle-orm'
import { z } from 'zod'
import type { SiteId } from '../domain/ids.ts'
import { Instant } from '../domain/instant.ts'
import type { Policy } from '../domain/policy.ts'
import type { RateSet } from '../domain/rate-set.ts'
import { type SetupKind, type SetupRows, type SetupWrite, setupSchemas } from '../domain/setup.ts'
import type { Engine } from './engine.ts'
import type { Commit, StoredRow } from './store.ts'

const Marks = z.object({ version: z.int().min(1), retiredAt: Instant.nullable() })

/** What to select of a set-up table. */
export const storedRowColumns = ({ tables }: Engine, kind: SetupKind) => ({
  document: tables[kind].document,
  version: tables[kind].version,
  retiredAt: tables[kind].retiredAt,
})

/** From a row of `storedRowColumns`. */
export const storedRow = <Kind extends SetupKind>(
  kind: Kind,
  { document, ...marks }: { readonly document: unknown },
): StoredRow<SetupRows[Kind]> => ({ row: setupSchemas[kind].parse(document), ...Marks.parse(marks) })

/** @returns null when there is none at this site; a retired one is there */
export async function readSetupRow<Kind extends SetupKind>(
  engine: Engine,
  siteId: SiteId,
  kind: Kind,
  id: string,
): Promise<StoredRow<SetupRows[Kind]> | null> {
  const table = engine.tables[kind]
  const [row] = await engine.db
    .select(storedRowColumns(engine, kind))
    .from(table)
    .where(and(eq(table.siteId, siteId), eq(table.id, id)))
  return row ? storedRow(kind, row) : null
}

/** What the rows of a commit take the place of, as it stands now. */
export interface RowsReplaced {
  /** By `rowKey`: what is to be changed or retired. What is not there is left out. */
  readonly stored: ReadonlyMap<string, StoredRow<SetupRows[SetupKind]>>
  /** Where the commit brings another. */
  readonly policyInForce: StoredRow<Policy> | null
  readonly rateSetInForce: StoredRow<RateSet> | null
}

/** Set-up rows a commit writes, from both of the places where it may name them. */
export const setupWritesOf = ({ setup, changes }: Commit): readonly SetupWrite[] =>
  setup && changes ? [...setup, ...changes.setup] : (setup ?? changes?.setup ?? [])

export const rowKey = ({ kind, after }: SetupWrite): string => `${kind} ${after.id}`

/** Reads nothing when nothing of the set-up is written. */
export async function readRowsReplaced(
  engine: Engine,
  siteId: SiteId,
  writes: readonly SetupWrite[],
): Promise<RowsReplaced> {
  const stored = new Map<string, StoredRow<SetupRows[SetupKind]>>()
  for (const write of writes) {
    const row = write.before && (await readSetupRow(engine, siteId, write.kind, write.after.id))
    if (row) stored.set(rowKey(write), row)
  }
  const brings = (kind: SetupKind) => writes.some((write) => write.kind === kind && !write.before)
  return {
    stored,
    policyInForce: brings('policy') ? await readInForce(engine, siteId, 'policy') : null,
    rateSetInForce: brings('rateSet') ? await readInForce(engine, siteId, 'rateSet') : null,
  }
}

/** Of these kinds one row is in force at a time. */
async function readInForce<Kind extends 'policy' | 'rateSet'>(
  engine: Engine,
  siteId: SiteId,
  kind: Kind,
): Promise<StoredRow<SetupRows[Kind]> | null> {
  const table = engine.tables[kind]
  const [row] = await engine.db
    .select(storedRowColumns(engine, kind))
    .from(table)
    .where(and(eq(table.siteId, siteId), isNull(table.retiredAt)))
  return row ? storedRow(kind, row) : null
}
