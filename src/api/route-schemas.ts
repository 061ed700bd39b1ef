/** Parts of route schemas that many routes share. */
import { z } from 'zod'
import { SiteId } from '../domain/ids.ts'
import { ProblemBody } from './problems.ts'

export const SiteParams = z.object({ site: SiteId })

/** Other headers pass through untouched. */
export const writeHeaders = z.looseObject({})

export const postHeaders = z.looseObject({
  'idempotency-key': z.string().optional().meta({
    description: 'Chosen by the sender, 1 to 200 visible characters: sent again, the first answer comes back',
  }),
})

export const changeHeaders = z.looseObject({
  'if-match': z.string().optional().meta({ description: 'ETag of the version that was read' }),
})

const problem = (description: string) => ({
  description,
  content: { 'application/problem+json': { schema: ProblemBody } },
})

export const problemResponses = {
  '4xx': problem('The request cannot be taken as it is'),
  '5xx': problem('The service cannot answer now'),
}
