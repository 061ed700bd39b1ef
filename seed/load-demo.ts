/**
 * Puts the demo into an empty database: the set-up in one write, then each booking decided like any request, so
 * that what is accepted carries its plan and what does not fit is refused for the reason a user would get. A load
 * that was cut off, wherever, is gone on with by the next one, and ends with the same rows as one in one go.
 */
import { z } from 'zod'
import { defaultPolicy } from '../src/api/policies/default-policy.ts'
import { Booking } from '../src/domain/booking.ts'
import type { DecisionAnswer } from '../src/domain/decision.ts'
import { ActorId, PolicyId, SiteId } from '../src/domain/ids.ts'
import type { Instant } from '../src/domain/instant.ts'
import { PersonDetails } from '../src/domain/person.ts'
import { type SetupKind, type SetupWrite, SetupWriteSchema, setupKinds } from '../src/domain/setup.ts'
import { Site } from '../src/domain/site.ts'
import { dateAfter, instantOfLocal } from '../src/scheduler/timeline/wall-time.ts'
import { type AuditEntry, Conflict, type Page, type Store } from '../src/store/store.ts'
import type { Decider } from '../src/worker/decider.ts'
import * as demo from './demo/index.ts'
import { demoFriday } from './demo-friday.ts'

export interface LoadedBooking {
  readonly booking: Booking
  readonly decision: DecisionAnswer
}
export interface LoadedDemo {
  readonly site: Site
  /** Those that were decided on in this load, in the order in which they were asked for. */
  readonly bookings: readonly LoadedBooking[]
}

const demoActor = ActorId.parse('actor_demo')
/** What the audit calls the first write of a load. A demo that was begun in any other way is whole, or somebody's own. */
const BEGUN = 'begin-demo'
/** What the audit calls the last write of a load: nothing is missing. */
const COMPLETE = 'demo-complete'
/** So often another process that loads the same demo may be faster at one step. */
const ATTEMPTS_MOST = 5
const AUDIT_PAGE = 200

/** Whether the database is empty, or holds a demo whose load was cut off. */
export async function lacksDemo(store: Store): Promise<boolean> {
  const sites = await store.sites({ limit: 1, after: null })
  if (sites.items.length === 0) return true
  const { begunAt, isComplete } = await loadSoFar(store, SiteId.parse(demo.site.id))
  return begunAt !== null && !isComplete
}

/**
 * @param store  without the demo site, or with one that an earlier load has begun
 * @param now    when the load begins; one that was begun earlier goes on as of then, so that days and plans agree
 * @throws ZodError when the demo's data is not valid
 */
export async function loadDemo(store: Store, decider: Decider, now: Instant): Promise<LoadedDemo> {
  const site = Site.parse(demo.site)
  const begunAt = await step(store, site.id, (soFar) => putSetup(store, site, soFar, now))
  const bookings = bookingsAsOf(site, begunAt)
  const loaded: LoadedBooking[] = []
  for (const [index, booking] of bookings.entries()) {
    const decision = await step(store, site.id, async ({ written, isComplete }) => {
      // What was refused leaves no row: where one that comes later is there, this one has been asked.
      const isAsked = isComplete || bookings.slice(index).some(({ id }) => written.has(id))
      return isAsked ? null : book(store, decider, booking, begunAt)
    })
    if (decision) loaded.push({ booking, decision })
  }
  await step(store, site.id, (soFar) => sayComplete(store, site, soFar, begunAt))
  return { site, bookings: loaded }
}

/** What the audit says of the demo. */
interface LoadSoFar {
  /** When the first load began; null: none has. */
  readonly begunAt: Instant | null
  /** Ids of the rows that it has written, whatever has become of them since. */
  readonly written: ReadonlySet<string>
  readonly isComplete: boolean
}

/** A site that somebody else has made under this id, an imported one for instance, is not a load that was begun. */
async function loadSoFar(store: Store, siteId: SiteId): Promise<LoadSoFar> {
  const written = new Set<string>()
  let begunAt: Instant | null = null
  let after: string | null = null
  do {
    const page: Page<AuditEntry> = await store.audit(siteId, { limit: AUDIT_PAGE, after })
    for (const { actorId, action, at, effects } of page.items) {
      if (begunAt === null && (actorId !== demoActor || action !== BEGUN))
        return { begunAt, written, isComplete: false }
      begunAt ??= at
      if (actorId === demoActor) for (const { id } of effects) written.add(id)
      if (action === COMPLETE) return { begunAt, written, isComplete: true }
    }
    after = page.nextAfter
  } while (after !== null)
  return { begunAt, written, isComplete: false }
}

/** One step of the load, from what is there now; anew when another process that loads the demo was faster. */
async function step<Result>(
  store: Store,
  siteId: SiteId,
  take: (soFar: LoadSoFar) => Promise<Result>,
): Promise<Result> {
  for (let attempt = 1; ; attempt += 1) {
    try {
      return await take(await loadSoFar(store, siteId))
    } catch (fault) {
      if (!(fault instanceof Conflict) || attempt === ATTEMPTS_MOST) throw fault
    }
  }
}

