/** Rows in force may still name what is out of use. A document holds no such row, so what names one stays behind. */
import { z } from 'zod'
import { type SetupKind, setupKinds, setupSchemas } from '../../domain/setup.ts'
import { type Reference, referableBy, referencesOf } from './references.ts'
import { innerOf, isRecord, optionFor } from './schema-walk.ts'

export interface RowWithId {
  readonly id: string
}

/** Rows that name each other only, and a sentence for everything that was left out. */
export interface SettledRows {
  readonly rowsByKind: ReadonlyMap<SetupKind, readonly RowWithId[]>
  readonly leftOut: readonly string[]
}

type IsGone = (reference: Pick<Reference, 'kind' | 'id'>) => boolean

/**
 * An entry of a list that names what is not there goes; a value that may be null becomes null; a row that then has
 * less than it must have goes whole, and with it in turn what names that row.
 */
export function withoutWhatIsGone(rowsByKind: ReadonlyMap<SetupKind, readonly RowWithId[]>): SettledRows {
  const leftOut: string[] = []
  let rows = rowsByKind
  // Each round but the last has a row less than the one before.
  for (let before = -1; before !== countOf(rows); ) {
    before = countOf(rows)
    rows = oneRound(rows, leftOut)
  }
  return { rowsByKind: rows, leftOut }
}

const countOf = (rowsByKind: ReadonlyMap<SetupKind, readonly RowWithId[]>): number =>
  [...rowsByKind.values()].reduce((sum, rows) => sum + rows.length, 0)

function oneRound(
  rowsByKind: ReadonlyMap<SetupKind, readonly RowWithId[]>,
  leftOut: string[],
): ReadonlyMap<SetupKind, readonly RowWithId[]> {
  const there = new Map([...rowsByKind].map(([kind, rows]) => [kind, new Set(rows.map(({ id }) => id))]))
  const isGone: IsGone = ({ kind, id }) => !there.get(kind)?.has(id)
  return new Map(
    setupKinds.map((kind) => [
      kind,
      (rowsByKind.get(kind) ?? []).flatMap((row) => settledRow(kind, row, isGone, leftOut)),
    ]),
  )
}

/** The row, or none. */
function settledRow(kind: SetupKind, row: RowWithId, isGone: IsGone, leftOut: string[]): RowWithId[] {
  const gone = referencesOf(setupSchemas[kind], row).filter(isGone)
  if (gone.length === 0) return [row]
  const names = [...new Set(gone.map(({ noun, id }) => `${noun} ${id}`))].join(', ')
  const settled = setupSchemas[kind].safeParse(valueWithout(setupSchemas[kind], row, isGone))
  leftOut.push(
    settled.success
      ? `${row.id} names ${names}, out of use: left out there`
      : `${row.id} names ${names}, out of use: left out whole`,
  )
  return settled.success ? [settled.data] : []
}

/** In place of a value that cannot be without what it names. */
const GONE = Symbol('gone')

function valueWithout(schema: z.core.$ZodType, value: unknown, isGone: IsGone): unknown {
  const inner = innerOf(schema)
  if (inner) {
    const kept = value === null || value === undefined ? value : valueWithout(inner, value, isGone)
    return kept === GONE && schema instanceof z.ZodNullable ? null : kept
  }
  const named = referableBy(schema)
  if (named) return typeof value === 'string' && isGone({ kind: named.kind, id: value }) ? GONE : value
  if (schema instanceof z.ZodArray && Array.isArray(value)) {
    return value
      .map((item: unknown) => valueWithout(schema.def.element, item, isGone))
      .filter((item) => item !== GONE)
  }
  if (!isRecord(value)) return value
  const object = schema instanceof z.ZodDiscriminatedUnion ? optionFor(schema, value) : schema
  if (!(object instanceof z.ZodObject)) return value
  const kept: Record<string, unknown> = { ...value }
  for (const [name, field] of Object.entries<z.core.$ZodType>(object.shape)) {
    kept[name] = valueWithout(field, value[name], isGone)
    if (kept[name] === GONE) return GONE
  }
  return kept
}
