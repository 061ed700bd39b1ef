/** A span of time asked for with `from` and `to`. */
import { z } from 'zod'
import type { HalfOpenInterval } from '../domain/half-open-interval.ts'
import { Instant } from '../domain/instant.ts'
import { InstantReader } from './instant-text.ts'
import { type Fault, refuseFaults } from './problems.ts'

// A plus sign that was not percent-encoded arrives as a space.
const QueryInstant = z
  .string()
  .max(40)
  .transform((text) => text.replace(' ', '+'))
  .optional()

export const WindowQuery = z.strictObject({
  from: QueryInstant.meta({
    description: 'Date, or date and time; without an offset by the clock of the site',
  }),
  to: QueryInstant.meta({ description: 'Not included; a date alone is the start of that day' }),
})

/**
 * @param otherwise     what stands in where a side is left out
 * @param daysMost      how long the span may be; null: as long as you like
 * @throws Problem invalid-input
 */
export function windowFrom(
  zone: string,
  { from, to }: z.infer<typeof WindowQuery>,
  otherwise: { readonly fromAt: number; readonly toAt: number },
  daysMost: number | null = null,
): HalfOpenInterval {
  const reader = new InstantReader(zone, 'query')
  const fromAt = from === undefined ? Instant.parse(otherwise.fromAt) : reader.read('/from', from, true)
  const toAt = to === undefined ? Instant.parse(otherwise.toAt) : reader.read('/to', to, true)
  refuseFaults(reader.faults)
  const window = { fromAt: fromAt!, toAt: toAt! }
  refuseFaults(windowFaults(window, daysMost))
  return window
}

function windowFaults({ fromAt, toAt }: HalfOpenInterval, daysMost: number | null): Fault[] {
  if (toAt <= fromAt) return [{ at: '/to', in: 'query', message: 'must be after from' }]
  return daysMost !== null && toAt - fromAt > daysMost * 86_400_000
    ? [{ at: '/to', in: 'query', message: `the span may be ${daysMost} days; ask for it in parts` }]
    : []
}
