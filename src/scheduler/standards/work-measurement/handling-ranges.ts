/**
 * How long a practised crew takes to set and strike one piece, in person-seconds: short carry, trolley at hand.
 * There is no published source for these but the crew rate of a deck; a site's own times replace them.
 */

export interface SecondsRange {
  readonly least: number
  readonly most: number
}

export interface HandlingRange {
  readonly work: string
  readonly handsLeast: number
  readonly handsMost: number
  /** Person-seconds per piece; null: there is nothing to set. */
  readonly set: SecondsRange | null
  /** Person-seconds per piece; null: nothing is struck, or no figure is known. */
  readonly strike: SecondsRange | null
  readonly source: string
}

const PRACTICE = 'common practice, no source'

const range = (least: number, most: number): SecondsRange => ({ least, most })

/** Keeps which of the two is null, so that a reader of one row need not ask. */
const handling = <Set extends SecondsRange | null, Strike extends SecondsRange | null>(
  work: string,
  [handsLeast, handsMost]: readonly [number, number],
  set: Set,
  strike: Strike,
  source: string = PRACTICE,
) => ({ work, handsLeast, handsMost, set, strike, source })

export const HANDLING_RANGES = {
  stackingChairOffTrolley: handling(
    'stacking chair, in rows, off a trolley beside the row',
    [1, 1],
    range(6, 12),
    range(5, 10),
  ),
  stackingChairCarried: handling(
    'stacking chair, carried singly 6 m',
    [1, 1],
    range(13, 18),
    range(13, 18),
    'common practice, no source (BasicMOST from memory gives 14.8)',
  ),
  foldingChair: handling('folding chair', [1, 1], range(8, 15), range(8, 12)),
  alignRows: handling('align and number rows, per chair', [1, 1], range(1, 2), null),
  roundTable60Inches: handling('round table 60 in: roll, tip, legs', [1, 2], range(60, 120), range(45, 90)),
  roundTable72Inches: handling('round table 72 in', [2, 2], range(90, 160), range(75, 130)),
  longTable6Feet: handling('table 6 ft', [1, 2], range(45, 90), range(40, 80)),
  longTable8Feet: handling('table 8 ft', [2, 2], range(60, 120), range(50, 100)),
  tableCloth: handling('cloth on a table', [1, 1], range(30, 60), range(10, 20)),
  placeSettingSimple: handling('place setting, simple', [1, 1], range(20, 40), range(15, 30)),
  placeSettingFull: handling('place setting, full', [1, 1], range(60, 120), range(15, 30)),
  stageDeck: handling('riser deck 4 × 8 ft with legs', [2, 2], range(180, 360), range(120, 270)),
  stageDeckPublished: handling(
    'riser deck 4 × 8 ft, from a crew of 4 that sets 40 × 64 ft in 1 to 2 h',
    [4, 4],
    range(180, 360),
    null,
    'exhibitions.co.uk, Folding stage - multipurpose & portable, 23 March 2010; read (the crew rate; the seconds follow from it)',
  ),
  guardRail: handling('guard rail or step unit', [2, 2], range(120, 240), range(90, 180)),
  danceFloorPanel: handling('dance floor, per 3 × 3 ft panel', [2, 2], range(30, 60), range(20, 40)),
  postPair: handling('goal or badminton post pair', [2, 2], range(180, 300), range(120, 240)),
  loadedTrolleyPer10Metres: handling('loaded chair trolley, per 10 m', [1, 1], range(10, 20), range(10, 20)),
} as const satisfies Record<string, HandlingRange>
