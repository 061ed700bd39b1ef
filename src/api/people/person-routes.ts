import { z } from 'zod'
import type { SiteId } from '../../domain/ids.ts'
import { Person, PersonDetails } from '../../domain/person.ts'
import { send } from '../answer.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { bodyFault, type Fault, refuseFaults } from '../problems.ts'
import { problemResponses, writeHeaders } from '../route-schemas.ts'
import { strictly } from '../setup/body-schemas.ts'
import { type SetupResource, setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { RowParams, setupRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'
import { eraseDetails } from './erase-details.ts'

const { name, email, phone } = PersonDetails.shape

const PersonBody = strictly(
  Person.omit({ id: true, siteId: true }).extend({
    skills: Person.shape.skills.default([]),
    name,
    email: email.default(null),
    phone: phone.default(null),
  }),
)

/** Name and contact are null once they have been erased. */
const PersonAnswer = Person.extend({ name: name.nullable(), email, phone })

const people: SetupResource<'person'> = {
  segment: 'people',
  kind: 'person',
  noun: 'person',
  prefix: 'person',
  description:
    'Name, e-mail and phone are kept apart from the rest, and are null once they have been erased ' +
    '(`DELETE …/people/{id}/details`); task lists then show the id.',
  answerSchema: storedSchema(PersonAnswer, 'Person'),
  bodies: setupBodies(PersonBody),
  additionTouchesTurns: false,
  present,
  details: {
    read: async ({ store }, { id, siteId }) =>
      (await store.personDetails(siteId)).find(({ personId }) => personId === id) ?? null,
    after: detailsAfter,
  },
}

export function personRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  setupRoutes(api, context, once, people)

  api.delete(
    '/v1/sites/:site/people/:id/details',
    {
      schema: {
        tags: ['set-up'],
        summary: 'Erase name, e-mail and phone of one person, retired or not; needs no If-Match',
        description:
          'They cannot be brought back; the person stays, with skills and shifts, under the id alone. Said again, it is ' +
          'answered the same way and writes nothing. The audit says whose details were erased, by id.',
        params: RowParams,
        headers: writeHeaders,
        response: {
          204: z.null().meta({ description: 'There are no details any more' }),
          ...problemResponses,
        },
      },
    },
    async (request, reply) => send(reply, await eraseDetails(context, request, request.params)),
  )
}

/** Somebody whose details were erased has them again once a name is given. */
function detailsAfter({ id }: Person, before: PersonDetails | null, fields: object): PersonDetails | null {
  if (!before && !('name' in fields)) {
    refuseFaults(contactAlone(fields))
    return null
  }
  return PersonDetails.parse({ email: null, phone: null, ...before, ...fields, personId: id })
}

/** Without a name there is nobody to write a contact for. */
const contactAlone = (fields: object): Fault[] =>
  Object.entries(fields)
    .filter(([field, value]) => (field === 'email' || field === 'phone') && value !== null)
    .map(([field]) => bodyFault(`/${field}`, 'the name was erased: give the name as well'))

async function present({ store }: ApiContext, rows: readonly Person[], siteId: SiteId): Promise<object[]> {
  const details = await store.personDetails(siteId)
  const detailsByPerson = new Map(details.map((one) => [one.personId, one]))
  return rows.map((row) => {
    const own = detailsByPerson.get(row.id)
    return { ...row, name: own?.name ?? null, email: own?.email ?? null, phone: own?.phone ?? null }
  })
}
