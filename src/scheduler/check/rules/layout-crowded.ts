import type { LayoutKind } from '../../../domain/layout-kind.ts'
import { areaText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/**
 * The least floor a guest is planned with, service ways included; not a code. Trade planning guides, second-hand:
 * rows 6 ft² (8 with aisles), long tables 8 ft², rounds 10 ft². The tightest of each kind, so that only what nobody
 * would plan is found.
 */
const squareMetresPerGuest: Partial<Record<LayoutKind, number>> = {
  worship: 0.56,
  overflow: 0.56,
  meeting: 0.56,
  banquet: 0.74,
}

/** 84 m² at 0.56 m² are 150 guests, whatever binary fractions make of it. */
const ROUNDING = 1e-9

export function layoutCrowded({ setup, rooms, units, roomSquareMetres }: SetupReading): Found[] {
  return setup.layouts.flatMap((layout): Found[] => {
    const room = rooms.get(layout.roomId)
    const floor = room ? roomSquareMetres(room) : null
    const tight = squareMetresPerGuest[layout.kind]
    if (floor === null || !layout.seats || tight === undefined || floor >= tight * layout.seats) return []
    return [
      {
        code: 'layout-crowded',
        about: aboutRow('layout', layout),
        message: `layout ${layout.name} seats ${layout.seats} on ${areaText(floor, units)}: ${areaText(floor / layout.seats, units)} a guest, where ${areaText(tight, units)} is tight`,
        fix: `seat ${Math.floor(floor / tight + ROUNDING)} at most, or correct the area`,
        field: '/seats',
      },
    ]
  })
}
