import { z } from 'zod'
import type { PersonId, SiteId } from '../../domain/ids.ts'
import { Person, PersonDetails } from '../../domain/person.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { setupAddRoute, setupReadRoutes } from '../setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const { name, email, phone } = PersonDetails.shape

const PersonBody = z.strictObject({
  name,
  email: email.default(null),
  phone: phone.default(null),
  adult: Person.shape.adult,
  skills: Person.shape.skills.default([]),
})

/** Name and contact are null once they have been erased. */
const PersonAnswer = Person.extend({ name: name.nullable(), email, phone })

export function personRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  const reading = {
    segment: 'people',
    kind: 'person',
    noun: 'person',
    answerSchema: PersonAnswer,
    present: async (rows: readonly Person[], siteId: SiteId) => {
      const detailsByPerson = await detailsOf(context, siteId)
      return rows.map((row) => personAnswer(row, detailsByPerson.get(row.id)))
    },
  } as const
  setupReadRoutes(api, context, reading)
  setupAddRoute(api, context, once, {
    ...reading,
    prefix: 'person',
    body: PersonBody,
    rowFrom: ({ adult, skills }, id, { site }) => Person.parse({ adult, skills, id, siteId: site.id }),
    addition: (row) => ({ kind: 'person', row }),
    faults: () => [],
    details: (body, row) => ({ personId: row.id, name: body.name, email: body.email, phone: body.phone }),
    answerFrom: personAnswer,
  })
}

const personAnswer = (person: Person, details: PersonDetails | undefined) => ({
  ...person,
  name: details?.name ?? null,
  email: details?.email ?? null,
  phone: details?.phone ?? null,
})

async function detailsOf(context: ApiContext, siteId: SiteId): Promise<ReadonlyMap<PersonId, PersonDetails>> {
  const details = await context.store.personDetails(siteId)
  return new Map(details.map((one) => [one.personId, one]))
}
