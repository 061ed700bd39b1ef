import { FixedThing } from '../../../../src/domain/fixed-thing.ts'
import type { FurnishingId } from '../../../../src/domain/ids.ts'
import type { Layout, Placement } from '../../../../src/domain/layout.ts'
import { aLayout, chair, pieces, roundTable } from '../a-network-input.ts'
import { aGoldenTurn } from './a-golden-hall.ts'
import type { GoldenTurn } from './golden-turn.ts'

const stage = FixedThing.parse({
  name: 'Stage',
  outline: { kind: 'rectangle', xMetres: 8, yMetres: 0, widthMetres: 2, depthMetres: 5 },
})

const at = (furnishingId: FurnishingId, xMetres: number, yMetres: number): Placement => ({
  furnishingId,
  xMetres,
  yMetres,
  rotationDegrees: 0,
})

/** Two tables, at 3 m and 9 m from the front, four chairs around each, and one table that stays. */
const tablesAround = (xMetres: number): Placement[] => [
  at(roundTable.id, 9, 8),
  ...[3, 9].flatMap((y) => [
    at(roundTable.id, xMetres, y),
    ...[-1, 1].flatMap((dx) => [-2, 2].map((dy) => at(chair.id, xMetres + dx, y + dy))),
  ]),
]

const before = tablesAround(3)
const after = tablesAround(15)
const furnishings = [pieces(roundTable, 3), pieces(chair, 8)]

export const banquetToBanquet: GoldenTurn = {
  name: 'Banquet to banquet, at the other end',
  story:
    '3 round tables stand, with 4 chairs around each of two of them; 20 guests were there, nothing was eaten. The two tables and their 8 chairs are wanted 12 m on, at the other end of the hall; the third stays. A fixed stage, 2 m wide and 5 m deep, stands in between at the front.',
  lines: [
    {
      work: 'Bins',
      keys: /^bins$/,
      handling: '20 guests × 4 per 100 = 0.8, so 90 s',
      way: '',
      practisedPersonSeconds: 90,
      crewPersonSeconds: 155,
    },
    {
      work: 'Chairs aside',
      keys: /^park\/furnishing_stacking-chair\//,
      handling: '8 × 7.5 s',
      way: '',
      practisedPersonSeconds: 60,
      crewPersonSeconds: 104,
    },
    {
      work: 'Tables aside',
      keys: /^park\/furnishing_round-table\//,
      handling: '2 × 67.5 s',
      way: '',
      practisedPersonSeconds: 135,
      crewPersonSeconds: 233,
    },
    {
      work: 'Dust mop',
      keys: /^clean\/dust-mop\//,
      handling: '2,303 ft², 6.5 min per 1,000 ft²: 14.97 min',
      way: '',
      practisedPersonSeconds: 898,
      crewPersonSeconds: 1549,
    },
    {
      work: 'Marking out',
      keys: /^mark-out\//,
      handling: '2 tables × 15 s',
      way: '',
      practisedPersonSeconds: 30,
      crewPersonSeconds: 52,
    },
    {
      work: 'Tables across the hall',
      keys: /^set\/furnishing_round-table\/zone-3\/from-zone-1-/,
      handling: '2 × 90 s = 180',
      way: 'around the stage √29 + 2 + √29 = 12.77 m, past it 12 m; 6.77 and 6 beyond the short carry, 6.4 on average, at 1.41 and 1.6 m/s: 8.5 s × 2 carries × 2 people = 34',
      practisedPersonSeconds: 214,
      crewPersonSeconds: 369,
    },
    {
      work: 'Chairs across the hall',
      keys: /^set\/furnishing_stacking-chair\/zone-3\/from-zone-1-/,
      handling: '8 × 9 s = 72',
      way: 'four go 12 m; four around the stage, together √52 + √32 + 6 + 4 there, 4 × 2 along it and as much again: 53.7 m. 12.7 on average, 6.7 beyond: 9.0 s × 4 carries of 2 = 36',
      practisedPersonSeconds: 108,
      crewPersonSeconds: 186,
    },
  ],
  practisedPersonSeconds: 1535,
  crewPersonSeconds: 2648,
  fixed: [
    { work: 'Briefing', keys: /^briefing$/, time: '5 min, one speaks', personSeconds: 300 },
    { work: 'Walkthrough', keys: /^walkthrough$/, time: '5 min for one, 3 for two', personSeconds: 300 },
    { work: 'Sign-off', keys: /^sign-off$/, time: '10 min for one, 6 for two', personSeconds: 600 },
  ],
  remarks: [
    'Which table and which chair goes where: the front ones around the stage to the front, the others straight on. Crosswise it would be farther: 13.4 m for a table instead of 12.8 and 12.',
    'By trolley the tables would take 60 s of handling for each of two people and the chairs 60 s for one: more than the carries.',
    'If nobody ever waited: 14 min of fixed times and 2,648 ÷ 2 hands make 36 min; with 4 hands 26 min.',
    'A plan by hand with 2, in half minutes: from 8 min on one empties the bin while the other stacks chairs (3 min), both put the tables aside (2), mop zone after zone (4.5 each), mark (0.5), set tables (3.5) and chairs (2), and sign off (6): 38.5.',
    'With 4: a pair puts chairs and tables aside until 11 and mops zone 1 until 15.5, then zone 2 until 20; the other pair mops zone 3 until 12.5, marks, sets tables until 16 and chairs until 18, and empties the bin until 19.5. Sign-off: 26.',
  ],
  ready: [
    { hands: 2, minutesLeast: 36, minutesMost: 40 },
    { hands: 4, minutesLeast: 24.5, minutesMost: 27.5 },
  ],
  readyByHand: true,
  input: aGoldenTurn(
    aLayout('banquet', { id: 'layout_before' as Layout['id'], furnishings, placements: before }),
    aLayout('banquet', { id: 'layout_after' as Layout['id'], furnishings, placements: after }),
    { headcount: 20, foodServed: false },
    { placementsFrom: before },
    [stage],
  ),
}
