/** What the task network of one turn is made from: what stands, what is wanted, what happened in between, the rates. */
import type { Equipment, EquipmentSetting } from '../../domain/equipment.ts'
import type { Furnishing } from '../../domain/furnishing.ts'
import type { FurnishingId, RoomId } from '../../domain/ids.ts'
import type { Layout, Placement } from '../../domain/layout.ts'
import type { LayoutKind } from '../../domain/layout-kind.ts'
import type { Passage } from '../../domain/passage.ts'
import type { Policy } from '../../domain/policy.ts'
import type { RateMark, RatePath, Rates } from '../../domain/rate-set.ts'
import type { Room } from '../../domain/room.ts'
import type { FloorKind } from '../../domain/section.ts'
import type { UnitSystem } from '../../domain/site.ts'
import type { StoragePlace } from '../../domain/storage-place.ts'
import type { Tool } from '../../domain/tool.ts'

export interface StandingPieces {
  readonly furnishingId: FurnishingId
  /** 1 or more. Several entries of one furnishing add up. */
  readonly count: number
}

/** By zone index: pieces, or only their proportions. */
export interface PiecesSpread {
  readonly from: ReadonlyMap<FurnishingId, readonly number[]>
  readonly to: ReadonlyMap<FurnishingId, readonly number[]>
}

/** The use that just ended. */
export interface OutgoingUse {
  readonly kind: LayoutKind
  readonly foodServed: boolean
  readonly floorWet: boolean
  /** Guests there were, 0 or more. */
  readonly headcount: number
}

/** A device of the room and how it stands now. */
export interface StandingEquipment {
  readonly equipment: Equipment
  readonly setting: EquipmentSetting
}

export interface NetworkInput {
  readonly room: Room
  /** Sum of its sections. */
  readonly areaSquareMetres: number
  /** Of its sections, each once. */
  readonly floorKinds: readonly FloorKind[]
  /** Rooms that hear this one, whichever side says so; without the room itself. */
  readonly acousticallyJoinedRoomIds: readonly RoomId[]
  /** What texts are written in. */
  readonly units: UnitSystem
  /** What stands in the room now. */
  readonly standing: readonly StandingPieces[]
  /** Kind of the layout that stands; null: the bare floor, or nothing is known. */
  readonly standingKind: LayoutKind | null
  /** Where what stands really stands: for each furnishing all of its pieces, or none. null: only counts are known. */
  readonly placementsFrom: readonly Placement[] | null
  /** By furnishing without places, how its pieces are spread over the zones; left out, or of none: nobody knows. */
  readonly spread?: PiecesSpread
  readonly toLayout: Layout
  /** null: nobody was there since it was set. */
  readonly outgoing: OutgoingUse | null
  /** Each device of the room. */
  readonly equipmentFrom: readonly StandingEquipment[]
  /**
   * What stands or is wanted, and what the depth order of its stores names. `countOwned` as it is at the time, what is
   * out of service or borrowed considered.
   */
  readonly furnishings: readonly Furnishing[]
  /** Of those furnishings, each with at least its route to the room. */
  readonly storagePlaces: readonly StoragePlace[]
  /** Those that the routes to the room name. */
  readonly passages: readonly Passage[]
  /** `countOwned` as it is at the time: with 0 its work cannot be done. */
  readonly tools: readonly Tool[]
  readonly policy: Policy
  readonly rates: Rates
  /** Of numbers that are not defaults. For explanations only: no task depends on it. */
  readonly rateMarks: Readonly<Record<RatePath, RateMark>>
  /** The very layout that is wanted stands already. */
  readonly sameLayout: boolean
}
