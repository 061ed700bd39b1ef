import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export const slackNone = ({ setup: { policy } }: SetupReading): Found[] =>
  policy.slackWantedSeconds > 0
    ? []
    : [
        {
          code: 'slack-none',
          about: aboutRow('policy', { id: policy.id, name: 'policy' }),
          message: 'the policy wants no time to spare before doors, so nothing is ever tight',
          fix: 'want a few minutes: five is usual',
          field: '/slackWantedSeconds',
        },
      ]
