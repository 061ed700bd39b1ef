/** Everything that can be asked of a database file. */
import { z } from 'zod'
import { SiteId } from '../domain/ids.ts'
import type { Instant } from '../domain/instant.ts'
import { StoredAnswer } from '../store/read-lists.ts'
import type { StoredFile } from '../store/stored-file.ts'
import { auditFaults } from './audit-faults.ts'
import { invariantFaults } from './invariant-faults.ts'
import { isDamage } from './is-damage.ts'
import { occupancyFaults } from './occupancy-faults.ts'
import { ROWS_A_PAGE, readColumns } from './read-columns.ts'
import { rowFaults } from './row-faults.ts'
import { SectionsOfRooms } from './sections-of-rooms.ts'
import { type StoredFault, whyUnreadable } from './stored-fault.ts'
import { turnFaults } from './turn-faults.ts'
import { walkAuditChain } from './walk-audit-chain.ts'

/** So much of what the database itself says is told. */
const DATABASE_FAULTS_MOST = 100

/** @param now  bookings that have begun by then are left as they are @returns in a stated order, as they are found */
export async function* faultsInFile(file: StoredFile, now: Instant): AsyncGenerator<StoredFault> {
  try {
    yield* allFaults(file, now)
  } catch (error) {
    // Pages of the file are damaged; the database says so only when it comes to them.
    if (!isDamage(error)) throw error
    yield { siteId: null, where: 'damage', what: `nothing more can be read: ${whyUnreadable(error)}` }
  }
}

async function* allFaults(file: StoredFile, now: Instant): AsyncGenerator<StoredFault> {
  yield* databaseFaults(file)
  for (const id of file.siteIds()) {
    const siteId = SiteId.safeParse(id)
    if (siteId.success) yield* siteFaults(file, siteId.data, now)
    else yield { siteId: id, where: 'site', what: `cannot be read: ${whyUnreadable(siteId.error)}` }
  }
  yield* chainFaults(file)
  yield* answerFaults(file)
}

async function* siteFaults(file: StoredFile, siteId: SiteId, now: Instant): AsyncGenerator<StoredFault> {
  const sections = new SectionsOfRooms()
  yield* rowFaults(file, siteId)
  yield* turnFaults(file, siteId)
  yield* auditFaults(file, siteId, sections)
  yield* occupancyFaults(file, siteId, sections)
  yield* invariantFaults(file, siteId, now)
}

function* databaseFaults(file: StoredFile): Generator<StoredFault> {
  const damage = file.damage(DATABASE_FAULTS_MOST)
  for (const what of damage) yield { siteId: null, where: 'damage', what }
  const dangling = file.dangling(DATABASE_FAULTS_MOST)
  for (const { table, rowNumber, parent } of dangling) {
    const where = `row ${rowNumber} of ${table}`
    yield { siteId: null, where, what: `refers to a row of ${parent} that is not there` }
  }
  if (Math.max(damage.length, dangling.length) === DATABASE_FAULTS_MOST)
    yield { siteId: null, where: 'damage', what: `there may be more: ${DATABASE_FAULTS_MOST} are told` }
}

/** The first one: what comes after it follows from another chain. */
function* chainFaults(file: StoredFile): Generator<StoredFault> {
  const { fault } = walkAuditChain(file)
  if (fault) yield { siteId: null, where: `entry ${fault.sequence} of the audit`, what: fault.what }
}

const NumberedAnswer = z.looseObject({ number: z.int(), key: z.string() })

function* answerFaults(file: StoredFile): Generator<StoredFault> {
  let after = 0
  for (;;) {
    const page = file.answers(after, ROWS_A_PAGE)
    for (const columns of page) {
      const { number, key } = NumberedAnswer.parse(columns)
      after = number
      try {
        StoredAnswer.parse(readColumns(columns))
      } catch (error) {
        const what = `cannot be read: ${whyUnreadable(error)}`
        yield { siteId: null, where: `answer kept under ${key}`, what }
      }
    }
    if (page.length < ROWS_A_PAGE) return
  }
}
