/** The tables as SQLite has them. drizzle-kit reads this file to write migrations. */
import { kit } from './kit.sqlite.ts'
import { makeTables } from './tables.ts'

export const {
  site,
  section,
  room,
  roomSection,
  layout,
  storagePlace,
  furnishing,
  equipment,
  person,
  shift,
  closure,
  policy,
  personDetails,
  booking,
  sectionOccupancy,
  turn,
  plan,
  audit,
  changeLog,
  idempotency,
} = makeTables(kit)
