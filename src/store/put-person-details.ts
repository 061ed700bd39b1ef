/** The statements that write personal details, and those that erase them. */
import { and, eq, inArray } from 'drizzle-orm'
import { type Db, once, type Step } from './engine.ts'
import type { PendingWrite } from './pending-write.ts'
import type { Tables } from './tables.ts'

export function putPersonDetails(tx: Db, { personDetails }: Tables, write: PendingWrite): Step[] {
  return write.personDetails.map(({ personId, name, email, phone }) => ({
    run: tx
      .insert(personDetails)
      .values({ personId, siteId: write.commit.siteId, name, email, phone })
      .onConflictDoUpdate({
        target: personDetails.personId,
        set: { name, email, phone },
        setWhere: eq(personDetails.siteId, write.commit.siteId),
      })
      .returning({ id: personDetails.personId }),
    rows: once(`${personId} is not of this site`),
  }))
}

/** What is not there any more needs no erasing: no number of rows is expected. */
export function erasePersonDetails(
  tx: Db,
  { idempotency, personDetails }: Tables,
  write: PendingWrite,
): Step[] {
  const { personDetailsErased, answersErased, commit } = write
  if (personDetailsErased.length === 0) return []
  const isErased = and(
    inArray(personDetails.personId, personDetailsErased),
    eq(personDetails.siteId, commit.siteId),
  )
  return [
    { run: tx.delete(personDetails).where(isErased).returning({ id: personDetails.personId }) },
    ...answersErased.map(({ actorId, route, key, body }) => ({
      run: tx
        .update(idempotency)
        .set({ body })
        .where(and(eq(idempotency.actorId, actorId), eq(idempotency.route, route), eq(idempotency.key, key)))
        .returning({ key: idempotency.key }),
      rows: once(`The answer kept under ${key} is gone`),
    })),
  ]
}
