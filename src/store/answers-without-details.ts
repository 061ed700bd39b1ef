/** Answers that are kept to be sent again, without the names and contacts of people that are erased. */
import { and, eq, inArray, like, or } from 'drizzle-orm'
import type { PersonId, SiteId } from '../domain/ids.ts'
import type { Engine } from './engine.ts'
import { StoredAnswer } from './read-lists.ts'
import type { IdempotentAnswer } from './store.ts'

const personal: ReadonlySet<string> = new Set(['name', 'email', 'phone'])

/**
 * Looks through every answer that is kept. An answer about somebody was stored together with that person, so none can
 * come while they are being erased.
 * @returns those that change; none for nobody, or for people of another site
 */
export async function answersWithoutDetails(
  { db, tables: { idempotency, person } }: Engine,
  siteId: SiteId,
  wanted: readonly PersonId[],
): Promise<IdempotentAnswer[]> {
  if (wanted.length === 0) return []
  const isWanted = and(eq(person.siteId, siteId), inArray(person.id, wanted))
  const personIds = (await db.select({ id: person.id }).from(person).where(isWanted)).map(({ id }) => id)
  if (personIds.length === 0) return []
  const namesOne = or(...personIds.map((id) => like(idempotency.body, `%"${id}"%`)))
  const rows = await db.select().from(idempotency).where(namesOne)
  return rows.flatMap((row) => {
    const answer = StoredAnswer.parse(row)
    const body = JSON.stringify(withoutDetails(JSON.parse(answer.body), new Set(personIds)))
    return body === answer.body ? [] : [{ ...answer, body }]
  })
}

/** Whatever has the id of one of them as its own loses name and contact, at any depth. */
function withoutDetails(value: unknown, personIds: ReadonlySet<unknown>): unknown {
  if (Array.isArray(value)) return value.map((item) => withoutDetails(item, personIds))
  if (typeof value !== 'object' || value === null) return value
  const isErased = 'id' in value && personIds.has(value.id)
  return Object.fromEntries(
    Object.entries(value).map(([name, field]) => [
      name,
      isErased && personal.has(name) ? null : withoutDetails(field, personIds),
    ]),
  )
}
