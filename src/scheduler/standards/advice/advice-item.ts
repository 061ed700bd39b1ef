/** One piece of advice about a layout: a sentence for whoever runs the hall, and the numbers and source behind it. */
import { leastSure, type Sourced } from '../occupancy/sourced.ts'

export type AdviceTopic = 'occupancy' | 'exits' | 'aisles' | 'access' | 'lifting'

/** `look`: somebody should look at it. `unknown`: what is needed can be said, whether it is there cannot. */
export type AdviceVerdict = 'ok' | 'look' | 'unknown'

export interface AdviceItem {
  readonly topic: AdviceTopic
  /** Kebab-case, stable. */
  readonly code: string
  /** One plain sentence, with the numbers, in the units asked for. */
  readonly text: string
  /** What was found and what is needed, both in `unit`; null: not known. */
  readonly found: number | null
  readonly required: number | null
  readonly unit: string
  readonly verdict: AdviceVerdict
  /** Document and section, and what was read of it. */
  readonly source: string
  readonly status: string
}

/** Belongs under every list of advice. */
export const ADVICE_CAUTION =
  'Planning aids only: the posted occupant limit, the local fire and building code and the fire marshal decide.'

/** Source and status of a figure, as an item carries them. */
export const sourceOf = ({ source, status }: Sourced): Pick<AdviceItem, 'source' | 'status'> => ({
  source,
  status,
})

/** Several figures in one item: each source once, and the status of the least sure of them. */
export const sourcesOf = (rows: readonly Sourced[]): Pick<AdviceItem, 'source' | 'status'> => ({
  source: [...new Set(rows.map(({ source }) => source))].join('; '),
  status: leastSure(rows),
})
