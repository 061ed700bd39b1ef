/** How long a projector needs before there is a picture, and before it may be switched again. */
import type { SourcedSpan } from './sourced-span.ts'

const PRACTICE = 'common practice, no source'
const SET_SERVICE = 'hallesservice.com, slow turn on/off (about rear-projection sets); read'

export const PROJECTOR_SPANS = {
  lampWarmUp: { what: 'lamp projector, warm-up', leastSeconds: 60, mostSeconds: 120, source: PRACTICE },
  lampCoolDown: { what: 'lamp projector, cool-down', leastSeconds: 60, mostSeconds: 180, source: PRACTICE },
  lampRestartRefused: {
    what: 'lamp set that was switched off: some refuse a restart for up to',
    leastSeconds: 0,
    mostSeconds: 120,
    source: SET_SERVICE,
  },
  lampStopRefused: {
    what: 'lamp set that was switched on: some refuse to stop in the first',
    leastSeconds: 0,
    mostSeconds: 60,
    source: SET_SERVICE,
  },
  solidStateWarmUp: {
    what: 'laser or LED projector, picture after',
    leastSeconds: 5,
    mostSeconds: 30,
    source: PRACTICE,
  },
  solidStateCoolDown: {
    what: 'laser or LED projector, cool-down',
    leastSeconds: 0,
    mostSeconds: 0,
    source: PRACTICE,
  },
} as const satisfies Record<string, SourcedSpan>
