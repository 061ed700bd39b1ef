import type { FixedThing } from '../../../domain/fixed-thing.ts'
import type { Furnishing } from '../../../domain/furnishing.ts'
import type { Placement } from '../../../domain/layout.ts'
import { containsPoint, fixedOutline, pieceOutline, polygonArea } from '../../geometry/index.ts'
import { aboutRow, type Found } from '../found.ts'
import { overlapSquareMetres } from '../overlap-area.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Of the piece: drawing and rounding explain so much. */
const SHARE_ALLOWED = 0.05

/** One finding for each layout: its first piece that stands in a column or a bar, and how many do. */
export function pieceOnFixedThing({ setup, rooms, furnishings }: SetupReading): Found[] {
  return setup.layouts.flatMap((layout): Found[] => {
    const things = rooms.get(layout.roomId)?.fixedThings.filter((thing) => !thing.piecesMayStandOn) ?? []
    if (things.length === 0) return []
    const [first, ...others] = layout.placements.flatMap((placement, index) => {
      const furnishing = furnishings.get(placement.furnishingId)
      const thing = furnishing && things.find((one) => standsOn(placement, furnishing, one))
      return thing ? [{ index, placement, furnishing, thing }] : []
    })
    if (!first) return []
    const { index, placement, furnishing, thing } = first
    const more =
      others.length === 0
        ? ''
        : others.length === 1
          ? '; so does 1 more piece'
          : `; so do ${others.length} more pieces`
    return [
      {
        code: 'piece-on-fixed-thing',
        about: aboutRow('layout', layout),
        message: `in layout ${layout.name} a ${furnishing.name} at ${placement.xMetres} m, ${placement.yMetres} m stands where the fixed thing ${thing.name} is${more}`,
        fix: 'move it aside, or say of the thing that pieces may stand on it',
        field: `/placements/${index}`,
      },
    ]
  })
}

/** Of a piece whose size is unknown only its middle can be told; a round one is taken for a square that fits into it. */
function standsOn(
  placement: Placement,
  { kind, widthMetres, depthMetres }: Furnishing,
  { outline }: FixedThing,
): boolean {
  const corners = fixedOutline(outline)
  if (widthMetres === null || depthMetres === null) return containsPoint(corners, placement)
  const share = kind === 'round-table' ? Math.SQRT1_2 : 1
  const piece = pieceOutline(placement, widthMetres * share, depthMetres * share, placement.rotationDegrees)
  return overlapSquareMetres(piece, corners) > SHARE_ALLOWED * polygonArea(piece)
}
