/** The statements that write one row of the set-up. */
import { isDeepStrictEqual } from 'node:util'
import { and, eq, isNull } from 'drizzle-orm'
import type { SQLiteInsertValue, SQLiteUpdateSetSource } from 'drizzle-orm/sqlite-core'
import type { Instant } from '../domain/instant.ts'
import type { SetupKind } from '../domain/setup.ts'
import { type Db, once, type Step } from './engine.ts'
import type { SetupChange } from './pending-write.ts'
import type { Tables } from './tables.ts'

type SetupTable = Tables[SetupKind]
type Values<Table extends SetupTable> = SQLiteInsertValue<Table> & SQLiteUpdateSetSource<Table>

/** The row of a set-up write, with the columns that queries and guards need beside its document. */
export function putSetup(tx: Db, t: Tables, change: SetupChange, at: Instant): Step[] {
  const { after, retire, versionBefore } = change
  const row = {
    id: after.id,
    siteId: after.siteId,
    document: after,
    version: versionBefore + 1,
    retiredAt: retire ? at : null,
  }
  switch (change.kind) {
    case 'exit':
      return [putRow(tx, t.exit, { ...row, sectionId: change.after.sectionId }, change)]
    case 'room': {
      const values = { ...row, homeLayoutId: change.after.homeLayoutId }
      return [putRow(tx, t.room, values, change), ...putRoomSections(tx, t, change)]
    }
    case 'furnishing':
      return [putRow(tx, t.furnishing, { ...row, storagePlaceId: change.after.storagePlaceId }, change)]
    case 'layout':
      return [putRow(tx, t.layout, { ...row, roomId: change.after.roomId }, change)]
    case 'shift': {
      const { crew } = change.after
      const personId = crew.kind === 'person' ? crew.personId : null
      return [putRow(tx, t.shift, { ...row, personId }, change)]
    }
    case 'closure': {
      const { fromAt, toAt } = change.after
      return [putRow(tx, t.closure, { ...row, fromAt, toAt }, change)]
    }
    case 'stockChange': {
      const { of, fromAt, toAt } = change.after
      const changed = {
        furnishingId: of.kind === 'furnishing' ? of.furnishingId : null,
        equipmentId: of.kind === 'equipment' ? of.equipmentId : null,
        toolId: of.kind === 'tool' ? of.toolId : null,
      }
      return [putRow(tx, t.stockChange, { ...row, ...changed, fromAt, toAt }, change)]
    }
    case 'observation': {
      const { roomId, seenAt } = change.after
      return [putRow(tx, t.observation, { ...row, roomId, seenAt }, change)]
    }
    case 'section':
    case 'passage':
    case 'storagePlace':
    case 'tool':
    case 'equipment':
    case 'person':
    case 'rateSet':
    case 'policy':
      return [putRow(tx, t[change.kind], row, change)]
    default:
      return change satisfies never
  }
}

/** A row that was read is replaced only while it is at the version it was read at. */
function putRow<Table extends SetupTable>(
  tx: Db,
  table: Table,
  values: Values<Table>,
  { kind, after, versionBefore }: SetupChange,
): Step {
  if (versionBefore === 0) {
    return {
      run: tx.insert(table).values(values).returning({ id: table.id }),
      rows: once(`${kind} ${after.id} was not stored`),
    }
  }
  const isAsRead = and(
    eq(table.id, after.id),
    eq(table.siteId, after.siteId),
    eq(table.version, versionBefore),
    isNull(table.retiredAt),
  )
  return {
    run: tx.update(table).set(values).where(isAsRead).returning({ id: table.id }),
    rows: once(`${kind} ${after.id} has moved on from version ${versionBefore}`),
  }
}

type RoomChange = Extract<SetupChange, { kind: 'room' }>

/** A new room, or one that is made of other sections than before. */
export const hasOtherSections = ({ before, after }: RoomChange): boolean =>
  !isDeepStrictEqual(new Set(before?.sectionIds), new Set(after.sectionIds))

function putRoomSections(tx: Db, { roomSection }: Tables, change: RoomChange): Step[] {
  if (!hasOtherSections(change)) return []
  const { id: roomId, siteId, sectionIds } = change.after
  const values = sectionIds.map((sectionId) => ({ siteId, roomId, sectionId }))
  const put: Step = { run: tx.insert(roomSection).values(values).returning({ id: roomSection.sectionId }) }
  if (!change.before) return [put]
  const isOfRoom = eq(roomSection.roomId, roomId)
  return [{ run: tx.delete(roomSection).where(isOfRoom).returning({ id: roomSection.sectionId }) }, put]
}
