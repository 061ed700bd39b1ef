/** What a rate set is made from: the numbers that are known better, over the set in force. */
import { z } from 'zod'
import { type RateMark, RateOrigin, type RatePath, RateSet, Rates } from '../../domain/rate-set.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { TextLine } from '../../domain/units.ts'
import { DEFAULT_RATES, ratePaths } from '../../scheduler/network/index.ts'
import { deepPartial } from '../setup/body-schemas.ts'

export const RateSetBody = z.strictObject({
  name: RateSet.shape.name,
  rates: deepPartial(Rates).meta({
    description:
      'Only the numbers that change; what is left out stays as the set in force has it. Lists are whole. null in place ' +
      'of a number, or of a list, puts it back to its default',
  }),
  origin: RateOrigin.exclude(['default'])
    .default('set')
    .meta({ description: 'Whether somebody set these numbers or recorded times taught them' }),
  source: TextLine(300)
    .optional()
    .meta({ description: 'Where the numbers come from, for whoever doubts them' }),
})

const sourceUnsaid = {
  set: 'set by the site, no source given',
  learned: 'recorded times of this site',
} as const

/** @param fields  a body that was checked */
export function rateSetFrom(fields: object, id: string, { rateSet, site }: SiteSetup): RateSet {
  const { name, rates: named, origin, source } = RateSetBody.parse(fields)
  const rates = Rates.parse(merged(rateSet?.rates ?? DEFAULT_RATES, named, DEFAULT_RATES))
  const mark: RateMark = { origin, source: source ?? sourceUnsaid[origin] }
  const marks: Record<RatePath, RateMark> = {}
  // A list that became shorter leaves no marks of what it had.
  for (const path of ratePaths(rates)) {
    const said = saidOf(named, path.split('.'))
    const known = said === undefined ? rateSet?.marks[path] : said === null ? undefined : mark
    if (known) marks[path] = known
  }
  return RateSet.parse({ id, siteId: site.id, number: (rateSet?.number ?? 0) + 1, name, rates, marks })
}

/** Objects field by field, everything else whole; null takes the default. */
function merged(base: unknown, over: unknown, defaults: unknown): unknown {
  if (over === undefined) return base
  if (over === null) return defaults
  if (!isFields(base) || !isFields(over)) return over
  const defaultsByName = new Map(isFields(defaults) ? Object.entries(defaults) : [])
  const fields = new Map(Object.entries(base))
  for (const [name, value] of Object.entries(over))
    fields.set(name, merged(fields.get(name), value, defaultsByName.get(name)))
  return Object.fromEntries(fields)
}

const isFields = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** What the body says of a number; undefined: nothing, null: that it, or the list it is in, takes its default. */
function saidOf(named: unknown, path: readonly string[]): unknown {
  let said = named
  for (const name of path) {
    if (typeof said !== 'object' || said === null) return said
    said = new Map(Object.entries(said)).get(name)
  }
  return said
}
