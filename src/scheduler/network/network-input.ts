/** What the task network of one turn is made from: what stands, what is wanted, what happened in between, the rates. */
import type { Equipment, EquipmentSetting } from '../../domain/equipment.ts'
import type { Furnishing } from '../../domain/furnishing.ts'
import type { FurnishingId } from '../../domain/ids.ts'
import type { Layout, LayoutKind } from '../../domain/layout.ts'
import type { Policy } from '../../domain/policy.ts'
import type { Room } from '../../domain/room.ts'
import type { FloorKind } from '../../domain/section.ts'
import type { StoragePlace } from '../../domain/storage-place.ts'
import type { Rates } from './rates.ts'

export interface StandingPieces {
  readonly furnishingId: FurnishingId
  /** 1 or more. Several entries of one furnishing add up. */
  readonly count: number
}

/** The use that just ended. */
export interface OutgoingUse {
  readonly kind: LayoutKind
  readonly foodServed: boolean
  readonly floorWet: boolean
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
  /** What stands in the room now. */
  readonly standing: readonly StandingPieces[]
  /** Kind of the layout that stands; null: the bare floor, or nothing is known. */
  readonly standingKind: LayoutKind | null
  readonly toLayout: Layout
  /** null: nobody was there since it was set. */
  readonly outgoing: OutgoingUse | null
  /** Each device of the room. */
  readonly equipmentFrom: readonly StandingEquipment[]
  readonly furnishings: readonly Furnishing[]
  readonly storagePlaces: readonly StoragePlace[]
  readonly policy: Policy
  readonly rates: Rates
  /** The very layout that is wanted stands already. */
  readonly sameLayout: boolean
}
