/** The tables as SQLite has them. drizzle-kit reads this file to write migrations. */
import { kit } from './kit.sqlite.ts'
import { makeTables } from './tables.ts'

export const {
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
} = makeTables(kit)
