/** A commit, checked and completed with what the store knows: all that the statements and the audit need. */
import { isDeepStrictEqual } from 'node:util'
import { Booking } from '../domain/booking.ts'
import type { RowChange } from '../domain/decision.ts'
import type { PersonId, RoomId, SectionId, TurnId } from '../domain/ids.ts'
import { PersonDetails } from '../domain/person.ts'
import { type SetupKind, type SetupWrite, SetupWriteSchema, setupKinds } from '../domain/setup.ts'
import { Site } from '../domain/site.ts'
import { Turn } from '../domain/turn.ts'
import { planHash } from './plan-hash.ts'
import type { StandingRows } from './read-for-commit.ts'
import type { StoredSetup } from './read-setup.ts'
import { type RowsReplaced, rowKey, setupWritesOf } from './read-setup-rows.ts'
import { Judging } from './recorded-rows.ts'
import { type Commit, Conflict, type IdempotentAnswer, ReferenceMissing } from './store.ts'

export type SetupChange = SetupWrite & {
  /** The version of the row that is changed or retired, as it was read; 0: the row is new. */
  readonly versionBefore: number
}

export interface TurnChange extends RowChange<Turn> {
  readonly planHashBefore: string | null
  readonly planHashAfter: string | null
}

export interface JudgingChange {
  readonly before: Judging | null
  readonly after: Judging
}

export interface PendingWrite {
  readonly commit: Commit
  /** null: whatever version there is. */
  readonly planningVersionExpected: number | null
  /** Phone numbers are no input to a decision: a commit of those alone leaves the version. */
  readonly movesPlanning: boolean
  readonly movesSetup: boolean
  readonly site: RowChange<Site> | null
  /**
   * In an order in which what is referred to comes first, and what is retired before what takes its place. The policy
   * and the rate set that make way for a new one are among them.
   */
  readonly setup: readonly SetupChange[]
  readonly personDetails: readonly PersonDetails[]
  readonly personDetailsErased: readonly PersonId[]
  /** Answers kept under a key that tell of them, as they shall be kept. */
  readonly answersErased: readonly IdempotentAnswer[]
  readonly bookings: readonly (RowChange<Booking> & { readonly sectionIds: readonly SectionId[] })[]
  readonly turns: readonly TurnChange[]
  /** null: it stays as it is. */
  readonly judging: JudgingChange | null
}

/** These change with the days and are looked up for each decision; the rest is kept until it changes. */
const kindsOfTheDay: readonly SetupKind[] = ['closure', 'observation']

/**
 * @throws Conflict when the site, or a set-up row that is changed or retired, has moved on already
 * @throws ReferenceMissing when there is no such site, or no such row to change, or a booking is for a room that is not
 *   there
 * @throws Error when the commit could never be right: a bug of the caller
 */
export function pendingWrite(commit: Commit, standing: StandingRows): PendingWrite {
  const { site: stored, answersErased } = standing
  if (!stored && !commit.site) throw new ReferenceMissing(`There is no site ${commit.siteId}`)
  const expected = commit.planningVersionExpected
  if (expected !== null && expected !== (stored?.planningVersion ?? 0)) {
    throw new Conflict(`The site has moved on from version ${expected}`)
  }
  const setup = setupChanges(setupWritesOf(commit), standing.replaced)
  const site = commit.site ? { before: stored?.site ?? null, after: valid(Site, commit.site) } : null
  const bookings = (commit.changes?.bookings ?? []).map(({ before, after }) => ({
    before,
    after: valid(Booking, after),
    sectionIds: sectionIdsOf(after.roomId, setup, standing.setup),
  }))
  const turns = (commit.changes?.turns ?? []).map((change) => turnChange(change, standing.planHashes))
  const judging = judgingChange(commit, standing.judging)
  const personDetails = (commit.personDetails ?? []).map((details) => valid(PersonDetails, details))
  const personDetailsErased = commit.personDetailsErased ?? []
  const both = personDetails.find(({ personId }) => personDetailsErased.includes(personId))
  if (both) throw new Error(`The details of ${both.personId} are written and erased by one commit`)
  refuseOtherSites(commit, [
    ...setup.map(({ after }) => after),
    ...bookings.map(afterOf),
    ...turns.map(afterOf),
  ])
  // What only the store has read, and no row of the commit tells, must still hold when it is written.
  const restsOnWhatStoreRead = site?.before || judging || turns.some(({ before }) => before)
  return {
    commit,
    planningVersionExpected: expected ?? (restsOnWhatStoreRead ? (stored?.planningVersion ?? null) : null),
    movesPlanning:
      site !== null || setup.length > 0 || bookings.length > 0 || turns.length > 0 || judging !== null,
    movesSetup: site !== null || setup.some(({ kind }) => !kindsOfTheDay.includes(kind)),
    site,
    setup,
    personDetails,
    personDetailsErased,
    answersErased,
    bookings,
    turns,
    judging,
  }
}

