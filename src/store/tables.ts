/**
 * Every table, once for all databases. Columns are what queries and guards need; the rest of a set-up row is its
 * domain object in `document`. A reference names the site too where it can, so that nothing points across sites.
 *
 * Conditions that a partial index rests on are written with literals: a bound parameter would not match the index.
 */
import { type SQL, sql } from 'drizzle-orm'
import { BOOKING_LONGEST_SECONDS, BookingStatus } from '../domain/booking.ts'
import { TURN_LONGEST_SECONDS, TurnStatus } from '../domain/turn.ts'
import { makeAccountTables } from './accounts/account-tables.ts'
import type { Kit } from './kit.sqlite.ts'
import { siteTable } from './site-table.ts'

export const BOOKING_LONGEST_MILLISECONDS = BOOKING_LONGEST_SECONDS * 1000
export const TURN_LONGEST_MILLISECONDS = TURN_LONGEST_SECONDS * 1000

const oneOf = (words: readonly string[]): SQL => sql.raw(words.map((word) => `'${word}'`).join(', '))
const literal = (value: number): SQL => sql.raw(String(value))

export function makeTables(k: Kit) {
  const site = siteTable(k)

  const setupColumns = () => ({
    id: k.str().primaryKey(),
    siteId: k
      .str()
      .notNull()
      .references(() => site.id),
    retiredAt: k.instant(),
    document: k.json().notNull(),
    version: k.int().notNull().default(1),
  })

  const section = k.table('section', setupColumns(), (t) => [k.unique('section_of_site').on(t.siteId, t.id)])
  const exit = k.table('exit', { ...setupColumns(), sectionId: k.str().notNull() }, (t) => [
    k.unique('exit_of_site').on(t.siteId, t.id),
    k.foreignKey({ columns: [t.siteId, t.sectionId], foreignColumns: [section.siteId, section.id] }),
  ])
  const passage = k.table('passage', setupColumns(), (t) => [k.unique('passage_of_site').on(t.siteId, t.id)])

  // home_layout_id: the layout comes after its room, so the reference is deferred, which only the completed SQL says.
  const room = k.table('room', { ...setupColumns(), homeLayoutId: k.str() }, (t) => [
    k.unique('room_of_site').on(t.siteId, t.id),
  ])
  const roomSection = k.table(
    'room_section',
    { siteId: k.str().notNull(), roomId: k.str().notNull(), sectionId: k.str().notNull() },
    (t) => [
      k.primaryKey({ columns: [t.roomId, t.sectionId] }),
      k.foreignKey({ columns: [t.siteId, t.roomId], foreignColumns: [room.siteId, room.id] }),
      k.foreignKey({ columns: [t.siteId, t.sectionId], foreignColumns: [section.siteId, section.id] }),
    ],
  )
  const layout = k.table('layout', { ...setupColumns(), roomId: k.str().notNull() }, (t) => [
    k.unique('layout_of_site').on(t.siteId, t.id),
    k.unique('layout_of_room').on(t.roomId, t.id),
    k.foreignKey({ columns: [t.siteId, t.roomId], foreignColumns: [room.siteId, room.id] }),
  ])
  const storagePlace = k.table('storage_place', setupColumns(), (t) => [
    k.unique('storage_place_of_site').on(t.siteId, t.id),
  ])
  const furnishing = k.table('furnishing', { ...setupColumns(), storagePlaceId: k.str().notNull() }, (t) => [
    k.unique('furnishing_of_site').on(t.siteId, t.id),
    k.foreignKey({
      columns: [t.siteId, t.storagePlaceId],
      foreignColumns: [storagePlace.siteId, storagePlace.id],
    }),
  ])
  const tool = k.table('tool', setupColumns(), (t) => [k.unique('tool_of_site').on(t.siteId, t.id)])
  const equipment = k.table('equipment', setupColumns(), (t) => [
    k.unique('equipment_of_site').on(t.siteId, t.id),
  ])
  const person = k.table('person', setupColumns(), (t) => [k.unique('person_of_site').on(t.siteId, t.id)])
  const shift = k.table('shift', { ...setupColumns(), personId: k.str() }, (t) => [
    k.unique('shift_of_site').on(t.siteId, t.id),
    k.foreignKey({ columns: [t.siteId, t.personId], foreignColumns: [person.siteId, person.id] }),
  ])
  const closure = k.table(
    'closure',
    { ...setupColumns(), fromAt: k.instant().notNull(), toAt: k.instant().notNull() },
    (t) => [
      k.unique('closure_of_site').on(t.siteId, t.id),
      // By end first: a closure may be of any length, and past ones are then never walked.
      k.index('closure_site_to').on(t.siteId, t.toAt, t.fromAt),
      k.check('closure_in_order', sql`${t.fromAt} < ${t.toAt}`),
    ],
  )
  /** One of the three references is there: of what there is more or less. */
  const stockChange = k.table(
    'stock_change',
    {
      ...setupColumns(),
      furnishingId: k.str(),
      equipmentId: k.str(),
      toolId: k.str(),
      fromAt: k.instant().notNull(),
      toAt: k.instant(),
    },
    (t) => [
      k.unique('stock_change_of_site').on(t.siteId, t.id),
      k.foreignKey({
        columns: [t.siteId, t.furnishingId],
        foreignColumns: [furnishing.siteId, furnishing.id],
      }),
      k.foreignKey({ columns: [t.siteId, t.equipmentId], foreignColumns: [equipment.siteId, equipment.id] }),
      k.foreignKey({ columns: [t.siteId, t.toolId], foreignColumns: [tool.siteId, tool.id] }),
      k.check('stock_change_in_order', sql`${t.toAt} is null or ${t.fromAt} < ${t.toAt}`),
      k.check(
        'stock_change_of_one',
        sql`case when ${t.furnishingId} is null then 0 else 1 end + case when ${t.equipmentId} is null then 0 else 1 end + case when ${t.toolId} is null then 0 else 1 end = 1`,
      ),
    ],
  )
  const observation = k.table(
    'observation',
    { ...setupColumns(), roomId: k.str().notNull(), seenAt: k.instant().notNull() },
    (t) => [
      k.unique('observation_of_site').on(t.siteId, t.id),
      // The last one of a room before a moment is the first one met, walking back from there.
      k.index('observation_room_seen').on(t.roomId, t.seenAt, t.id).where(sql`${t.retiredAt} is null`),
      k.foreignKey({ columns: [t.siteId, t.roomId], foreignColumns: [room.siteId, room.id] }),
    ],
  )
  const rateSet = k.table('rate_set', setupColumns(), (t) => [
    k.unique('rate_set_of_site').on(t.siteId, t.id),
    k.uniqueIndex('rate_set_in_force').on(t.siteId).where(sql`${t.retiredAt} is null`),
  ])
  const policy = k.table('policy', setupColumns(), (t) => [
    k.unique('policy_of_site').on(t.siteId, t.id),
    k.uniqueIndex('policy_in_force').on(t.siteId).where(sql`${t.retiredAt} is null`),
  ])

  /** Personal: may be erased, and stands nowhere else, the audit included. */
  const personDetails = k.table(
    'person_details',
    {
      personId: k.str().primaryKey(),
      siteId: k.str().notNull(),
      name: k.str().notNull(),
      email: k.str(),
      phone: k.str(),
    },
    (t) => [
      k.index('person_details_site').on(t.siteId, t.personId),
      k.foreignKey({ columns: [t.siteId, t.personId], foreignColumns: [person.siteId, person.id] }),
    ],
  )

  const booking = k.table(
    'booking',
    {
      id: k.str().primaryKey(),
      siteId: k.str().notNull(),
      title: k.str().notNull(),
      roomId: k.str().notNull(),
      layoutId: k.str().notNull(),
      headcount: k.int().notNull(),
      doorsAt: k.instant().notNull(),
      startsAt: k.instant().notNull(),
      endsAt: k.instant().notNull(),
      clearAt: k.instant().notNull(),
      foodServed: k.bool().notNull(),
      floorWet: k.bool().notNull(),
      status: k.str().notNull(),
      version: k.int().notNull(),
      turnId: k.str().notNull(),
      holdExpiresAt: k.instant(),
      linkId: k.str(),
      keepAsSet: k.bool().notNull().default(false),
      keptUntilAt: k.instant(),
      overrunsUntilAt: k.instant(),
      priority: k.int().notNull().default(0),
      quietNeeded: k.bool().notNull().default(false),
      crewDemands: k.json().notNull().default([]),
      milestones: k.json().notNull().default([]),
      ownHelp: k.json(),
      riskAccepted: k.json(),
    },
    (t) => [
      k.unique('booking_of_site').on(t.siteId, t.id),
      k.unique('booking_turn').on(t.turnId),
      // Lists by doors, then id; clear_at rides along so that the walk over past bookings stays in the index.
      k.index('booking_site_doors').on(t.siteId, t.doorsAt, t.id, t.clearAt),
      k.index('booking_room_doors').on(t.roomId, t.doorsAt, t.id, t.clearAt),
      k.index('booking_link').on(t.siteId, t.linkId, t.doorsAt, t.id).where(sql`${t.linkId} is not null`),
      // Of all sites: what lapses next is asked for all of them together.
      k.index('booking_hold').on(t.holdExpiresAt, t.id).where(sql`${t.status} = 'TENTATIVE'`),
      k
        .index('booking_at_risk')
        .on(t.siteId, t.doorsAt, t.id)
        .where(sql`${t.riskAccepted} is not null and ${t.status} <> 'CANCELLED'`),
      k.foreignKey({ columns: [t.siteId, t.roomId], foreignColumns: [room.siteId, room.id] }),
      k.foreignKey({ columns: [t.roomId, t.layoutId], foreignColumns: [layout.roomId, layout.id] }),
      k.check(
        'booking_in_order',
        sql`${t.doorsAt} <= ${t.startsAt} and ${t.startsAt} < ${t.endsAt} and ${t.endsAt} <= ${t.clearAt}`,
      ),
      k.check('booking_length', sql`${t.clearAt} - ${t.doorsAt} <= ${literal(BOOKING_LONGEST_MILLISECONDS)}`),
      k.check('booking_headcount', sql`${t.headcount} > 0`),
      k.check('booking_status', sql`${t.status} in (${oneOf(BookingStatus.options)})`),
      k.check('booking_version', sql`${t.version} > 0`),
    ],
  )

  /** Which sections a booking holds, and when: follows from the booking and its room, and is guarded by itself. */
  const sectionOccupancy = k.table(
    'section_occupancy',
    {
      bookingId: k
        .str()
        .notNull()
        .references(() => booking.id),
      sectionId: k
        .str()
        .notNull()
        .references(() => section.id),
      fromAt: k.instant().notNull(),
      toAt: k.instant().notNull(),
      blocking: k.bool().notNull(),
    },
    (t) => [
      k.primaryKey({ columns: [t.bookingId, t.sectionId] }),
      k
        .index('section_occupancy_blocking')
        .on(t.sectionId, t.fromAt, t.toAt, t.bookingId)
        .where(sql`${t.blocking}`),
      k.check('section_occupancy_in_order', sql`${t.fromAt} < ${t.toAt}`),
      k.check(
        'section_occupancy_length',
        sql`${t.toAt} - ${t.fromAt} <= ${literal(BOOKING_LONGEST_MILLISECONDS)}`,
      ),
    ],
  )

  const turn = k.table(
    'turn',
    {
      id: k.str().primaryKey(),
      siteId: k.str().notNull(),
      bookingId: k.str().notNull(),
      purpose: k.str().notNull().default('prepare'),
      roomId: k.str().notNull(),
      predecessorBookingIds: k.json().notNull(),
      fromLayoutIds: k.json().notNull(),
      toLayoutId: k.str().notNull(),
      releaseAt: k.instant().notNull(),
      dueAt: k.instant().notNull(),
      inputHash: k.str().notNull(),
      status: k.str().notNull(),
      judgement: k.json().notNull(),
      planStartsAt: k.instant(),
      planReadyAt: k.instant(),
      // What its plan holds beyond doors: crew at the event, quiet for it.
      heldUntilAt: k.instant(),
      warnedSince: k.instant(),
      polishedAt: k.instant(),
    },
    (t) => [
      k.index('turn_site_due').on(t.siteId, t.dueAt, t.id, t.releaseAt).where(sql`${t.status} <> 'dropped'`),
      k.index('turn_failing').on(t.siteId, t.dueAt, t.id).where(sql`${t.status} = 'failing'`),
      k
        .index('turn_warned')
        .on(t.siteId, t.dueAt, t.id)
        .where(sql`${t.warnedSince} is not null and ${t.status} <> 'dropped'`),
      k
        .index('turn_unpolished')
        .on(t.siteId, t.dueAt, t.id, t.planStartsAt)
        .where(sql`${t.status} = 'ready' and ${t.polishedAt} is null`),
      k
        .index('turn_held')
        .on(t.siteId, t.heldUntilAt, t.dueAt)
        .where(sql`${t.heldUntilAt} is not null and ${t.status} <> 'dropped'`),
      k.index('turn_booking').on(t.siteId, t.bookingId),
      k.foreignKey({ columns: [t.siteId, t.bookingId], foreignColumns: [booking.siteId, booking.id] }),
      k.foreignKey({ columns: [t.siteId, t.roomId], foreignColumns: [room.siteId, room.id] }),
      k.foreignKey({ columns: [t.roomId, t.toLayoutId], foreignColumns: [layout.roomId, layout.id] }),
      k.check(
        'turn_in_order',
        sql`${t.releaseAt} <= ${t.dueAt} and ${t.dueAt} - ${t.releaseAt} <= ${literal(TURN_LONGEST_MILLISECONDS)}`,
      ),
      k.check('turn_status', sql`${t.status} in (${oneOf(TurnStatus.options)})`),
      k.check('turn_ready_has_plan', sql`${t.status} <> 'ready' or ${t.planReadyAt} is not null`),
    ],
  )
  const plan = k.table('plan', {
    turnId: k
      .str()
      .primaryKey()
      .references(() => turn.id),
    // Before the document: what stands behind a long value is only found by reading through it.
    hash: k.str().notNull(),
    document: k.json().notNull(),
  })

  /** How far turns have been looked at after a change of the hall; no row: all of them. */
  const judging = k.table('judging', {
    siteId: k
      .str()
      .primaryKey()
      .references(() => site.id),
    judgedThroughAt: k.instant(),
  })

  /** A chain over all sites: `audit-hash.ts` says what is hashed. Both are null only until a file of before is chained. */
  const audit = k.table(
    'audit',
    {
      sequence: k.sequence(),
      siteId: k
        .str()
        .notNull()
        .references(() => site.id),
      at: k.instant().notNull(),
      actorId: k.str().notNull(),
      action: k.str().notNull(),
      reason: k.str(),
      planningVersion: k.int().notNull(),
      effects: k.json().notNull(),
      previousHash: k.str(),
      hash: k.str(),
    },
    (t) => [k.index('audit_site').on(t.siteId, t.sequence)],
  )
  const changeLog = k.table(
    'change_log',
    {
      sequence: k.sequence(),
      siteId: k
        .str()
        .notNull()
        .references(() => site.id),
      auditSequence: k
        .int()
        .notNull()
        .references(() => audit.sequence),
      at: k.instant().notNull(),
      resourceKind: k.str().notNull(),
      resourceId: k.str().notNull(),
      what: k.str().notNull(),
    },
    (t) => [k.index('change_log_site').on(t.siteId, t.sequence)],
  )
  const idempotency = k.table(
    'idempotency',
    {
      actorId: k.str().notNull(),
      route: k.str().notNull(),
      key: k.str().notNull(),
      bodyHash: k.str().notNull(),
      status: k.int().notNull(),
      headers: k.json().notNull(),
      body: k.str().notNull(),
      at: k.instant().notNull(),
    },
    (t) => [k.primaryKey({ columns: [t.actorId, t.route, t.key] })],
  )

  return {
    site,
    section,
    exit,
    passage,
    room,
    roomSection,
    layout,
    storagePlace,
    furnishing,
    tool,
    equipment,
    person,
    shift,
    closure,
    stockChange,
    observation,
    rateSet,
    policy,
    personDetails,
    booking,
    sectionOccupancy,
    turn,
    plan,
    judging,
    audit,
    changeLog,
    idempotency,
    ...makeAccountTables(k, site),
  }
}
export type Tables = ReturnType<typeof makeTables>
