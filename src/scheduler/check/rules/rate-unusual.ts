import { FurnishingKind } from '../../../domain/furnishing.ts'
import type { Rates } from '../../../domain/rate-set.ts'
import { goesByTrolley } from '../../network/travel.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { handlingRange, isFarOutside, type Range, rateRanges } from '../usual-ranges.ts'

interface Rate {
  readonly path: string
  readonly value: number
  readonly range: Range
}

/** What the site has set itself, in its rate set or on a furnishing. What was learned is as it is. */
export const rateUnusual = (reading: SetupReading): Found[] => [
  ...unusualInRateSet(reading),
  ...unusualFurnishings(reading),
]

const usual = ({ least, most }: Range): string =>
  least === most ? `about ${shown(least)}` : `${shown(least)} to ${shown(most)}`
const shown = (value: number): string => String(Number(value.toPrecision(3)))

function unusualInRateSet({ setup: { rateSet } }: SetupReading): Found[] {
  if (!rateSet) return []
  return ratesWithRange(rateSet.rates)
    .filter(({ path, value, range }) => rateSet.marks[path]?.origin === 'set' && isFarOutside(value, range))
    .map(({ path, value, range }) => ({
      code: 'rate-unusual',
      about: aboutRow('rateSet', rateSet),
      message: `${path} is ${shown(value)}, usual is ${usual(range)}`,
      fix: 'check the unit and the figure, or record some turns and let it be learned',
      field: `/rates/${path.replaceAll('.', '/')}`,
    }))
}

function ratesWithRange(rates: Rates): Rate[] {
  const byKind = (['fromTrolley', 'byHand'] as const).flatMap((table) =>
    FurnishingKind.options.flatMap((kind): Rate[] => {
      const range = handlingRange(kind, table === 'fromTrolley')
      const rate = rates[table][kind]
      if (!range) return []
      return [
        { path: `${table}.${kind}.setPersonSeconds`, value: rate.setPersonSeconds, range: range.set },
        {
          path: `${table}.${kind}.strikePersonSeconds`,
          value: rate.strikePersonSeconds,
          range: range.strike,
        },
      ]
    }),
  )
  const others = Object.entries(rateRanges).flatMap(([path, range]): Rate[] => {
    const value = numberAt(rates, path.split('.'))
    return value === null ? [] : [{ path, value, range }]
  })
  return [...byKind, ...others]
}

function numberAt(rates: Rates, keys: readonly string[]): number | null {
  let at: unknown = rates
  for (const key of keys) {
    if (typeof at !== 'object' || at === null) return null
    at = Object.entries(at).find(([name]) => name === key)?.[1]
  }
  return typeof at === 'number' ? at : null
}

const unusualFurnishings = ({ setup }: SetupReading): Found[] =>
  setup.furnishings.flatMap((furnishing) => {
    const range = handlingRange(furnishing.kind, goesByTrolley(furnishing))
    if (!range) return []
    return (['set', 'strike'] as const).flatMap((work): Found[] => {
      const field = work === 'set' ? 'setPersonSeconds' : 'strikePersonSeconds'
      const value = furnishing[field]
      if (value === null || !isFarOutside(value, range[work])) return []
      return [
        {
          code: 'rate-unusual',
          about: aboutRow('furnishing', furnishing),
          message: `to ${work} one ${furnishing.name} takes ${shown(value)} person-seconds, usual is ${usual(range[work])}`,
          fix: 'check the figure: it is for one piece and one person, or leave it to the default',
          field: `/${field}`,
        },
      ]
    })
  })
