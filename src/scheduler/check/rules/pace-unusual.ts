import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Common practice, no source: a practised crew is 1, volunteers for the first time 1.3 to 2. */
const LEAST = 0.8
const MOST = 3

export function paceUnusual({ setup: { policy } }: SetupReading): Found[] {
  const { paceFactor } = policy
  if (paceFactor >= LEAST && paceFactor <= MOST) return []
  const crew =
    paceFactor < LEAST
      ? `the crew is said to need ${paceFactor} of the time of a practised one`
      : `the crew is said to need ${paceFactor} times as long as a practised one`
  return [
    {
      code: 'pace-unusual',
      about: aboutRow('policy', { id: policy.id, name: 'policy' }),
      message: crew,
      fix: 'say 1 for a practised crew and about 1.5 for volunteers, until times are recorded',
      field: '/paceFactor',
    },
  ]
}
