/** The statements of a commit, in order. */
import { and, eq, gt, inArray, notInArray, type SQLWrapper, sql } from 'drizzle-orm'
import { type Booking, isBlocking } from '../domain/booking.ts'
import type { RoomId, SectionId } from '../domain/ids.ts'
import { commitEffects, loggedChanges } from './commit-effects.ts'
import type { CommitStatements } from './commit-statements.ts'
import { type Db, once, type Step } from './engine.ts'
import type { PendingWrite, TurnChange } from './pending-write.ts'
import { erasePersonDetails, putPersonDetails } from './put-person-details.ts'
import { hasOtherSections, putSetup } from './put-setup.ts'
import type { IdempotentAnswer } from './store.ts'
import { BOOKING_LONGEST_MILLISECONDS, type Tables } from './tables.ts'

/**
 * The first step moves the version, which locks the site's row, and returns `{planningVersion}`. Then the sections
 * held by changed bookings are given up, all of them before new ones are taken, so that two bookings can swap rooms.
 */
export function commitSteps(tx: Db, t: Tables, statements: CommitStatements, write: PendingWrite): Step[] {
  return [
    moveVersion(tx, t, write),
    ...giveUpSections(tx, t, write),
    ...write.setup.flatMap((change) => putSetup(tx, t, change, write.commit.at)),
    ...putPersonDetails(tx, t, write),
    ...erasePersonDetails(tx, t, write),
    ...write.bookings.map((change) => putBooking(tx, t, statements, change)),
    ...write.bookings.flatMap(({ after, sectionIds }) => takeSections(statements, after, sectionIds)),
    ...takeOtherSections(tx, t, write),
    ...write.turns.flatMap((change) => putTurn(tx, t, statements, change)),
    ...putAudit(statements, write),
    ...(write.commit.answer ? [putAnswer(tx, t, write.commit.answer, write.commit.at)] : []),
  ]
}

function moveVersion(tx: Db, { site }: Tables, write: PendingWrite): Step {
  const { siteId } = write.commit
  const expected = write.planningVersionExpected
  if (write.site && !write.site.before) {
    return {
      run: tx
        .insert(site)
        .values({ ...write.site.after, planningVersion: 1, setupVersion: 1 })
        .returning({ planningVersion: site.planningVersion }),
      rows: once(`The site ${siteId} is there already`),
    }
  }
  return {
    run: tx
      .update(site)
      .set({
        ...(write.site?.after ?? {}),
        planningVersion: sql`${site.planningVersion} + ${write.movesPlanning ? 1 : 0}`,
        setupVersion: sql`${site.setupVersion} + ${write.movesSetup ? 1 : 0}`,
      })
      .where(and(eq(site.id, siteId), expected === null ? undefined : eq(site.planningVersion, expected)))
      .returning({ planningVersion: site.planningVersion }),
    rows: once(`The site has moved on from version ${expected}`),
  }
}

/**
 * Rows of occupancy follow from bookings and their rooms: those of a changed booking go, and come anew with its new place
 * and time; so do those of coming bookings of a room that is made of other sections now.
 */
function giveUpSections(tx: Db, t: Tables, write: PendingWrite): Step[] {
  const { sectionOccupancy: held } = t
  const changedIds = write.bookings.filter(({ before }) => before).map(({ after }) => after.id)
  const giveUp = (bookingIds: string[] | SQLWrapper): Step => ({
    run: tx.delete(held).where(inArray(held.bookingId, bookingIds)).returning({ id: held.bookingId }),
  })
  return [
    ...(changedIds.length === 0 ? [] : [giveUp(changedIds)]),
    ...roomsOfOtherSections(write).map((roomId) => giveUp(comingBookingIds(tx, t, write, roomId))),
  ]
}

/** Bookings that are over keep the sections that they had. */
function takeOtherSections(tx: Db, t: Tables, write: PendingWrite): Step[] {
  const { booking, roomSection, sectionOccupancy: held } = t
  return roomsOfOtherSections(write).map((roomId) => ({
    run: tx
      .insert(held)
      .select(
        tx
          .select({
            bookingId: booking.id,
            sectionId: roomSection.sectionId,
            fromAt: booking.doorsAt,
            toAt: booking.clearAt,
            blocking: sql<boolean>`${booking.status} <> 'CANCELLED'`.as('blocking'),
          })
          .from(booking)
          .innerJoin(roomSection, eq(roomSection.roomId, booking.roomId))
          .where(inArray(booking.id, comingBookingIds(tx, t, write, roomId))),
      )
      .returning({ id: held.bookingId }),
  }))
}

