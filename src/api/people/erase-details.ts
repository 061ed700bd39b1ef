/** Erasing the name and contact of somebody of the crew, in use or retired: the one thing that is deleted. */
import type { FastifyRequest } from 'fastify'
import type { Answer } from '../answer.ts'
import { type ApiContext, siteFor } from '../context.ts'
import { commitChecked } from '../decide-and-commit.ts'
import { unknownResource } from '../problems.ts'

const nothing: Answer = { status: 204, headers: {}, body: '' }

/** Where there are none any more, nothing is written. @throws Problem unknown-resource, conflict */
export async function eraseDetails(
  context: ApiContext,
  request: FastifyRequest,
  address: { readonly site: string; readonly id: string },
): Promise<Answer> {
  const site = await siteFor(context, request.actor, address.site)
  return commitChecked(context, {
    site,
    actorId: request.actor.id,
    action: 'erase-person-details',
    keeper: null,
    prepare: async () => {
      const person = await context.store.setupRow(site.id, 'person', address.id)
      if (!person) throw unknownResource('person', address.id)
      const { id } = person.row
      const details = await context.store.personDetails(site.id)
      if (!details.some(({ personId }) => personId === id)) return { settled: nothing }
      return { personDetailsErased: [id], reason: `details of ${id}`, answer: nothing }
    },
  })
}