/** Adds what is missing of the set-up, in one write. @returns when the load began */
async function putSetup(store: Store, site: Site, soFar: LoadSoFar, now: Instant): Promise<Instant> {
  const begunAt = soFar.begunAt ?? now
  const isMissing = (id: string) => !soFar.isComplete && !soFar.written.has(id)
  const setup = setupAsOf(site, begunAt).filter(({ after }) => isMissing(after.id))
  if (setup.length === 0) return begunAt
  const details = z.array(PersonDetails).parse(demo.personDetails)
  await store.commit({
    siteId: site.id,
    planningVersionExpected: null,
    actorId: demoActor,
    action: BEGUN,
    reason: null,
    at: begunAt,
    ...(soFar.begunAt === null ? { site } : {}),
    setup,
    personDetails: details.filter(({ personId }) => isMissing(personId)),
  })
  return begunAt
}

/** What the parts of the set-up are called in the data, where it is not the kind with an s. */
const dataNames = new Map<SetupKind, string>([
  ['equipment', 'equipment'],
  ['person', 'people'],
  ['policy', 'policies'],
])

/** Every part that the data has, in an order in which it can be added; and the policy. */
function setupAsOf(site: Site, begunAt: Instant): SetupWrite[] {
  const data = new Map<string, unknown>(Object.entries(demo))
  const rows = setupKinds.flatMap((kind) =>
    z
      .array(z.looseObject({}))
      .parse(data.get(dataNames.get(kind) ?? `${kind}s`) ?? [])
      .map((row) => addition(kind, { ...withMoments(row, site, begunAt), siteId: site.id })),
  )
  const policy = defaultPolicy(PolicyId.parse('policy_demo'), site.id)
  return rows.some(({ kind }) => kind === 'policy') ? rows : [...rows, addition('policy', policy)]
}

const addition = (kind: SetupKind, row: object): SetupWrite =>
  SetupWriteSchema.parse({ kind, before: null, after: row, retire: false })

const DayAndTime = z.strictObject({ day: z.int(), local: z.string() })

/** The same with each `{ day, local }` as a moment; days count from the Friday around the moment when the load began. */
function withMoments(value: object, site: Site, begunAt: Instant): object {
  return Object.fromEntries(
    Object.entries(value).map(([name, field]: [string, unknown]) => {
      const moment = DayAndTime.safeParse(field).data
      if (moment) return [name.endsWith('At') ? name : `${name}At`, momentOf(moment, site, begunAt)]
      const isObject = typeof field === 'object' && field !== null && !Array.isArray(field)
      return [name, isObject ? withMoments(field, site, begunAt) : field]
    }),
  )
}

const momentOf = ({ day, local }: z.infer<typeof DayAndTime>, { zone }: Site, begunAt: Instant): Instant =>
  instantOfLocal(zone, dateAfter(demoFriday(begunAt, zone), day), local)

function bookingsAsOf(site: Site, begunAt: Instant): Booking[] {
  return demo.bookings.map((asked, index) => {
    const name = `demo-${index + 1}`
    const at = (local: string) => momentOf({ day: asked.day, local }, site, begunAt)
    return Booking.parse({
      id: `booking_${name}`,
      turnId: `turn_${name}`,
      siteId: site.id,
      title: asked.title,
      roomId: `room_${asked.room}`,
      layoutId: `layout_${asked.layout}`,
      headcount: asked.headcount,
      doorsAt: at(asked.doors),
      startsAt: at(asked.starts),
      endsAt: at(asked.ends),
      clearAt: at(asked.clear),
      foodServed: asked.layout.endsWith('banquet'),
      floorWet: false,
      status: 'CONFIRMED',
      version: 1,
    })
  })
}

async function book(
  store: Store,
  decider: Decider,
  booking: Booking,
  begunAt: Instant,
): Promise<DecisionAnswer> {
  const { siteId } = booking
  const answer = await decider.decide({ siteId, operations: [{ kind: 'book', booking }], now: begunAt })
  if (answer.kind !== 'decided') throw new Error(`the demo cannot be decided on: ${JSON.stringify(answer)}`)
  const { changes, ...decision } = answer.decision
  if (changes) {
    await store.commit({
      siteId,
      planningVersionExpected: answer.planningVersion,
      actorId: demoActor,
      action: 'book',
      reason: null,
      at: begunAt,
      changes,
    })
  }
  return decision
}

/** The site is written once more as it stands: an entry of the audit needs a row to speak of. */
async function sayComplete(store: Store, { id }: Site, soFar: LoadSoFar, begunAt: Instant): Promise<void> {
  const site = await store.site(id)
  if (soFar.isComplete || !site) return
  await store.commit({
    siteId: id,
    planningVersionExpected: null,
    actorId: demoActor,
    action: COMPLETE,
    reason: null,
    at: begunAt,
    site,
  })
}