const afterOf = <Row>({ after }: RowChange<Row>): Row => after

function setupChanges(writes: readonly SetupWrite[], replaced: RowsReplaced): SetupChange[] {
  if (writes.length === 0) return []
  const changes = writes.map((write) => setupChange(write, replaced))
  refuseRepeated(writes)
  const named = new Set(writes.map(rowKey))
  const madeWay = retirementsOfInForce(replaced).filter((change) => !named.has(rowKey(change)))
  const place = ({ kind, retire }: SetupChange) => setupKinds.indexOf(kind) * 2 + (retire ? 0 : 1)
  return [...madeWay, ...changes].sort((a, b) => place(a) - place(b))
}

/**
 * The rows as their schemas give them: trimmed, and without what a schema does not know. The commit does not say which
 * version it was read at, so `before` itself is compared with what is stored; from here on its version stands for it.
 */
function setupChange(write: SetupWrite, { stored }: RowsReplaced): SetupChange {
  const written = valid(SetupWriteSchema, write)
  const { kind, before, after, retire } = written
  const what = `${kind} ${after.id}`
  if (!before) {
    if (retire) throw new Error(`${what} is new and is retired at once`)
    return Object.assign({}, written, { versionBefore: 0 })
  }
  if (before.id !== after.id) throw new Error(`${kind} ${before.id} cannot become ${after.id}`)
  if (retire && !isDeepStrictEqual(before, after)) throw new Error(`${what} is changed while it is retired`)
  if (movesToAnotherRoom(written)) throw new Error(`${what} cannot move to another room`)
  const current = stored.get(rowKey(written))
  if (!current) throw new ReferenceMissing(`There is no ${what} in this site`)
  if (current.retiredAt !== null) throw new Conflict(`${what} is out of use already`)
  if (!isDeepStrictEqual(current.row, before))
    throw new Conflict(`${what} has been changed since it was read`)
  return Object.assign({}, written, { versionBefore: current.version })
}

/** Bookings and turns name a layout together with its room. */
const movesToAnotherRoom = (write: SetupWrite): boolean =>
  write.kind === 'layout' && write.before?.roomId !== write.after.roomId

function retirementsOfInForce({ policyInForce, rateSetInForce }: RowsReplaced): SetupChange[] {
  const retirements: SetupChange[] = []
  if (policyInForce) {
    const { row, version } = policyInForce
    retirements.push({ kind: 'policy', before: row, after: row, retire: true, versionBefore: version })
  }
  if (rateSetInForce) {
    const { row, version } = rateSetInForce
    retirements.push({ kind: 'rateSet', before: row, after: row, retire: true, versionBefore: version })
  }
  return retirements
}

function refuseRepeated(writes: readonly SetupWrite[]): void {
  const seen = new Set<string>()
  for (const key of writes.map(rowKey)) {
    if (seen.has(key)) throw new Error(`${key} is written twice in one commit`)
    seen.add(key)
  }
}

function sectionIdsOf(
  roomId: RoomId,
  setup: readonly SetupChange[],
  stored: StoredSetup | null,
): readonly SectionId[] {
  for (const change of setup)
    if (change.kind === 'room' && change.after.id === roomId) return change.after.sectionIds
  const sectionIds = stored?.sectionIdsByRoom.get(roomId)
  if (!sectionIds) throw new ReferenceMissing(`There is no room ${roomId} in this site`)
  return sectionIds
}

function turnChange({ before, after }: RowChange<Turn>, planHashes: ReadonlyMap<TurnId, string>): TurnChange {
  if (after.status === 'ready' && !after.plan)
    throw new Error(`Turn ${after.id} is called ready and has no plan`)
  const written = valid(Turn, after)
  return {
    before,
    after: written,
    planHashBefore: before ? (planHashes.get(after.id) ?? null) : null,
    planHashAfter: written.plan ? planHash(written.plan) : null,
  }
}

/** null: nothing is said, or what stands already. */
function judgingChange({ siteId, changes }: Commit, before: Judging | null): JudgingChange | null {
  const judgedThroughAt = changes?.judgedThroughAt
  if (judgedThroughAt === undefined || judgedThroughAt === (before?.judgedThroughAt ?? null)) return null
  return { before, after: valid(Judging, { siteId, judgedThroughAt }) }
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
