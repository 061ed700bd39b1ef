/** A commit, checked and completed with what the store knows: all that the statements and the audit need. */
import { Booking } from '../domain/booking.ts'
import type { RowChange } from '../domain/decision.ts'
import type { RoomId, SectionId } from '../domain/ids.ts'
import { PersonDetails } from '../domain/person.ts'
import type { Policy } from '../domain/policy.ts'
import { Site } from '../domain/site.ts'
import { Turn } from '../domain/turn.ts'
import { planHash } from './plan-hash.ts'
import type { StoredSetup, StoredSite } from './read-setup.ts'
import { setupKindsInOrder, setupSchemas } from './setup-schemas.ts'
import { type Commit, Conflict, ReferenceMissing, type SetupAddition } from './store.ts'

/** A set-up row added, or for a shift and a closure perhaps changed. */
export type SetupChange = SetupAddition & { readonly before: object | null }

export interface TurnChange extends RowChange<Turn> {
  readonly planHashBefore: string | null
  readonly planHashAfter: string | null
}

export interface PendingWrite {
  readonly commit: Commit
  /** null: whatever version there is. */
  readonly planningVersionExpected: number | null
  /** Phone numbers are no input to a decision: a commit of those alone leaves the version. */
  readonly movesPlanning: boolean
  readonly movesSetup: boolean
  readonly site: RowChange<Site> | null
  readonly policyRetired: Policy | null
  /** In an order in which what is referred to comes first. */
  readonly setup: readonly SetupChange[]
  readonly personDetails: readonly PersonDetails[]
  readonly bookings: readonly (RowChange<Booking> & { readonly sectionIds: readonly SectionId[] })[]
  readonly turns: readonly TurnChange[]
}

/**
 * @param stored  the site as it stands; null: this commit founds it
 * @throws Conflict when the site has moved on already
 * @throws ReferenceMissing when there is no such site, or a booking is for a room that is not there
 * @throws Error when the commit could never be right: a bug of the caller
 */
export function pendingWrite(
  commit: Commit,
  stored: StoredSite | null,
  setupStored: StoredSetup | null,
): PendingWrite {
  if (!stored && !commit.site) throw new ReferenceMissing(`There is no site ${commit.siteId}`)
  const expected = commit.planningVersionExpected
  if (expected !== null && expected !== (stored?.planningVersion ?? 0)) {
    throw new Conflict(`The site has moved on from version ${expected}`)
  }
  const setup = setupChanges(commit)
  const site = commit.site ? { before: stored?.site ?? null, after: valid(Site, commit.site) } : null
  const bringsPolicy = setup.some(({ kind }) => kind === 'policy')
  const policyRetired = bringsPolicy ? (setupStored?.setup?.policy ?? null) : null
  const bookings = (commit.changes?.bookings ?? []).map(({ before, after }) => ({
    before,
    after: valid(Booking, after),
    sectionIds: sectionIdsOf(after.roomId, setup, setupStored),
  }))
  const turns = (commit.changes?.turns ?? []).map(turnChange)
  const personDetails = (commit.personDetails ?? []).map((details) => valid(PersonDetails, details))
  const movesSetup = site !== null || setup.length > 0
  refuseOtherSites(commit, [...setup.map(({ row }) => row), ...bookings.map(afterOf), ...turns.map(afterOf)])
  return {
    commit,
    // Where a row is replaced that only the store has read, what it read must still hold.
    planningVersionExpected:
      expected ?? (site?.before || policyRetired ? (stored?.planningVersion ?? null) : null),
    movesPlanning: movesSetup || bookings.length > 0 || turns.length > 0,
    movesSetup,
    site,
    policyRetired,
    setup,
    personDetails,
    bookings,
    turns,
  }
}

const afterOf = <Row>({ after }: RowChange<Row>): Row => after

function setupChanges(commit: Commit): SetupChange[] {
  const added = (commit.setup ?? []).map((addition) => ({ ...validAddition(addition), before: null }))
  const shifts = (commit.changes?.shifts ?? []).map(({ before, after }) => ({
    ...validAddition({ kind: 'shift', row: after }),
    before,
  }))
  const closures = (commit.changes?.closures ?? []).map(({ before, after }) => ({
    ...validAddition({ kind: 'closure', row: after }),
    before,
  }))
  return [...added, ...shifts, ...closures].sort(
    (a, b) => setupKindsInOrder.indexOf(a.kind) - setupKindsInOrder.indexOf(b.kind),
  )
}

/** The row as its schema gives it: trimmed, and without what the schema does not know. */
const validAddition = (addition: SetupAddition): SetupAddition =>
  Object.assign({}, addition, { row: valid(setupSchemas[addition.kind], addition.row) })

function sectionIdsOf(
  roomId: RoomId,
  setup: readonly SetupChange[],
  stored: StoredSetup | null,
): readonly SectionId[] {
  for (const change of setup)
    if (change.kind === 'room' && change.row.id === roomId) return change.row.sectionIds
  const sectionIds = stored?.sectionIdsByRoom.get(roomId)
  if (!sectionIds) throw new ReferenceMissing(`There is no room ${roomId} in this site`)
  return sectionIds
}

function turnChange({ before, after }: RowChange<Turn>): TurnChange {
  if (after.status === 'ready' && !after.plan)
    throw new Error(`Turn ${after.id} is called ready and has no plan`)
  const written = valid(Turn, after)
  return {
    before,
    after: written,
    planHashBefore: before?.plan ? planHash(before.plan) : null,
    planHashAfter: written.plan ? planHash(written.plan) : null,
  }
}

function refuseOtherSites(commit: Commit, rows: readonly { readonly siteId: string }[]): void {
  const others = rows.filter((row) => row.siteId !== commit.siteId)
  const foreignSite = commit.site && commit.site.id !== commit.siteId
  if (others.length > 0 || foreignSite)
    throw new Error(`A commit to ${commit.siteId} has rows of another site`)
}

/** What is written must be readable again: a row that its own schema refuses is a bug of the caller. */
function valid<Row>(schema: { parse(row: unknown): Row }, row: Row): Row {
  try {
    return schema.parse(row)
  } catch (error) {
    throw new Error(`A row to be written is not valid: ${JSON.stringify(row).slice(0, 300)}`, {
      cause: error,
    })
  }
}