const roomsOfOtherSections = ({ setup }: PendingWrite): RoomId[] =>
  setup.flatMap((change) =>
    change.kind === 'room' && change.before && hasOtherSections(change) ? [change.after.id] : [],
  )

/** Of a room, and not written by this commit. No booking is longer: without that bound the whole past would be walked. */
function comingBookingIds(tx: Db, { booking }: Tables, { commit, bookings }: PendingWrite, roomId: RoomId) {
  const writtenIds = bookings.map(({ after }) => after.id)
  return tx
    .select({ id: booking.id })
    .from(booking)
    .where(
      and(
        eq(booking.roomId, roomId),
        gt(booking.doorsAt, sql`${commit.at - BOOKING_LONGEST_MILLISECONDS}`),
        gt(booking.clearAt, commit.at),
        writtenIds.length === 0 ? undefined : notInArray(booking.id, writtenIds),
      ),
    )
}

function takeSections(
  { takeSection }: CommitStatements,
  booking: Booking,
  sectionIds: readonly SectionId[],
): Step[] {
  return sectionIds.map((sectionId) => ({
    run: takeSection({
      bookingId: booking.id,
      sectionId,
      fromAt: booking.doorsAt,
      toAt: booking.clearAt,
      blocking: isBlocking(booking),
    }),
    rows: once(`Section ${sectionId} was not taken`),
  }))
}

function putBooking(
  tx: Db,
  { booking }: Tables,
  { addBooking }: CommitStatements,
  { before, after }: PendingWrite['bookings'][number],
): Step {
  if (!before) {
    return {
      run: addBooking(after),
      rows: once(`Booking ${after.id} was not stored`),
    }
  }
  const isAsRead = and(
    eq(booking.id, after.id),
    eq(booking.siteId, after.siteId),
    eq(booking.version, before.version),
  )
  return {
    run: tx.update(booking).set(after).where(isAsRead).returning({ id: booking.id }),
    rows: once(`Booking ${after.id} has moved on from version ${before.version}`),
  }
}

function putTurn(
  tx: Db,
  { plan }: Tables,
  { addTurn, changeTurn, putPlan }: CommitStatements,
  change: TurnChange,
): Step[] {
  const { plan: document, ...alone } = change.after
  const values = {
    ...alone,
    planStartsAt: document?.startsAt ?? null,
    planReadyAt: document?.readyAt ?? null,
  }
  const put: Step = change.before
    ? { run: changeTurn(values), rows: once(`Turn ${alone.id} is not there`) }
    : { run: addTurn(values), rows: once(`Turn ${alone.id} was not stored`) }
  if (change.planHashAfter === change.planHashBefore) return [put]
  if (!document || change.planHashAfter === null) {
    return [put, { run: tx.delete(plan).where(eq(plan.turnId, alone.id)).returning({ id: plan.turnId }) }]
  }
  const run = putPlan({ turnId: alone.id, document, hash: change.planHashAfter })
  return [put, { run, rows: once(`The plan of ${alone.id} was not stored`) }]
}

/** The version and the sequence are those of this transaction: the site's row is locked since the first step. */
function putAudit({ addAudit, addLogEntry }: CommitStatements, write: PendingWrite): Step[] {
  const { siteId, at, actorId, action, reason } = write.commit
  const logged = loggedChanges(write)
  if (logged.length === 0) return []
  const effects = commitEffects(write)
  return [
    {
      run: addAudit({ siteId, at, actorId, action, reason, effects }),
      rows: once('The audit was not stored'),
    },
    ...logged.map((change) => ({
      run: addLogEntry({ siteId, at, ...change }),
      rows: once('The change log was not stored'),
    })),
  ]
}

/** A second answer under the same key is refused: whoever was second reads the first one's. */
function putAnswer(tx: Db, { idempotency }: Tables, answer: IdempotentAnswer, at: number): Step {
  return {
    run: tx
      .insert(idempotency)
      .values({ ...answer, at })
      .returning({ key: idempotency.key }),
    rows: once('The answer was not stored'),
  }
}

/** For an answer that wrote nothing else. Whatever was stored first stays. */
export function keepFirstAnswer(tx: Db, { idempotency }: Tables, answer: IdempotentAnswer, at: number): Step {
  const { key } = idempotency
  return {
    run: tx
      .insert(idempotency)
      .values({ ...answer, at })
      .onConflictDoNothing()
      .returning({ key }),
  }
}
