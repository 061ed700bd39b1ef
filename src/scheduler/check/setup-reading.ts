/** The set-up, turned so that rules find in it what they ask for. Rows that are out of use are not found. */
import { type Booking, isBlocking } from '../../domain/booking.ts'
import type { Equipment } from '../../domain/equipment.ts'
import type { Exit } from '../../domain/exit.ts'
import type { Furnishing } from '../../domain/furnishing.ts'
import type {
  EquipmentId,
  FurnishingId,
  LayoutId,
  PersonId,
  RoomId,
  StoragePlaceId,
} from '../../domain/ids.ts'
import { type Instant, instantPlusSeconds } from '../../domain/instant.ts'
import type { Layout } from '../../domain/layout.ts'
import type { Person } from '../../domain/person.ts'
import type { Rates } from '../../domain/rate-set.ts'
import type { Room } from '../../domain/room.ts'
import type { FloorKind } from '../../domain/section.ts'
import type { UnitSystem } from '../../domain/site.ts'
import type { StoragePlace } from '../../domain/storage-place.ts'
import type { LocalDate } from '../../domain/units.ts'
import { DEFAULT_RATES } from '../network/default-rates.ts'
import { type LaneOnDuty, lanesOnDuty } from '../timeline/lanes-on-duty.ts'
import { localDateOf } from '../timeline/wall-time.ts'
import { floorSquareMetres } from './floor-area.ts'
import type { SetupToCheck } from './setup-to-check.ts'
import { type DeviceUse, usesByDevice } from './uses-by-device.ts'

/** How far ahead duty is looked at: what does not happen within it is not counted on. */
export const DUTY_DAYS = 28

export interface LayoutUse {
  readonly layout: Layout
  /** Place in `layout.furnishings`. */
  readonly index: number
  readonly count: number
}

export interface SetupReading {
  readonly setup: SetupToCheck
  readonly now: Instant
  readonly today: LocalDate
  readonly units: UnitSystem
  readonly rates: Rates
  readonly furnishings: ReadonlyMap<FurnishingId, Furnishing>
  readonly stores: ReadonlyMap<StoragePlaceId, StoragePlace>
  readonly rooms: ReadonlyMap<RoomId, Room>
  readonly devices: ReadonlyMap<EquipmentId, Equipment>
  readonly layouts: ReadonlyMap<LayoutId, Layout>
  readonly people: ReadonlyMap<PersonId, Person>
  /** Everybody on duty from now on, for `DUTY_DAYS`. */
  readonly lanes: readonly LaneOnDuty[]
  readonly dutyUntilAt: Instant
  /** Those not clear yet, by doors, then id. */
  readonly bookings: readonly Booking[]
  /** Layouts of rooms in force. */
  readonly layoutsOf: (roomId: RoomId) => readonly Layout[]
  /** By layout id; only layouts of rooms in force. */
  readonly usesOf: (furnishingId: FurnishingId) => readonly LayoutUse[]
  /** By layout id; what the layouts of all rooms it is in ask of a device. */
  readonly deviceUses: ReadonlyMap<EquipmentId, readonly DeviceUse[]>
  readonly exitsOf: (room: Room) => readonly Exit[]
  readonly nameOf: (personId: PersonId) => string
  /** Of its sections in force, each once. */
  readonly floorKindsOf: (room: Room) => readonly FloorKind[]
  /** Sum of its sections in force; null when there are none. */
  readonly sectionsSquareMetres: (room: Room) => number | null
  /** Of its floor where that is known, else of its sections. */
  readonly roomSquareMetres: (room: Room) => number | null
}

export function setupReading(setup: SetupToCheck, now: Instant): SetupReading {
  const { zone, units } = setup.site
  const dutyUntilAt = instantPlusSeconds(now, DUTY_DAYS * 86_400)
  const rooms = byId(setup.rooms)
  const layouts = setup.layouts.filter(({ roomId }) => rooms.has(roomId))
  const layoutsByRoom = grouped(layouts, ({ roomId }) => roomId)
  const usesByFurnishing = grouped(
    layouts.flatMap((layout) =>
      layout.furnishings.map(({ furnishingId, count }, index) => ({ layout, index, count, furnishingId })),
    ),
    ({ furnishingId }) => furnishingId,
  )
  const sections = byId(setup.sections)
  const exitsBySection = grouped(setup.exits, ({ sectionId }) => sectionId)
  const sectionsSquareMetres = (room: Room): number | null => {
    const inForce = room.sectionIds.flatMap((id) => sections.get(id) ?? [])
    return inForce.length === 0
      ? null
      : inForce.reduce((sum, { areaSquareMetres }) => sum + areaSquareMetres, 0)
  }
  return {
    setup,
    now,
    today: localDateOf(now, zone),
    units,
    rates: setup.rateSet?.rates ?? DEFAULT_RATES,
    furnishings: byId(setup.furnishings),
    stores: byId(setup.storagePlaces),
    rooms,
    devices: byId(setup.equipment),
    layouts: byId(layouts),
    people: byId(setup.people),
    lanes: lanesOnDuty(setup, { fromAt: now, toAt: dutyUntilAt }),
    dutyUntilAt,
    bookings: (setup.bookings ?? [])
      .filter((booking) => isBlocking(booking) && booking.clearAt > now)
      .sort((a, b) => a.doorsAt - b.doorsAt || (a.id < b.id ? -1 : 1)),
    layoutsOf: (roomId) => layoutsByRoom.get(roomId) ?? [],
    usesOf: (furnishingId) => usesByFurnishing.get(furnishingId) ?? [],
    deviceUses: usesByDevice(setup.equipment, layouts, rooms),
    exitsOf: (room) => [...new Set(room.sectionIds)].flatMap((id) => exitsBySection.get(id) ?? []),
    nameOf: (personId) => setup.personNames?.get(personId) ?? personId,
    floorKindsOf: (room) => [...new Set(room.sectionIds.flatMap((id) => sections.get(id)?.floorKind ?? []))],
    sectionsSquareMetres,
    roomSquareMetres: (room) => (room.floor ? floorSquareMetres(room.floor) : sectionsSquareMetres(room)),
  }
}

function grouped<Row, Key>(rows: readonly Row[], keyOf: (row: Row) => Key): ReadonlyMap<Key, readonly Row[]> {
  const groups = new Map<Key, Row[]>()
  for (const row of rows) {
    const group = groups.get(keyOf(row))
    if (group) group.push(row)
    else groups.set(keyOf(row), [row])
  }
  return groups
}

const byId = <Row extends { readonly id: PropertyKey }>(rows: readonly Row[]): ReadonlyMap<Row['id'], Row> =>
  new Map(rows.map((row) => [row.id, row]))
