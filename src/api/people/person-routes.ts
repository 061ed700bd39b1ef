import type { SiteId } from '../../domain/ids.ts'
import { Person, PersonDetails } from '../../domain/person.ts'
import { strictly } from '../body-schemas.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { setupBodies, storedSchema } from '../setup-resource.ts'
import { setupRoutes } from '../setup-routes.ts'
import type { Api } from '../zod-requests.ts'

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

export const personRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'people',
    kind: 'person',
    noun: 'person',
    prefix: 'person',
    answerSchema: storedSchema(PersonAnswer, 'Person'),
    bodies: setupBodies(PersonBody),
    additionTouchesTurns: false,
    answersDecision: false,
    present,
    details: {
      read: async ({ store }, { id, siteId }) =>
        (await store.personDetails(siteId)).find(({ personId }) => personId === id) ?? null,
      after: detailsAfter,
    },
  })

/** Somebody whose details were erased has them again once a name is given. */
function detailsAfter({ id }: Person, before: PersonDetails | null, fields: object): PersonDetails | null {
  if (!before && !('name' in fields)) return null
  return PersonDetails.parse({ email: null, phone: null, ...before, ...fields, personId: id })
}

async function present({ store }: ApiContext, rows: readonly Person[], siteId: SiteId): Promise<object[]> {
  const details = await store.personDetails(siteId)
  const detailsByPerson = new Map(details.map((one) => [one.personId, one]))
  return rows.map((row) => {
    const own = detailsByPerson.get(row.id)
    return { ...row, name: own?.name ?? null, email: own?.email ?? null, phone: own?.phone ?? null }
  })
}
