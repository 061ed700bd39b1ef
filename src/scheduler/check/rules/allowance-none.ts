import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export const allowanceNone = ({ setup: { policy } }: SetupReading): Found[] =>
  policy.allowanceShare > 0
    ? []
    : [
        {
          code: 'allowance-none',
          about: aboutRow('policy', { id: policy.id, name: 'policy' }),
          message: 'the policy adds no time for rest and delay',
          fix: 'add 10 to 20 % of the work',
          field: '/allowanceShare',
        },
      ]
