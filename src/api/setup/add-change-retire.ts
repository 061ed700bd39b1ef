/** Adding, changing and retiring a row of the set-up: checked against the site as it is, decided where turns may feel it. */
import { isDeepStrictEqual } from 'node:util'
import type { FastifyRequest } from 'fastify'
import type { SiteId } from '../../domain/ids.ts'
import { type Instant, instantPlusSeconds } from '../../domain/instant.ts'
import type { PersonDetails } from '../../domain/person.ts'
import { type SetupKind, type SetupRows, setupSchemas } from '../../domain/setup.ts'
import type { Site } from '../../domain/site.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { StoredRow } from '../../store/store.ts'
import { type Answer, jsonAnswer } from '../answer.ts'
import { type ApiContext, setupFor, siteFor } from '../context.ts'
import { commitChecked, decideAndCommit, type Prepared } from '../decide-and-commit.ts'
import type { AnswerKeeper } from '../idempotency.ts'
import { refuseStale, requireIfMatch } from '../if-match.ts'
import { InstantReader } from '../instant-text.ts'
import { Problem, refuseFaults, unknownResource } from '../problems.ts'
import { breakageFaults } from './breakage-faults.ts'
import { NOTHING_DECIDED, presented, writtenAnswer } from './setup-answers.ts'
import { setupFaults } from './setup-faults.ts'
import type { SetupResource } from './setup-resource.ts'
import { setupWrite } from './setup-write.ts'
import { spanOf, TURNS_LOOKED_AT_MOST } from './span-of.ts'
import { refuseRetiringWhatIsUsed } from './still-in-use.ts'

interface RowAddress {
  readonly site: string
  readonly id: string
}

/** `dryRun`: only the decision is wanted, nothing is written. */
interface Wish {
  readonly dryRun: boolean
}

const toldOnly = ({ zone }: Site): Answer => jsonAnswer(200, { decision: NOTHING_DECIDED }, zone)

/** What shall be written, checked. */
interface CheckedWrite<Kind extends SetupKind> {
  readonly before: SetupRows[Kind] | null
  /** As it will be stored. */
  readonly stored: StoredRow<SetupRows[Kind]>
  readonly retire: boolean
  readonly details: PersonDetails | null
}

/** @throws Problem invalid-input */
export async function addRow<Kind extends SetupKind>(
  context: ApiContext,
  request: FastifyRequest,
  siteParam: string,
  resource: SetupResource<Kind>,
  { dryRun, keeper }: { readonly dryRun: boolean; readonly keeper: AnswerKeeper | null },
): Promise<Answer> {
  const { kind, noun, prefix } = resource
  const site = await siteFor(context, request.actor, siteParam)
  const id = context.newId(prefix)
  const check = async (): Promise<{ setup: SiteSetup; write: CheckedWrite<Kind> }> => {
    const setup = await setupFor(context, request.actor, siteParam)
    const fields = fieldsFrom(resource.bodies.created, request.body, setup)
    const row =
      resource.rowFrom?.(fields, id, setup) ?? setupSchemas[kind].parse({ ...fields, id, siteId: site.id })
    refuseWrong(context, kind, resource.inForce?.(setup) ?? null, row, setup)
    const details = resource.details?.after(row, null, fields) ?? null
    return {
      setup,
      write: { before: null, stored: { row, version: 1, retiredAt: null }, retire: false, details },
    }
  }
  const action = `add-${noun.replaceAll(' ', '-')}`
  const who = { site, actorId: request.actor.id, action, keeper }
  if (resource.additionTouchesTurns) {
    return decideAndCommit(context, {
      ...who,
      dryRun,
      prepare: async () => {
        const { setup, write } = await check()
        return prepared(context, resource, setup, write, 201)
      },
    })
  }
  return commitChecked(context, {
    ...who,
    prepare: async () => {
      const { setup, write } = await check()
      if (dryRun) return { settled: toldOnly(site) }
      const answer = await answerTo(context, resource, setup, write, 201)
      const { row } = write.stored
      return {
        setup: [setupWrite(kind, null, row, false)],
        personDetails: write.details ? [write.details] : [],
        answer,
      }
    },
  })
}

/** @throws Problem precondition-required, version-mismatch, already-retired, invalid-input */
export const changeRow = <Kind extends SetupKind>(
  context: ApiContext,
  request: FastifyRequest,
  address: RowAddress,
  resource: SetupResource<Kind>,
  { dryRun }: Wish,
): Promise<Answer> =>
  writeOfStanding(context, request, address, resource, { verb: 'change', dryRun }, async (setup, current) => {
    const { kind } = resource
    const fields = fieldsFrom(resource.bodies.changed, request.body, setup)
    const before = current.row
    const row = setupSchemas[kind].parse({ ...before, ...fields })
    const detailsBefore = (await resource.details?.read(context, before)) ?? null
    const details = resource.details?.after(row, detailsBefore, fields) ?? null
    if (isDeepStrictEqual(row, before) && isDeepStrictEqual(details, detailsBefore)) {
      const unchanged = { before, stored: current, retire: false, details }
      return {
        settled: dryRun ? toldOnly(setup.site) : await answerTo(context, resource, setup, unchanged, 200),
      }
    }
    refuseWrong(context, kind, before, row, setup)
    refuseFaults((await resource.changeFaults?.({ before, after: row, setup, context })) ?? [])
    const stored = { row, version: current.version + 1, retiredAt: null }
    return prepared(context, resource, setup, { before, stored, retire: false, details }, 200)
  })

