/** Lists and records with more entries than their schema takes, found before anything is said of the entries. */
import { z } from 'zod'
import { bodyFault, type Fault } from '../problems.ts'
import { isRecord, walkSchema } from './schema-walk.ts'

/** For records, and lists whose schema sets no bound. */
const ENTRIES_MOST = 5_000

/**
 * What is within its bounds gives few faults at most, whatever stands in it: a body of zeros could give millions.
 * @param at  JSON pointer of the value
 */
export function overlongLists(schema: z.core.$ZodType, value: unknown, at: string): Fault[] {
  const faults: Fault[] = []
  const isTooLong = (part: z.core.$ZodType, found: unknown) =>
    typeof found === 'object' && entriesOf(found) > entriesMost(part)
  walkSchema(
    schema,
    value,
    at,
    (part, found, place) => {
      if (isTooLong(part, found)) {
        faults.push(bodyFault(place, `has ${entriesOf(found)} entries; ${entriesMost(part)} is the most`))
      }
    },
    (part, found) => !isTooLong(part, found),
  )
  return faults
}

function entriesOf(value: unknown): number {
  if (Array.isArray(value)) return value.length
  return isRecord(value) ? Object.keys(value).length : 0
}

function entriesMost({ _zod: { def } }: z.core.$ZodType): number {
  const bounds = (def.checks ?? []).flatMap((check) =>
    check instanceof z.core.$ZodCheckMaxLength ? [check._zod.def.maximum] : [],
  )
  return Math.min(ENTRIES_MOST, ...bounds)
}
