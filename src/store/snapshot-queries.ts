/** What is asked of the database for a decision. No query walks the past: each is bounded at its end of an index. */
import { and, eq, gt, inArray, lt, or, sql } from 'drizzle-orm'
import type { Engine } from './engine.ts'
import { judgedThroughQuery } from './read-judging.ts'

/** Each finds its rows by an index. */
export const snapshotQueries = (engine: Engine) => ({
  bookingsAround: bookingsAroundQuery(engine),
  closuresTouching: closuresTouchingQuery(engine),
  observationsAround: observationsAroundQuery(engine),
  turnsTouching: turnsTouchingQuery(engine),
  turnsHolding: turnsHoldingQuery(engine),
  judgedThrough: judgedThroughQuery(engine),
})

function bookingsAroundQuery({ db, tables: { booking, section, sectionOccupancy: held } }: Engine) {
  const siteId = sql.placeholder('siteId')
  const fromAt = sql.placeholder('fromAt')
  const toAt = sql.placeholder('toAt')
  // The condition of the partial index on blocking rows has to be met literally.
  const ofSection = sql`${held.sectionId} = ${section.id} and ${held.blocking}`
  const bookingIds = sql`(
    select ${held.bookingId} from ${section} join ${held} on ${ofSection}
    where ${section.siteId} = ${siteId} and ${held.fromAt} >= ${fromAt} and ${held.fromAt} < ${toAt}
    union all
    select (select ${held.bookingId} from ${held} where ${ofSection} and ${held.fromAt} < ${fromAt}
      order by ${held.fromAt} desc limit 1) from ${section} where ${section.siteId} = ${siteId}
    union all
    select (select ${held.bookingId} from ${held} where ${ofSection} and ${held.fromAt} >= ${toAt}
      order by ${held.fromAt} limit 1) from ${section} where ${section.siteId} = ${siteId})`
  // By id alone, and put in order by the reader: asked for the site or for an order as well, SQLite walks all bookings.
  return db.select({ id: booking.id }).from(booking).where(inArray(booking.id, bookingIds)).prepare()
}

function closuresTouchingQuery({ db, tables: { closure } }: Engine) {
  return db
    .select({ document: closure.document })
    .from(closure)
    .where(
      and(
        eq(closure.siteId, sql.placeholder('siteId')),
        gt(closure.toAt, sql.placeholder('fromAt')),
        lt(closure.fromAt, sql.placeholder('toAt')),
        sql`${closure.retiredAt} is null`,
      ),
    )
    .prepare()
}

/** The last one of each room before the span, and those within it; of retired rooms too, which may still be standing. */
function observationsAroundQuery({ db, tables: { observation: seen, room } }: Engine) {
  const siteId = sql.placeholder('siteId')
  const fromAt = sql.placeholder('fromAt')
  // The condition of the partial index has to be met literally.
  const ofRoom = sql`${seen.roomId} = ${room.id} and ${seen.retiredAt} is null`
  const observationIds = sql`(
    select ${seen.id} from ${room} join ${seen} on ${ofRoom}
    where ${room.siteId} = ${siteId} and ${seen.seenAt} >= ${fromAt} and ${seen.seenAt} < ${sql.placeholder('toAt')}
    union all
    select (select ${seen.id} from ${seen} where ${ofRoom} and ${seen.seenAt} < ${fromAt}
      order by ${seen.seenAt} desc, ${seen.id} desc limit 1) from ${room} where ${room.siteId} = ${siteId})`
  return db
    .select({ id: seen.id, document: seen.document })
    .from(seen)
    .where(inArray(seen.id, observationIds))
    .prepare()
}

/** The crew of an event may be held long before its turn can begin. */
function turnsTouchingQuery(engine: Engine) {
  const { db, tables } = engine
  const { booking, turn } = tables
  const asksForCrew = sql`exists (
    select 1 from ${booking} where ${booking.id} = ${turn.bookingId} and ${booking.crewDemands} <> '[]')`
  return db
    .select({ id: turn.id })
    .from(turn)
    .where(
      and(
        eq(turn.siteId, sql.placeholder('siteId')),
        // The condition of the partial index, met literally.
        sql`${turn.status} <> 'dropped'`,
        gt(turn.dueAt, sql.placeholder('fromAt')),
        lt(turn.dueAt, sql.placeholder('dueBeforeAt')),
        or(lt(turn.releaseAt, sql.placeholder('toAt')), asksForCrew),
      ),
    )
    .prepare()
}

/** By the end of what is held first: however long that is, what is over is never walked. */
function turnsHoldingQuery({ db, tables: { turn } }: Engine) {
  return db
    .select({ id: turn.id })
    .from(turn)
    .where(
      and(
        eq(turn.siteId, sql.placeholder('siteId')),
        // The condition of the partial index, met literally.
        sql`${turn.heldUntilAt} is not null and ${turn.status} <> 'dropped'`,
        gt(turn.heldUntilAt, sql.placeholder('fromAt')),
        lt(turn.dueAt, sql.placeholder('toAt')),
      ),
    )
    .prepare()
}
