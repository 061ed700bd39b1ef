import { z } from 'zod'

export const CleaningMethod = z.enum(['dust-mop', 'sweep', 'vacuum', 'spot-mop', 'wet-mop'])
export type CleaningMethod = z.infer<typeof CleaningMethod>
