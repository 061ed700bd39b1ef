import { z } from 'zod'
import { jsonAnswer, send } from '../answer.ts'
import type { ApiContext } from '../context.ts'
import type { Api } from '../zod-requests.ts'

const ReadyAnswer = z.object({ ready: z.boolean(), database: z.boolean(), workers: z.boolean() })

export function healthRoutes(api: Api, context: ApiContext): void {
  api.get(
    '/healthz',
    {
      schema: {
        tags: ['health'],
        summary: 'Whether the process is alive; waits for nothing',
        response: { 200: z.object({ alive: z.literal(true) }) },
      },
    },
    async (_request, reply) => send(reply, jsonAnswer(200, { alive: true }, 'utc')),
  )

  api.get(
    '/readyz',
    {
      schema: {
        tags: ['health'],
        summary: 'Whether it can work: the database answers and is migrated, the workers are up',
        response: { 200: ReadyAnswer, 503: ReadyAnswer },
      },
    },
    async (_request, reply) => {
      const database = await context.store.isReady()
      const workers = context.decider.isReady()
      const ready = database && workers
      return send(reply, jsonAnswer(ready ? 200 : 503, { ready, database, workers }, 'utc'))
    },
  )
}
