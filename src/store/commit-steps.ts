/** The statements of a commit, in order. */
import { and, eq, inArray, isNull, sql } from 'drizzle-orm'
import { type Booking, isBlocking } from '../domain/booking.ts'
import type { SectionId } from '../domain/ids.ts'
import { commitEffects, loggedChanges } from './commit-effects.ts'
import type { CommitStatements } from './commit-statements.ts'
import type { Db, Step } from './engine.ts'
import type { PendingWrite, SetupChange, TurnChange } from './pending-write.ts'
import type { IdempotentAnswer } from './store.ts'
import type { Tables } from './tables.ts'

const once = (otherwise: string) => ({ exactly: 1, otherwise })

/**
 * The first step moves the version, which locks the site's row, and returns `{planningVersion}`. Then the sections
 * held by changed bookings are given up, all of them before new ones are taken, so that two bookings can swap rooms.
 */
export function commitSteps(tx: Db, t: Tables, statements: CommitStatements, write: PendingWrite): Step[] {
  return [
    moveVersion(tx, t, write),
    ...giveUpSections(tx, t, write),
    ...retirePolicy(tx, t, write),
    ...write.setup.flatMap((change) => putSetup(tx, t, change)),
    ...putPersonDetails(tx, t, write),
    ...write.bookings.map((change) => putBooking(tx, t, statements, change)),
    ...write.bookings.flatMap(({ after, sectionIds }) => takeSections(statements, after, sectionIds)),
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

/** Rows of occupancy follow from bookings: those of a changed booking go, and come anew with its new place and time. */
function giveUpSections(tx: Db, { sectionOccupancy: held }: Tables, write: PendingWrite): Step[] {
  const changedIds = write.bookings.filter(({ before }) => before).map(({ after }) => after.id)
  if (changedIds.length === 0) return []
  return [
    { run: tx.delete(held).where(inArray(held.bookingId, changedIds)).returning({ id: held.bookingId }) },
  ]
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

function retirePolicy(tx: Db, { policy }: Tables, write: PendingWrite): Step[] {
  if (!write.policyRetired) return []
  return [
    {
      run: tx
        .update(policy)
        .set({ retiredAt: write.commit.at })
        .where(and(eq(policy.id, write.policyRetired.id), isNull(policy.retiredAt)))
        .returning({ id: policy.id }),
      rows: once('Another policy has come into force'),
    },
  ]
}

function putSetup(tx: Db, t: Tables, change: SetupChange): Step[] {
  const { id, siteId } = change.row
  const row = { id, siteId, document: change.row }
  const added = once(`${change.kind} ${id} was not stored`)
  const changed = once(`${change.kind} ${id} is not there`)
  switch (change.kind) {
    case 'room': {
      const { sectionIds, homeLayoutId } = change.row
      const sections = sectionIds.map((sectionId) => ({ siteId, roomId: id, sectionId }))
      return [
        {
          run: tx
            .insert(t.room)
            .values({ ...row, homeLayoutId })
            .returning({ id: t.room.id }),
          rows: added,
        },
        { run: tx.insert(t.roomSection).values(sections).returning({ id: t.roomSection.sectionId }) },
      ]
    }
    case 'layout': {
      const values = { ...row, roomId: change.row.roomId }
      return [{ run: tx.insert(t.layout).values(values).returning({ id: t.layout.id }), rows: added }]
    }
    case 'furnishing': {
      const values = { ...row, storagePlaceId: change.row.storagePlaceId }
      return [{ run: tx.insert(t.furnishing).values(values).returning({ id: t.furnishing.id }), rows: added }]
    }
    case 'shift': {
      const { crew } = change.row
      const values = { ...row, personId: crew.kind === 'person' ? crew.personId : null }
      const { shift } = t
      if (!change.before)
        return [{ run: tx.insert(shift).values(values).returning({ id: shift.id }), rows: added }]
      const isThis = and(eq(shift.id, id), eq(shift.siteId, siteId))
      return [{ run: tx.update(shift).set(values).where(isThis).returning({ id: shift.id }), rows: changed }]
    }
    case 'closure': {
      const values = { ...row, fromAt: change.row.fromAt, toAt: change.row.toAt }
      const { closure } = t
      if (!change.before)
        return [{ run: tx.insert(closure).values(values).returning({ id: closure.id }), rows: added }]
      const isThis = and(eq(closure.id, id), eq(closure.siteId, siteId))
      return [
        { run: tx.update(closure).set(values).where(isThis).returning({ id: closure.id }), rows: changed },
      ]
    }
    case 'section':
    case 'storagePlace':
    case 'equipment':
    case 'person':
    case 'policy': {
      const table = t[change.kind]
      return [{ run: tx.insert(table).values(row).returning({ id: table.id }), rows: added }]
    }
    default:
      return change satisfies never
  }
}

function putPersonDetails(tx: Db, { personDetails }: Tables, write: PendingWrite): Step[] {
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
