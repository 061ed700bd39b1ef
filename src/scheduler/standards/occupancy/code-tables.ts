/**
 * The figures of a building and fire code as data: one table of the same shape per locale. A rule for which a locale
 * has no figure here is null, and what is computed from it is null: unknown, not zero. Every value is a default: the
 * edition adopted locally decides, and a site may hold its own table with single rows replaced.
 */
import type { LayoutKind } from '../../../domain/layout-kind.ts'
import type { CrowdManagerRule } from './crowd-manager-rules.ts'
import type { Sourced, SourcedFigure } from './sourced.ts'

export type CodeLocale = 'us' | 'uk'

/** What a part of a floor is used for. A locale need not have a figure for each. */
export type SpaceUse =
  | 'standing'
  | 'rows-of-chairs'
  | 'tables-and-chairs'
  | 'stage'
  | 'exercise-floor'
  | 'open-floor'
  | 'queue'
  | 'meeting-room'
  | 'classroom'
  | 'exhibition'
  | 'business'
  | 'kitchen'
  | 'storage'

/** Floor area for each person. */
export interface LoadFactor extends Sourced {
  /** As a sentence says it: `people in rows of chairs`. */
  readonly people: string
  readonly squareMetresPerPerson: number
  /** Net: the floor really used. Gross: inside the walls, with circulation, closets and so on. */
  readonly basis: 'net' | 'gross'
}

export interface UseOfLayout extends Sourced {
  readonly use: SpaceUse
}

/** Up to so many people (null: any number) need so many exits. */
export interface ExitCountRow extends Sourced {
  readonly peopleAtMost: number | null
  readonly exits: number
}

/** The clear width that people need to get out: so much for each, or by steps and so much for each beyond the last. */
export type ExitWidthRule = Sourced &
  (
    | {
        readonly kind: 'per-person'
        readonly millimetresPerPerson: number
        /** With sprinklers and a voice alarm. */
        readonly millimetresPerPersonReduced: number
        /** No exit narrower than this counts; fewer people than `smallBelowPeople` may have the small width. */
        readonly leastMillimetres: number
        readonly smallBelowPeople: number
        readonly leastMillimetresSmall: number
      }
    | {
        readonly kind: 'steps'
        readonly steps: readonly { readonly peopleAtMost: number; readonly clearWidthMillimetres: number }[]
        readonly millimetresPerPersonBeyond: number
      }
  )

/** What must still be there when one exit, the widest, cannot be used. */
export interface LostExitRule extends Sourced {
  /** `share-must-remain`: that share of the width needed. `widest-left-out`: the others must do for everybody. */
  readonly kind: 'share-must-remain' | 'widest-left-out'
  readonly share: number
}

/** At least two exits must be as far apart as this share of the longest diagonal of the room. */
export interface ExitSeparation extends Sourced {
  readonly shareOfDiagonal: number
  readonly shareOfDiagonalSprinklered: number
}

export interface RowRule extends Sourced {
  readonly leastClearMillimetres: number
  /** Nothing wider than this is asked for any row. */
  readonly mostClearMillimetres: number
  readonly seatsMost: number
  readonly bothEnds: { readonly seatsFree: number; readonly millimetresPerSeatBeyond: number }
  readonly oneEnd: {
    readonly seatsFree: number
    readonly seatsFreeWithoutBackrests: number
    readonly millimetresPerSeatBeyond: number
  }
}

/** Width of an aisle; with few seats the small one is enough. `smallUpToSeats` 0: there is no smaller one. */
export interface AisleWidth {
  readonly millimetres: number
  readonly smallUpToSeats: number
  readonly millimetresSmall: number
}

export interface AisleRule extends Sourced {
  readonly levelBothSides: AisleWidth
  readonly levelOneSide: AisleWidth
  readonly steppedBothSides: AisleWidth
  readonly steppedOneSide: AisleWidth
}

export interface LooseChairRule extends Sourced {
  readonly chairsFree: number
  readonly joinedAtLeast: number
}

/** The way between tables to an aisle. */
export interface TableAccesswayRule extends Sourced {
  readonly leastMillimetres: number
  readonly metresFree: number
  readonly millimetresPerFootBeyond: number
  readonly nothingAskedUpToMetres: number
  readonly nothingAskedUpToPeople: number
  readonly longestMetres: number
  /** Where chairs stand at the side of a table, ways are measured from here, out from the edge. */
  readonly chairDepthMillimetres: number
}

/** How far people may have to go. */
export interface TravelRule extends Sourced {
  readonly seatedInRows: boolean
  readonly peopleFewerThan: number | null
  readonly oneWayMetres: number
  /** With a choice of ways; null: no figure held. */
  readonly withChoiceMetres: number | null
}

/** Who says how many people a room may hold. */
export interface OccupantLimitRule extends Sourced {
  /** As a sentence names it: `posted limit`. */
  readonly name: string
  /** What is to be entered: `the one posted in the room`. */
  readonly setBy: string
}

export interface CodeTables {
  readonly locale: CodeLocale
  readonly document: string
  readonly loadFactors: Readonly<Partial<Record<SpaceUse, LoadFactor>>>
  readonly useOfLayout: Readonly<Record<LayoutKind, UseOfLayout>>
  /** A load may not be raised on purpose beyond one person for so much floor. */
  readonly densestSquareMetresPerPerson: SourcedFigure | null
  readonly benchMillimetresPerPerson: SourcedFigure
  /** Rising; the last row holds for any number. */
  readonly exitCounts: readonly ExitCountRow[]
  readonly exitSeparation: ExitSeparation | null
  readonly exitWidth: { readonly level: ExitWidthRule; readonly stairs: ExitWidthRule | null }
  /** Whether the smaller width with sprinklers and a voice alarm is granted at all. */
  readonly sprinklerReductionTaken: boolean
  readonly lostExit: LostExitRule
  readonly outwardSwingFromPeople: SourcedFigure | null
  readonly panicHardwareFromPeople: SourcedFigure | null
  /** The first that holds is taken. */
  readonly travel: readonly TravelRule[]
  readonly rows: RowRule | null
  readonly aisles: AisleRule | null
  readonly looseChairs: LooseChairRule | null
  readonly tableAccessway: TableAccesswayRule | null
  readonly occupantLimit: OccupantLimitRule
  readonly crowdManagers: CrowdManagerRule | null
  /** What other codes of the same country ask for: which one is adopted differs from place to place. */
  readonly crowdManagersElsewhere: readonly CrowdManagerRule[]
}
