import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export function foodNotCleaned({ setup: { policy, layouts } }: SetupReading): Found[] {
  const banquets = layouts.some(({ kind }) => kind === 'banquet')
  if (!banquets || policy.cleaning.banquet.length > 0) return []
  return [
    {
      code: 'food-not-cleaned',
      about: aboutRow('policy', { id: policy.id, name: 'policy' }),
      message: 'the policy has nothing cleaned after a banquet',
      fix: 'say at least sweep and spot mop, or vacuum on carpet',
      field: '/cleaning/banquet',
    },
  ]
}
