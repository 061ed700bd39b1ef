/** Ids: a word for the kind, an underscore, and a name or random part. A BookingId will not pass for a RoomId. */
import { z } from 'zod'

const id = (prefix: string, what: string) =>
  z
    .string()
    .regex(new RegExp(`^${prefix}_[a-z0-9][a-z0-9-]{0,59}$`), {
      error: `expected an id that looks like ${prefix}_…`,
    })
    .meta({ description: `Id of a ${what}`, examples: [`${prefix}_example`] })

// The brand is written out each time: through a type parameter of a function it would be lost.
export const SiteId = id('site', 'Site').brand<'Site'>()
export type SiteId = z.infer<typeof SiteId>
export const SectionId = id('section', 'Section').brand<'Section'>()
export type SectionId = z.infer<typeof SectionId>
export const RoomId = id('room', 'Room').brand<'Room'>()
export type RoomId = z.infer<typeof RoomId>
export const LayoutId = id('layout', 'Layout').brand<'Layout'>()
export type LayoutId = z.infer<typeof LayoutId>
export const FurnishingId = id('furnishing', 'Furnishing').brand<'Furnishing'>()
export type FurnishingId = z.infer<typeof FurnishingId>
export const StoragePlaceId = id('storage', 'StoragePlace').brand<'StoragePlace'>()
export type StoragePlaceId = z.infer<typeof StoragePlaceId>
export const EquipmentId = id('equipment', 'Equipment').brand<'Equipment'>()
export type EquipmentId = z.infer<typeof EquipmentId>
export const PersonId = id('person', 'Person').brand<'Person'>()
export type PersonId = z.infer<typeof PersonId>
export const ShiftId = id('shift', 'Shift').brand<'Shift'>()
export type ShiftId = z.infer<typeof ShiftId>
export const ClosureId = id('closure', 'Closure').brand<'Closure'>()
export type ClosureId = z.infer<typeof ClosureId>
export const ExitId = id('exit', 'Exit').brand<'Exit'>()
export type ExitId = z.infer<typeof ExitId>
export const PassageId = id('passage', 'Passage').brand<'Passage'>()
export type PassageId = z.infer<typeof PassageId>
export const ToolId = id('tool', 'Tool').brand<'Tool'>()
export type ToolId = z.infer<typeof ToolId>
export const StockChangeId = id('stockchange', 'StockChange').brand<'StockChange'>()
export type StockChangeId = z.infer<typeof StockChangeId>
export const ObservationId = id('observation', 'Observation').brand<'Observation'>()
export type ObservationId = z.infer<typeof ObservationId>
export const RateSetId = id('rateset', 'RateSet').brand<'RateSet'>()
export type RateSetId = z.infer<typeof RateSetId>
export const PolicyId = id('policy', 'Policy').brand<'Policy'>()
export type PolicyId = z.infer<typeof PolicyId>
export const BookingId = id('booking', 'Booking').brand<'Booking'>()
export type BookingId = z.infer<typeof BookingId>
export const LinkId = id('link', 'Link').brand<'Link'>()
export type LinkId = z.infer<typeof LinkId>
export const TurnId = id('turn', 'Turn').brand<'Turn'>()
export type TurnId = z.infer<typeof TurnId>
export const ActorId = id('actor', 'Actor').brand<'Actor'>()
export type ActorId = z.infer<typeof ActorId>

/**
 * One pair of hands: a person on duty (`person_…`), the k-th unnamed hand of a shift (`shift_…#k`, from 1), of the group
 * that was in the room (`booking_…#k`), or one that nobody has promised (`assumed#k`).
 */
export const LaneId = z
  .string()
  .regex(/^(person_[a-z0-9-]+|(shift_[a-z0-9-]+|booking_[a-z0-9-]+|assumed)#[1-9][0-9]*)$/)
  .brand<'Lane'>()
export type LaneId = z.infer<typeof LaneId>
