/** How long sound needs before the doors open. */
import type { SourcedSpan } from './sourced-span.ts'

const PRACTICE = 'common practice, no source'
const SOUND_BLOG = 'anhonestsound.com, 21 January 2016; read'

export const SOUND_SPANS = {
  lineCheck: { what: 'line check', leastSeconds: 300, mostSeconds: 900, source: PRACTICE },
  soundCheckSmallTeam: {
    what: 'sound check, small team',
    leastSeconds: 900,
    mostSeconds: 1200,
    source: SOUND_BLOG,
  },
  soundCheckFullBand: {
    what: 'sound check, full band',
    leastSeconds: 1800,
    mostSeconds: 3600,
    source: SOUND_BLOG,
  },
  wirelessMicrophones: {
    what: 'wireless microphones: batteries and scan',
    leastSeconds: 300,
    mostSeconds: 600,
    source: PRACTICE,
  },
} as const satisfies Record<string, SourcedSpan>
