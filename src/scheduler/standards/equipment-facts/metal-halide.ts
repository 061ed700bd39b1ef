/** Metal halide lamps light slowly, and once switched off hot they do not light again for many minutes. */
import { numberInRange } from '../work-measurement/number-in-range.ts'
import type { SourcedSpan } from './sourced-span.ts'

export const METAL_HALIDE_SPANS = {
  coldStartToFull: {
    what: 'from cold to full light: at most 5 min',
    leastSeconds: 120,
    mostSeconds: 300,
    source: 'liquisearch.com, metal-halide lamp: starting and warm up; second-hand',
  },
  coldStartToFullPlanningProgram: {
    what: 'from cold to full light, in the manual of a lighting program',
    leastSeconds: 120,
    mostSeconds: 600,
    source: 'dialux4.support-en.dial.de, restriking; read',
  },
  coldStartToFullMaker: {
    what: 'from cold to full light, by a maker',
    leastSeconds: 120,
    mostSeconds: 360,
    source: 'californialightworks.com, hot start time; read',
  },
  hotRestrike: {
    what: 'off while hot until it strikes again: 5 to 10 min',
    leastSeconds: 300,
    mostSeconds: 600,
    source: 'liquisearch.com, metal-halide lamp: starting and warm up; second-hand',
  },
  hotRestrikeMaker: {
    what: 'off while hot until it strikes again, by a maker',
    leastSeconds: 300,
    mostSeconds: 900,
    source: 'californialightworks.com, hot start time; read',
  },
  hotRestrikeLongest: {
    what: 'off while hot until it strikes again, the longest stated',
    leastSeconds: 900,
    mostSeconds: 1200,
    source: 'rayzeek.com, restrike time; read',
  },
  hotRestrikeWarehouse: {
    what: 'off while hot until it strikes again: about 15 min and sometimes longer',
    leastSeconds: 900,
    mostSeconds: 900,
    source: 'warehousefitoutsolutions.com, 5 May 2022; read',
  },
} as const satisfies Record<string, SourcedSpan>

/** What to plan with until the site has timed its own lamps: the longest of the sources. */
export const RESTRIKE_PLAN_SECONDS = 1200

export const RESTRIKE_EARLY_POWER_NOTE = {
  text: 'Switching a hot lamp on early does not help: it can make the wait longer.',
  source: 'liquisearch.com, metal-halide lamp: starting and warm up; second-hand',
} as const

export interface HotRestrikeProblem {
  readonly offSeconds: number
  readonly restrikeSeconds: number
  /** How long it stays dark after light is wanted again; warming up comes on top. */
  readonly darkSeconds: number
  readonly text: string
}

/**
 * What speaks against switching such lamps off now and on again later: within the restrike time it would stay dark.
 * @param offSeconds       from off until light is wanted again, 0 or more; 0: they are not switched off at all
 * @param restrikeSeconds  as the site set it for these lamps, 0 (instant restrike) or more
 * @returns null when they are left on, or off long enough
 * @throws RangeError for what is negative or no number
 */
export function hotRestrikeProblem(
  offSeconds: number,
  restrikeSeconds: number = RESTRIKE_PLAN_SECONDS,
): HotRestrikeProblem | null {
  numberInRange('offSeconds', offSeconds, 0)
  numberInRange('restrikeSeconds', restrikeSeconds, 0)
  if (offSeconds === 0 || offSeconds >= restrikeSeconds) return null
  const minutes = (seconds: number) => Math.ceil(seconds / 60)
  return {
    offSeconds,
    restrikeSeconds,
    darkSeconds: restrikeSeconds - offSeconds,
    text: `Off for ${minutes(offSeconds)} min, but hot lamps may need ${minutes(restrikeSeconds)} min before they light again. Leave them on.`,
  }
}
