/** What published tables advise on a layout: how many people, which ways out, aisles, access, lifting. Never a verdict. */
import { z } from 'zod'
import type { Floor } from '../../domain/floor.ts'
import type { Furnishing, FurnishingKind } from '../../domain/furnishing.ts'
import { LayoutId } from '../../domain/ids.ts'
import type { Layout } from '../../domain/layout.ts'
import type { Room } from '../../domain/room.ts'
import { CodeTables } from '../../domain/site.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { Headcount } from '../../domain/units.ts'
import {
  ADVICE_CAUTION,
  type AdviceInput,
  type AdviceItem,
  type AdvicePlacement,
  accessAdvice,
  liftingAdvice,
  occupancyAdvice,
} from '../../scheduler/standards/advice/index.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, setupFor } from '../context.ts'
import { unknownResource } from '../problems.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'

const AdviceAnswer = z.object({
  layoutId: LayoutId,
  codeTables: CodeTables.meta({ description: 'Whose published tables were used' }),
  items: z.array(
    z.object({
      topic: z.enum(['occupancy', 'exits', 'aisles', 'access', 'lifting']),
      code: z.string(),
      text: z.string(),
      found: z.number().nullable(),
      required: z.number().nullable(),
      unit: z.string(),
      verdict: z.enum(['ok', 'look', 'unknown']).meta({
        description: 'look: somebody should; unknown: what is needed can be said, whether it is there cannot',
      }),
      source: z.string().meta({ description: 'Document and section of the number' }),
      status: z.string().meta({ description: 'Whether it was read, quoted by others, or is from memory' }),
    }),
  ),
  caution: z.string(),
})

const AdviceQuery = z.strictObject({
  headcount: z.coerce.number().pipe(Headcount).optional().meta({
    description: 'Guests expected; left out: as many as there are seats',
  }),
})

export function adviceRoute(api: Api, context: ApiContext): void {
  api.get(
    '/v1/sites/:site/layouts/:id/advice',
    {
      schema: {
        tags: ['set-up'],
        summary:
          'Occupancy, exits, aisles, access and lifting advice for a layout, each number with its source',
        params: SiteParams.extend({ id: z.string() }),
        querystring: AdviceQuery,
        response: { 200: AdviceAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const setup = await setupFor(context, request.actor, request.params.site)
      const layout = setup.layouts.find(({ id }) => id === request.params.id)
      const room = setup.rooms.find(({ id }) => id === layout?.roomId)
      if (!layout || !room) throw unknownResource('layout', request.params.id)
      const items = adviceOn(layout, room, setup, request.query.headcount ?? null)
      const { codeTables, zone } = setup.site
      return send(
        reply,
        jsonAnswer(200, { layoutId: layout.id, codeTables, items, caution: ADVICE_CAUTION }, zone),
      )
    },
  )
}

function adviceOn(layout: Layout, room: Room, setup: SiteSetup, headcount: number | null): AdviceItem[] {
  const input = adviceInput(layout, room, setup, headcount)
  const furnishings = setup.furnishings.filter(({ id }) =>
    layout.furnishings.some(({ furnishingId }) => furnishingId === id),
  )
  return [
    ...occupancyAdvice(input),
    ...accessAdvice(input),
    ...liftingAdvice({
      units: setup.site.units,
      furnishings,
      carryMetres: (furnishing) => carryMetres(furnishing, room, setup),
      minorMassLimitKilograms: setup.policy.minorMassLimitKilograms,
    }),
  ]
}

function adviceInput(layout: Layout, room: Room, setup: SiteSetup, headcount: number | null): AdviceInput {
  const sections = setup.sections.filter(({ id }) => room.sectionIds.includes(id))
  const standing = layout.furnishings.flatMap(({ furnishingId, count }) =>
    setup.furnishings.filter(({ id }) => id === furnishingId).map((furnishing) => ({ furnishing, count })),
  )
  const corners = room.floor && cornersOf(room.floor)
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
function placementsOf(layout: Layout, setup: SiteSetup): AdvicePlacement[] | null {
  if (layout.placements.length === 0) return null
  return layout.placements.flatMap(({ furnishingId, xMetres, yMetres, rotationDegrees }) => {
    const furnishing = setup.furnishings.find(({ id }) => id === furnishingId)
    if (!furnishing || furnishing.widthMetres === null || furnishing.depthMetres === null) return []
    const { kind, widthMetres, depthMetres, seatsPerPiece } = furnishing
    return [{ kind, xMetres, yMetres, rotationDegrees, widthMetres, depthMetres, seatsPerPiece }]
  })
}

function carryMetres(furnishing: Furnishing, room: Room, setup: SiteSetup): number | null {
  const store = setup.storagePlaces.find(({ id }) => id === furnishing.storagePlaceId)
  return store?.routes.find(({ roomId }) => roomId === room.id)?.distanceMetres ?? null
}

function cornersOf(floor: Floor) {
  if (floor.kind === 'polygon') return floor.corners
  const { widthMetres, depthMetres } = floor
  return [
    { xMetres: 0, yMetres: 0 },
    { xMetres: widthMetres, yMetres: 0 },
    { xMetres: widthMetres, yMetres: depthMetres },
    { xMetres: 0, yMetres: depthMetres },
  ]
}

/** The longest line between two corners: the overall diagonal that distances between exits are held against. */
const diagonalMetres = (corners: readonly { xMetres: number; yMetres: number }[]): number =>
  Math.max(
    ...corners.flatMap((a) => corners.map((b) => Math.hypot(a.xMetres - b.xMetres, a.yMetres - b.yMetres))),
  )
