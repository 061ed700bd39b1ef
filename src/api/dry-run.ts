/** To be told only: a write that answers what it would come to, and writes nothing. */
import { z } from 'zod'
import { DecisionAnswer } from '../domain/decision.ts'

export const DryRunQuery = z.strictObject({
  dryRun: z
    .enum(['true', 'false'], { error: 'expected true or false' })
    .transform((dryRun) => dryRun === 'true')
    .default(false)
    .meta({ description: 'true: only the decision, nothing is written' }),
})
export const DryRunAnswer = z.object({ decision: DecisionAnswer })
