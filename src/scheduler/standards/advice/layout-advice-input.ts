/** What advice on a layout is given on, gathered from the set-up of its site. */
import type { FloorPoint } from '../../../domain/floor.ts'
import type { Furnishing, FurnishingKind } from '../../../domain/furnishing.ts'
import type { Layout } from '../../../domain/layout.ts'
import type { Room } from '../../../domain/room.ts'
import type { SiteSetup } from '../../../domain/snapshot.ts'
import { floorOutline } from '../../geometry/index.ts'
import type { AdviceInput, AdvicePlacement } from './advice-input.ts'

type SetupFacts = Pick<SiteSetup, 'site' | 'sections' | 'exits' | 'furnishings'>

/**
 * The plain facts of a layout in its room, from the set-up of the site.
 * @param headcount  guests expected; null: only its seats say
 */
export function layoutAdviceInput(
  layout: Layout,
  room: Room,
  setup: SetupFacts,
  headcount: number | null,
): AdviceInput {
  const sections = setup.sections.filter(({ id }) => room.sectionIds.includes(id))
  const standing = layout.furnishings.flatMap(({ furnishingId, count }) =>
    setup.furnishings.filter(({ id }) => id === furnishingId).map((furnishing) => ({ furnishing, count })),
  )
  const corners = room.floor && floorOutline(room.floor)
  return {
    locale: setup.site.codeTables,
    units: setup.site.units,
    layoutKind: layout.kind,
    seats: layout.seats,
    headcount,
    netAreaSquareMetres: sections.reduce((sum, section) => sum + section.areaSquareMetres, 0),
    occupantLimitPosted: room.occupantLimitPosted,
    exits: setup.exits
      .filter(({ sectionId }) => room.sectionIds.includes(sectionId))
      .map(({ name, clearWidthMetres, opensOutward, panicHardware, stepFree, position }) => ({
        name,
        clearWidthMillimetres: clearWidthMetres * 1000,
        opensOutward,
        panicHardware,
        stepFree,
        xMetres: position?.xMetres,
        yMetres: position?.yMetres,
      })),
    roomDiagonalMetres: corners && diagonalMetres(corners),
    sprinklersAndVoiceAlarm: room.sprinklersAndVoiceAlarm,
    placements: placementsOf(layout, setup),
    amplified: layout.amplified,
    tablesCount:
      total(
        standing.filter(({ furnishing }) => isTable(furnishing)),
        () => 1,
      ) ?? 0,
    chairSeats: total(standing, ({ kind, seatsPerPiece }) => seatsOf(kind, seatsPerPiece)) ?? 0,
    stageAreaSquareMetres: total(
      standing.filter(({ furnishing }) => furnishing.kind === 'stage-deck'),
      footprintSquareMetres,
    ),
    floorCorners: corners,
  }
}

interface StandingPieces {
  readonly furnishing: Furnishing
  readonly count: number
}

/** null as soon as one kind of piece is not known. */
function total(pieces: readonly StandingPieces[], ofOne: (furnishing: Furnishing) => number | null) {
  return pieces.reduce<number | null>((sum, { furnishing, count }) => {
    const one = ofOne(furnishing)
    return sum === null || one === null ? null : sum + count * one
  }, 0)
}

const isTable = ({ kind }: Furnishing): boolean => kind === 'round-table' || kind === 'long-table'

/** A chair is one seat unless entered otherwise; of benches and the like only what is entered counts. */
function seatsOf(kind: FurnishingKind, seatsPerPiece: number | null): number {
  if (kind === 'stacking-chair' || kind === 'folding-chair') return seatsPerPiece ?? 1
  return kind === 'other' ? (seatsPerPiece ?? 0) : 0
}

const footprintSquareMetres = ({ widthMetres, depthMetres }: Furnishing): number | null =>
  widthMetres === null || depthMetres === null ? null : widthMetres * depthMetres

/** Pieces whose size is not known cannot be placed against each other: they are left out. */
function placementsOf(layout: Layout, setup: SetupFacts): AdvicePlacement[] | null {
  if (layout.placements.length === 0) return null
  return layout.placements.flatMap(({ furnishingId, xMetres, yMetres, rotationDegrees }) => {
    const furnishing = setup.furnishings.find(({ id }) => id === furnishingId)
    if (!furnishing || furnishing.widthMetres === null || furnishing.depthMetres === null) return []
    const { kind, widthMetres, depthMetres, seatsPerPiece } = furnishing
    return [{ kind, xMetres, yMetres, rotationDegrees, widthMetres, depthMetres, seatsPerPiece }]
  })
}

/** The longest line between two corners: the overall diagonal that distances between exits are held against. */
const diagonalMetres = (corners: readonly FloorPoint[]): number =>
  Math.max(
    ...corners.flatMap((a) => corners.map((b) => Math.hypot(a.xMetres - b.xMetres, a.yMetres - b.yMetres))),
  )
