/** The statements of a commit, in order. */
import { and, eq, sql } from 'drizzle-orm'
import { commitEffects, loggedChanges } from './commit-effects.ts'
import type { CommitStatements } from './commit-statements.ts'
import { type Db, once, type Step } from './engine.ts'
import { giveUpSections, takeOtherSections, takeSections } from './occupancy-steps.ts'
import type { PendingWrite, TurnChange } from './pending-write.ts'
import { erasePersonDetails, putPersonDetails } from './put-person-details.ts'
import { putSetup } from './put-setup.ts'
import type { IdempotentAnswer } from './store.ts'
import type { Tables } from './tables.ts'
import { turnRow } from './turn-row.ts'

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
    ...putJudging(statements, write),
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
  const { id, plan: document } = change.after
  const row = turnRow(change.after)
  const put: Step = change.before
    ? { run: changeTurn(row), rows: once(`Turn ${id} is not there`) }
    : { run: addTurn(row), rows: once(`Turn ${id} was not stored`) }
  if (change.planHashAfter === change.planHashBefore) return [put]
  if (!document || change.planHashAfter === null) {
    return [put, { run: tx.delete(plan).where(eq(plan.turnId, id)).returning({ id: plan.turnId }) }]
  }
  const run = putPlan({ turnId: id, document, hash: change.planHashAfter })
  return [put, { run, rows: once(`The plan of ${id} was not stored`) }]
}

function putJudging({ setJudging }: CommitStatements, { judging }: PendingWrite): Step[] {
  return judging
    ? [{ run: setJudging(judging.after), rows: once('How far turns are judged was not stored') }]
    : []
}

/** The version and the sequence are those of this transaction: the site's row is locked since the first step. */
function putAudit({ addAudit, addLogEntry }: CommitStatements, write: PendingWrite): Step[] {
  const { siteId, at, actorId, action, reason } = write.commit
  const logged = loggedChanges(write)
  const effects = commitEffects(write)
  if (logged.length === 0 && effects.length === 0) return []
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
