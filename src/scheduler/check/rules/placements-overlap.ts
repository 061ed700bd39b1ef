import type { Furnishing } from '../../../domain/furnishing.ts'
import type { Layout } from '../../../domain/layout.ts'
import { widthText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import { notOnTheFloor } from '../off-the-floor.ts'
import { depthMetres, type PieceShape, pieceShape } from '../piece-depth.ts'
import { isChair, isTable } from '../seating.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Plans are drawn by hand. */
const ALLOWED_METRES = 0.05
/** Chairs are pushed under tables. */
const UNDER_TABLE_METRES = 0.2
interface Placed {
  readonly index: number
  readonly furnishing: Furnishing
  readonly shape: PieceShape
}

/** One finding for each layout: its first piece that stands in another one, and how many do. */
export function placementsOverlap(reading: SetupReading): Found[] {
  return reading.setup.layouts.flatMap((layout): Found[] => {
    const [first, ...others] = overlapsOf(placedIn(reading, layout))
    if (!first) return []
    const { units } = reading
    const { piece, other, depth } = first
    const { x, y } = piece.shape
    const more =
      others.length === 0
        ? ''
        : others.length === 1
          ? '; so does 1 more piece'
          : `; so do ${others.length} more pieces`
    return [
      {
        code: 'placements-overlap',
        about: aboutRow('layout', layout),
        message: `in layout ${layout.name} a ${piece.furnishing.name} at ${x} m, ${y} m stands ${widthText(depth, units)} inside a ${other.furnishing.name}${more}`,
        fix: 'move them apart, or correct their sizes',
        field: `/placements/${piece.index}`,
      },
    ]
  })
}

function placedIn({ furnishings }: SetupReading, { placements }: Layout): Placed[] {
  return placements.flatMap((placement, index): Placed[] => {
    const furnishing = furnishings.get(placement.furnishingId)
    if (!furnishing || notOnTheFloor.has(furnishing.kind)) return []
    const shape = pieceShape(furnishing, placement)
    return shape ? [{ index, furnishing, shape }] : []
  })
}

interface Overlap {
  readonly piece: Placed
  readonly other: Placed
  readonly depth: number
}

/**
 * For each piece that stands in one it comes after along the longer side of the plan, one such; by the place of the piece
 * in the layout. Only pieces near one another along that side are compared: a plan may hold thousands.
 */
function overlapsOf(placed: readonly Placed[]): Overlap[] {
  const along = longerSide(placed)
  const inOrder = [...placed].sort((a, b) => along(a) - along(b) || a.index - b.index)
  const nearMetres = 2 * placed.reduce((most, { shape }) => Math.max(most, shape.reachMetres), 0)
  const overlaps: Overlap[] = []
  for (const [place, piece] of inOrder.entries()) {
    for (let before = place - 1; before >= 0; before -= 1) {
      const other = inOrder[before]!
      if (along(piece) - along(other) > nearMetres) break
      const depth = depthBeyondAllowed(piece, other)
      if (depth === null) continue
      overlaps.push({ piece, other, depth })
      break
    }
  }
  return overlaps.sort((a, b) => a.piece.index - b.piece.index)
}

function longerSide(placed: readonly Placed[]): (piece: Placed) => number {
  const sides = [({ shape }: Placed) => shape.x, ({ shape }: Placed) => shape.y] as const
  const [width, depth] = sides.map((along) => {
    const places = placed.map(along)
    return (
      places.reduce((most, at) => Math.max(most, at), 0) -
      places.reduce((least, at) => Math.min(least, at), 0)
    )
  })
  return (width ?? 0) >= (depth ?? 0) ? sides[0] : sides[1]
}

/** null: they stand apart, or no deeper in one another than they may. */
function depthBeyondAllowed(a: Placed, b: Placed): number | null {
  const near = a.shape.reachMetres + b.shape.reachMetres - ALLOWED_METRES
  const [dx, dy] = [a.shape.x - b.shape.x, a.shape.y - b.shape.y]
  if (near <= 0 || dx * dx + dy * dy >= near * near) return null
  const depth = depthMetres(a.shape, b.shape)
  return depth > ALLOWED_METRES && depth > allowedMetres(a.furnishing, b.furnishing) ? depth : null
}

function allowedMetres(a: Furnishing, b: Furnishing): number {
  if (carries(a, b) || carries(b, a)) return Number.POSITIVE_INFINITY
  return (isChair(a) && isTopped(b)) || (isChair(b) && isTopped(a)) ? UNDER_TABLE_METRES : ALLOWED_METRES
}

const isTopped = (furnishing: Furnishing): boolean => isTable(furnishing) || furnishing.kind === 'games-table'

/** Anything stands on a stage or a dance floor, and a lectern or a mixer on a table. */
const carries = (below: Furnishing, above: Furnishing): boolean =>
  below.kind === 'stage-deck' || below.kind === 'dance-floor-panel'
    ? above.kind !== below.kind
    : isTopped(below) && above.kind === 'other' && !isChair(above)
