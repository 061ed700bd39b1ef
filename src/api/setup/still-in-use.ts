/** What still needs a row of the set-up, so that it cannot be retired. */
import type { RoomId } from '../../domain/ids.ts'
import type { Instant } from '../../domain/instant.ts'
import type { Layout } from '../../domain/layout.ts'
import type { SetupKind } from '../../domain/setup.ts'
import type { Shift } from '../../domain/shift.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { StockChange } from '../../domain/stock-change.ts'
import { localDateOf } from '../../scheduler/timeline/wall-time.ts'
import { someText } from '../../scheduler/wording/list-text.ts'
import type { ApiContext } from '../context.ts'
import { Problem } from '../problems.ts'
import { borrowedMost } from '../stock-changes/borrowed-most.ts'
import { thingOf } from '../stock-changes/stock-change-faults.ts'

/** Something that refers to a row: `noun` and `name` for people, `id` to find it. */
export interface SetupUser {
  readonly noun: string
  readonly id: string
  readonly name: string
}

/** So many coming bookings are named at most. */
const BOOKINGS_NAMED_MOST = 20
/** So many users are put into the sentence; the list has them all. */
const USERS_IN_SENTENCE_MOST = 3

/** @throws Problem still-in-use, with the list of what needs it */
export async function refuseRetiringWhatIsUsed(
  context: ApiContext,
  kind: SetupKind,
  row: { readonly id: string; readonly name: string },
  setup: SiteSetup,
  now: Instant,
): Promise<void> {
  const users = [
    ...setupUsers(kind, row.id, setup, now),
    ...(await bookingsThatUse(context, kind, row.id, setup, now)),
  ]
  if (users.length === 0) return
  const list = someText(
    users.map(({ noun, name }) => `${noun} ${name}`),
    USERS_IN_SENTENCE_MOST,
  )
  throw new Problem(
    'still-in-use',
    `${row.name} is still needed by ${list}. Change, retire or cancel what needs it first.`,
    { usedBy: users },
  )
}

/** @returns rows in force that refer to it, in the order of the kinds, then by id; what is over does not count */
export function setupUsers(kind: SetupKind, id: string, setup: SiteSetup, now: Instant): SetupUser[] {
  const layouts = () =>
    setup.layouts.filter(({ furnishings, equipment, roomId }) =>
      kind === 'room'
        ? roomId === id
        : kind === 'furnishing'
          ? furnishings.some(({ furnishingId }) => furnishingId === id)
          : equipment.some(({ equipmentId }) => equipmentId === id),
    )
  const has = (ids: readonly string[]) => ids.includes(id)
  switch (kind) {
    case 'section':
      return [
        ...usersFrom('exit', setup.exits, ({ sectionId }) => sectionId === id),
        ...usersFrom('room', setup.rooms, ({ sectionIds }) => has(sectionIds)),
        ...usersFrom('equipment', setup.equipment, ({ sectionIds }) => has(sectionIds)),
      ]
    case 'passage':
      return usersFrom('storage place', setup.storagePlaces, ({ routes }) =>
        routes.some(({ passageIds }) => has(passageIds)),
      )
    case 'room':
      return [
        ...usersFrom('room', setup.rooms, (room) => room.id !== id && has(room.acousticallyJoinedRoomIds)),
        ...usersFrom('storage place', setup.storagePlaces, ({ routes }) =>
          routes.some(({ roomId }) => roomId === id),
        ),
        ...usersFrom('layout', layouts()),
      ]
    case 'storagePlace':
      return usersFrom('furnishing', setup.furnishings, ({ storagePlaceId }) => storagePlaceId === id)
    case 'furnishing':
      return [
        ...usersFrom(
          'storage place',
          setup.storagePlaces,
          ({ limits, depthOrder }) =>
            has(depthOrder) || limits.some(({ furnishingId }) => furnishingId === id),
        ),
        ...usersFrom('tool', setup.tools, ({ furnishingIds }) => has(furnishingIds)),
        ...usersFrom('layout', layouts()),
        ...stockChangesOf(id, setup, now),
      ]
    case 'tool':
      return stockChangesOf(id, setup, now)
    case 'equipment':
      return [
        ...usersFrom('equipment', setup.equipment, ({ standInIds }) => has(standInIds)),
        ...usersFrom('layout', layouts()),
        ...stockChangesOf(id, setup, now),
      ]
    case 'layout':
      return usersFrom('room', setup.rooms, ({ homeLayoutId }) => homeLayoutId === id)
    case 'person':
      return usersFrom(
        'shift',
        setup.shifts,
        (shift) => shift.crew.kind === 'person' && shift.crew.personId === id && !isOver(shift, setup, now),
      )
    case 'stockChange':
      return usersFrom('layout', layoutsOnLoan(id, setup, now))
    case 'exit':
    case 'shift':
    case 'closure':
    case 'observation':
    case 'rateSet':
    case 'policy':
      return []
    default:
      return kind satisfies never
  }
}

function usersFrom<Row extends { readonly id: string; readonly name: string }>(
  noun: string,
  rows: readonly Row[],
  uses: (row: Row) => boolean = () => true,
): SetupUser[] {
  return rows.filter(uses).map(({ id, name }) => ({ noun, id, name }))
}

const stockChangesOf = (id: string, { stockChanges }: SiteSetup, now: Instant): SetupUser[] =>
  stockChanges
    .filter(({ of, toAt }) => thingOf(of) === id && (toAt === null || toAt > now))
    .map((change) => ({ noun: 'stock change', id: change.id, name: change.id }))

/** Layouts that ask for more than there would be without this loan. */
function layoutsOnLoan(id: string, setup: SiteSetup, now: Instant): Layout[] {
  const stockChanges = setup.stockChanges.filter((change) => change.id !== id)
  const most = (furnishingId: string, changes: readonly StockChange[]) =>
    (setup.furnishings.find((one) => one.id === furnishingId)?.countOwned ?? 0) +
    borrowedMost(changes, furnishingId, now)
  return setup.layouts.filter(({ furnishings }) =>
    furnishings.some(
      ({ furnishingId, count }) =>
        count <= most(furnishingId, setup.stockChanges) && count > most(furnishingId, stockChanges),
    ),
  )
}

function isOver({ times }: Shift, { site }: SiteSetup, now: Instant): boolean {
  if (times.kind === 'once') return times.endsAt <= now
  // A shift of yesterday may have lasted into today.
  return times.lastDate !== null && times.lastDate < localDateOf((now - 86_400_000) as Instant, site.zone)
}

async function bookingsThatUse(
  { store }: ApiContext,
  kind: SetupKind,
  id: string,
  setup: SiteSetup,
  now: Instant,
): Promise<SetupUser[]> {
  const roomIds: RoomId[] =
    kind === 'room' || kind === 'section'
      ? [...setup.rooms, ...setup.retired.rooms]
          .filter((room) => (kind === 'room' ? room.id === id : room.sectionIds.some((one) => one === id)))
          .map((room) => room.id)
      : []
  const layoutIds = kind === 'layout' ? setup.layouts.filter((one) => one.id === id).map((one) => one.id) : []
  if (roomIds.length + layoutIds.length === 0) return []
  const bookings = await store.comingBookings(setup.site.id, now, { roomIds, layoutIds }, BOOKINGS_NAMED_MOST)
  return bookings.map((booking) => ({ noun: 'booking', id: booking.id, name: booking.title }))
}