/** @throws Problem precondition-required, version-mismatch, already-retired, still-in-use */
export const retireRow = <Kind extends SetupKind>(
  context: ApiContext,
  request: FastifyRequest,
  address: RowAddress,
  resource: SetupResource<Kind>,
  { dryRun }: Wish,
): Promise<Answer> =>
  writeOfStanding(
    context,
    request,
    address,
    resource,
    { verb: 'retire', dryRun },
    async (setup, { row, version }) => {
      const now = context.clock()
      await refuseRetiringWhatIsUsed(context, resource.kind, { id: row.id, name: nameOf(row) }, setup, now)
      const stored = { row, version: version + 1, retiredAt: now }
      return prepared(context, resource, setup, { before: row, stored, retire: true, details: null }, 200)
    },
  )

/** The version that was read is asked for first; the row is looked at anew in each round. */
async function writeOfStanding<Kind extends SetupKind>(
  context: ApiContext,
  request: FastifyRequest,
  address: RowAddress,
  resource: SetupResource<Kind>,
  { verb, dryRun }: Wish & { readonly verb: 'change' | 'retire' },
  prepare: (setup: SiteSetup, current: StoredRow<SetupRows[Kind]>) => Promise<Prepared>,
): Promise<Answer> {
  const { noun } = resource
  const site = await siteFor(context, request.actor, address.site)
  const ifMatch = requireIfMatch(request.headers['if-match'], noun)
  return decideAndCommit(context, {
    site,
    actorId: request.actor.id,
    action: `${verb}-${noun.replaceAll(' ', '-')}`,
    dryRun,
    keeper: null,
    prepare: async () => {
      const setup = await setupFor(context, request.actor, address.site)
      return prepare(setup, await standingRow(context, setup, resource, address.id, ifMatch))
    },
  })
}

function fieldsFrom(
  read: (body: unknown, reader: InstantReader) => object,
  body: unknown,
  { site }: SiteSetup,
): object {
  const reader = new InstantReader(site.zone, 'body')
  const fields = read(body, reader)
  refuseFaults(reader.faults)
  return fields
}

/** One in force, at a version that If-Match names. */
async function standingRow<Kind extends SetupKind>(
  { store }: ApiContext,
  { site }: SiteSetup,
  { kind, noun }: SetupResource<Kind>,
  id: string,
  ifMatch: string,
): Promise<StoredRow<SetupRows[Kind]>> {
  const stored = await store.setupRow(site.id, kind, id)
  if (!stored) throw unknownResource(noun, id)
  refuseStale(ifMatch, stored, noun)
  if (stored.retiredAt !== null)
    throw new Problem('already-retired', `${nameOf(stored.row)} is retired already.`)
  return stored
}

const nameOf = (row: { readonly id: string; readonly name?: string }): string => row.name ?? row.id

/** @throws Problem invalid-input: what is wrong with the row itself, else what it would break */
function refuseWrong<Kind extends SetupKind>(
  context: ApiContext,
  kind: Kind,
  before: SetupRows[Kind] | null,
  after: SetupRows[Kind],
  setup: SiteSetup,
): void {
  const now = context.clock()
  refuseFaults(setupFaults[kind](after, setup, now))
  refuseFaults(breakageFaults(kind, before, after, setup, now))
}

async function prepared<Kind extends SetupKind>(
  context: ApiContext,
  resource: SetupResource<Kind>,
  setup: SiteSetup,
  checked: CheckedWrite<Kind>,
  status: 200 | 201,
): Promise<Prepared> {
  const { before, stored, retire, details } = checked
  const write = setupWrite(resource.kind, before, stored.row, retire)
  const shown = await shownRow(context, resource, setup, checked)
  const now = context.clock()
  const lastDueAt = await context.store.lastTurnDueAt(setup.site.id, now, TURNS_LOOKED_AT_MOST)
  const { span, isWhole } = spanOf(write, setup.site.zone, now, lastDueAt)
  const isLater = !isWhole && (await isAnythingFrom(context, setup.site.id, span.toAt))
  return {
    operations: [{ kind: 'set-up', writes: [write], span, restFromAt: isLater ? span.toAt : null }],
    personDetails: details ? [details] : [],
    answer: (decision) => writtenAnswer(status, resource, setup.site, shown, stored, decision),
  }
}

/** A turn that is due then or later, or a room that may be put back after a booking that is clear then or later. */
async function isAnythingFrom({ store }: ApiContext, siteId: SiteId, fromAt: Instant): Promise<boolean> {
  const turns = await store.turnsDueFrom(siteId, fromAt, 1)
  const at = { fromAt: instantPlusSeconds(fromAt, -1), toAt: fromAt }
  const goingOn = await store.bookings(siteId, at, { roomId: null }, { limit: 1, after: null })
  return turns.length + goingOn.items.length > 0
}

const answerTo = async <Kind extends SetupKind>(
  context: ApiContext,
  resource: SetupResource<Kind>,
  setup: SiteSetup,
  checked: CheckedWrite<Kind>,
  status: 200 | 201,
): Promise<Answer> =>
  writtenAnswer(
    status,
    resource,
    setup.site,
    await shownRow(context, resource, setup, checked),
    checked.stored,
    NOTHING_DECIDED,
  )

/** With the details as they shall be, where there are any. */
async function shownRow<Kind extends SetupKind>(
  context: ApiContext,
  resource: SetupResource<Kind>,
  { site }: SiteSetup,
  { stored, details }: CheckedWrite<Kind>,
): Promise<object> {
  const [item] = await presented(context, resource, [stored], site.id)
  return details ? { ...item, ...withoutId(details) } : (item ?? stored.row)
}

const withoutId = ({ personId: _personId, ...details }: PersonDetails) => details
