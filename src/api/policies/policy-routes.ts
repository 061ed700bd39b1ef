import { z } from 'zod'
import { Policy } from '../../domain/policy.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { setupAddRoute, setupReadRoutes } from '../setup-routes.ts'
import type { Api } from '../zod-requests.ts'
import { policyFaults } from './policy-faults.ts'

/** What is left out stays as the policy in force has it. */
const PolicyBody = z.strictObject(Policy.omit({ id: true, siteId: true }).partial().shape)

export function policyRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  const reading = { segment: 'policies', kind: 'policy', noun: 'policy', answerSchema: Policy } as const
  setupReadRoutes(api, context, reading)
  setupAddRoute(api, context, once, {
    ...reading,
    prefix: 'policy',
    body: PolicyBody,
    rowFrom: (body, id, setup) => Policy.parse({ ...setup.policy, ...body, id, siteId: setup.site.id }),
    addition: (row) => ({ kind: 'policy', row }),
    faults: policyFaults,
  })
}
