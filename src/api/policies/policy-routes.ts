import { Policy } from '../../domain/policy.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { patchOf, strictly } from '../setup/body-schemas.ts'
import { type SetupBodies, type SetupResource, storedSchema } from '../setup/setup-resource.ts'
import { setupAddRoute, setupReadRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'

/** What is left out stays as the policy in force has it. */
const PolicyBody = patchOf(strictly(Policy.omit({ id: true, siteId: true })))

const bodies: SetupBodies = {
  create: PolicyBody,
  change: PolicyBody,
  created: (body) => PolicyBody.parse(body),
  changed: (body) => PolicyBody.parse(body),
}

const policies: SetupResource<'policy'> = {
  segment: 'policies',
  kind: 'policy',
  noun: 'policy',
  prefix: 'policy',
  description:
    'One policy is in force. A new one takes its place and the old one is retired, so that every turn still names the ' +
    'policy it was judged under: a policy is neither changed nor retired by itself.',
  answerSchema: storedSchema(Policy, 'Policy'),
  bodies,
  additionTouchesTurns: true,
  inForce: ({ policy }) => policy,
  rowFrom: (fields, id, { policy, site }) => Policy.parse({ ...policy, ...fields, id, siteId: site.id }),
}

export function policyRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  setupReadRoutes(api, context, policies)
  setupAddRoute(api, context, once, policies)
}
