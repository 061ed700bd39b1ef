import { z } from 'zod'

export const Verdict = z.enum(['fits', 'tight', 'does-not-fit'])
export type Verdict = z.infer<typeof Verdict>
