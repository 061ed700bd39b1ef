/**
 * Something is asked of the service as it stands, and nothing is written: the answer on what it loads for it must be the
 * answer on everything there is, to the letter; and what SiteSnapshot promises must be loaded.
 */
import { isDeepStrictEqual } from 'node:util'
import { spanOf } from '../../src/api/setup/span-of.ts'
import { Booking } from '../../src/domain/booking.ts'
import { Closure } from '../../src/domain/closure.ts'
import { instantPlusSeconds, laterOf } from '../../src/domain/instant.ts'
import type { Operation } from '../../src/domain/operation.ts'
import type { SetupWrite } from '../../src/domain/setup.ts'
import type { SiteSnapshot } from '../../src/domain/snapshot.ts'
import { decide, operationProblems } from '../../src/scheduler/decide/index.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { seenAround } from '../scheduler/decide/random-life/seen-around.ts'
import type { Life } from './a-life.ts'
import { everything } from './everything.ts'
import type { Chances } from './wishes.ts'

/** @returns one sentence for each thing that is otherwise; none: all is the same */
export async function decidedOtherwise(life: Life, chance: Chances): Promise<string[]> {
  const { service, siteId } = life
  const all = await everything(service.store, siteId, service.now())
  const operation = somethingToAsk(all, chance)
  const answer = await inProcessDecider(service.store).decide({
    siteId,
    operations: [operation],
    now: all.now,
  })
  const problems = operationProblems(all, [operation])
  if (answer.kind !== 'decided' || problems.length > 0) {
    const isSame = answer.kind === 'problems' && isDeepStrictEqual(answer.problems, problems)
    return isSame ? [] : [`${operation.kind} has other problems on everything`]
  }
  const withoutAlternatives = answer.decision.changes !== null
  const onAll = decide(all, [operation], { withoutAlternatives })
  const isSame = JSON.stringify(answer.decision) === JSON.stringify(onAll)
  return isSame ? [] : [`${operation.kind} is decided otherwise on everything: ${JSON.stringify(operation)}`]
}

/** Windows of all lengths, and what is missing in them. */
export async function notLoaded({ service, siteId }: Life, chance: Chances): Promise<string[]> {
  const all = await everything(service.store, siteId, service.now())
  const fromAt = instantPlusSeconds(all.now, 3600 * (chance.below(240) - 96))
  const window = { fromAt, toAt: instantPlusSeconds(fromAt, 3600 * chance.below(100)) }
  const promised = seenAround(all, window)
  const loaded = await service.store.load(siteId, window, all.now)
  if (!loaded) return ['nothing is loaded']
  const kinds = ['bookings', 'turns', 'closures', 'observations'] as const
  return kinds.flatMap((kind) => {
    const ids = new Set<string>(loaded[kind].map(({ id }) => id))
    return promised[kind].filter(({ id }) => !ids.has(id)).map(({ id }) => `${id} is promised and not loaded`)
  })
}

function somethingToAsk(all: SiteSnapshot, chance: Chances): Operation {
  const { now } = all
  const coming = all.bookings.filter(({ doorsAt }) => doorsAt > now)
  const one = chance.any(coming)
  const doorsAt = instantPlusSeconds(now, 900 * (8 + chance.below(480)))
  const span = { doorsAt, clearAt: instantPlusSeconds(doorsAt, 1800 * (2 + chance.below(8))) }
  const times = {
    ...span,
    startsAt: instantPlusSeconds(doorsAt, 900),
    endsAt: instantPlusSeconds(span.clearAt, -900),
  }
  const layout = chance.any(all.layouts)!
  const place = { roomId: layout.roomId, layoutId: layout.id }
  const asked = Booking.parse({
    id: 'booking_asked',
    turnId: 'turn_asked',
    siteId: all.site.id,
    title: 'Asked',
    ...place,
    ...times,
    headcount: 8,
    foodServed: false,
    floorWet: false,
    status: 'CONFIRMED',
    version: 1,
  })
  const book: Operation = { kind: 'book', booking: asked }
  if (!one) return book
  const { id: bookingId, version } = one
  const moved = { ...one, ...times, crewDemands: [], milestones: [], overrunsUntilAt: null }
  const open = { ...one, ...place, version: version + 1 }
  const going = chance.any(all.bookings.filter(({ clearAt }) => clearAt > now)) ?? one
  const from = laterOf(going.clearAt, going.overrunsUntilAt ?? going.clearAt)
  return chance.oneOf<Operation>([
    book,
    book,
    { kind: 'change', booking: { ...moved, holdExpiresAt: null, status: 'CONFIRMED', version: version + 1 } },
    { kind: 'change', booking: { ...open, holdExpiresAt: null, status: 'CONFIRMED' } },
    { kind: 'cancel', bookingId, versionExpected: null },
    {
      kind: 'clear-later',
      bookingId: going.id,
      clearAt: instantPlusSeconds(from, 3600),
      versionExpected: null,
    },
    closing(all, doorsAt, chance),
    { kind: 'judge', span: { fromAt: doorsAt, toAt: span.clearAt }, judgedThroughAt: all.judgedThroughAt },
    { kind: 'polish', turnIds: [one.turnId] },
  ])
}

function closing(all: SiteSnapshot, fromAt: Closure['fromAt'], chance: Chances): Operation {
  const after = Closure.parse({
    id: 'closure_asked',
    siteId: all.site.id,
    sectionIds: chance.oneOf([true, false]) ? all.sections.slice(0, 1).map(({ id }) => id) : [],
    storagePlaceIds: all.storagePlaces.map(({ id }) => id),
    fromAt,
    toAt: instantPlusSeconds(fromAt, 7200),
    reason: 'asked',
  })
  const write: SetupWrite = { kind: 'closure', before: null, after, retire: false }
  const { span } = spanOf(write, all.site.zone, all.now, null)
  return { kind: 'set-up', writes: [write], span, restFromAt: null }
}
