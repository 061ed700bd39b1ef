import { z } from 'zod'
import { jsonAnswer, send } from './answer.ts'
import { problemTypePath, problemTypes, unknownResource } from './problems.ts'
import { problemResponses } from './route-schemas.ts'
import type { Api } from './zod-requests.ts'

const ProblemTypeAnswer = z.object({
  type: z.string(),
  title: z.string(),
  status: z.int(),
  retryHelps: z.boolean(),
  meaning: z.string(),
})

export function problemRoutes(api: Api): void {
  const typeAnswer = (slug: string) => {
    const type = problemTypes.get(slug)
    if (!type) throw unknownResource('problem type', slug)
    return { type: problemTypePath(slug), ...type }
  }

  api.get(
    '/problems',
    {
      schema: {
        tags: ['documents'],
        summary: 'Every type of problem that is answered',
        response: { 200: z.object({ items: z.array(ProblemTypeAnswer) }) },
      },
    },
    async (_request, reply) =>
      send(reply, jsonAnswer(200, { items: [...problemTypes.keys()].map(typeAnswer) }, 'utc')),
  )

  api.get(
    '/problems/:slug',
    {
      schema: {
        tags: ['documents'],
        summary: 'What a type of problem means and what to do about it',
        params: z.object({ slug: z.string() }),
        response: { 200: ProblemTypeAnswer, ...problemResponses },
      },
    },
    async (request, reply) => send(reply, jsonAnswer(200, typeAnswer(request.params.slug), 'utc')),
  )
}
