/**
 * How long work takes for a practised worker at normal pace. A site's pace factor and allowance come on top
 * (`work-content.ts`); a furnishing's own figures take the place of those of its kind.
 */
import type { FurnishingKind } from '../../domain/furnishing.ts'
import type { CleaningMethod } from '../../domain/policy.ts'
import type { FloorKind } from '../../domain/section.ts'
import type { TaskMode } from '../../domain/task.ts'

/** Person-seconds for one piece, a carry of up to `shortCarryMetres` included. */
export interface PieceRate {
  readonly setPersonSeconds: number
  readonly strikePersonSeconds: number
}

export interface Rates {
  /** Where the site owns a trolley for the kind: the trolley stands beside the work. */
  readonly fromTrolley: Readonly<Record<FurnishingKind, PieceRate>>
  /** Where it owns none: each piece is carried, rolled or slid. */
  readonly byHand: Readonly<Record<FurnishingKind, PieceRate>>
  /** How many pieces the people who carry one piece take at a time, 1 or more. */
  readonly piecesPerCarry: Readonly<Record<FurnishingKind, number>>
  readonly cleaningPersonSecondsPerSquareMetre: Readonly<Record<CleaningMethod, number>>
  /** From the last stroke of the mop until the floor may be walked on. Carpet is not mopped. */
  readonly dryingSeconds: Readonly<Record<Exclude<FloorKind, 'carpet'>, number>>
  readonly walkingMetresPerSecond: number
  readonly carryingMetresPerSecond: number
  readonly loadedTrolleyMetresPerSecond: number
  /** Per load and pusher: get hold of the trolley, secure the load, doors, park it, brakes. */
  readonly trolleyHandlingSeconds: number
  /** One way; what the handling figures include already. */
  readonly shortCarryMetres: number
  /** One way, where a store has no route to the room on record. */
  readonly routeUnknownMetres: number
  /** Fixed times: neither pace nor allowance changes them. Fewest hands first. */
  readonly walkthroughModes: readonly TaskMode[]
  readonly signOffModes: readonly TaskMode[]
}
