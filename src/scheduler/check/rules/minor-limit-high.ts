import { massText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/**
 * HSE guideline weight for a man at best height (25 kg, INDG143), halved for those under 18 (common practice), rounded
 * up.
 */
const KILOGRAMS_MOST = 13

export function minorLimitHigh({ setup: { policy }, units }: SetupReading): Found[] {
  const limit = policy.minorMassLimitKilograms
  if (limit <= KILOGRAMS_MOST) return []
  return [
    {
      code: 'minor-limit-high',
      about: aboutRow('policy', { id: policy.id, name: 'policy' }),
      message: `minors may lift ${massText(limit, units)}, and half of what is advised for an adult is about ${massText(KILOGRAMS_MOST, units)}`,
      fix: `set ${massText(10, units)}, unless somebody has assessed it`,
      field: '/minorMassLimitKilograms',
    },
  ]
}
