import { aLayout, banquet, chair, pieces, stageDeck } from '../a-network-input.ts'
import { aGoldenTurn, stageRail } from './a-golden-hall.ts'
import type { GoldenTurn } from './golden-turn.ts'

/** 150 chairs before a stage of 4 decks with 2 rails, at the end of the hall that is zone 1. */
const worship = aLayout('worship', {
  seats: 150,
  furnishings: [pieces(chair, 150), pieces(stageDeck, 4), pieces(stageRail, 2)],
  placements: [
    ...[2, 4, 6, 8].map((yMetres) => ({
      furnishingId: stageDeck.id,
      xMetres: 1,
      yMetres,
      rotationDegrees: 90,
    })),
    ...[1, 9].map((yMetres) => ({
      furnishingId: stageRail.id,
      xMetres: 1,
      yMetres,
      rotationDegrees: 0,
    })),
  ],
})

export const banquetToWorship: GoldenTurn = {
  name: 'Banquet to worship',
  story:
    '15 round tables with cloths and 120 chairs stand; 110 people had a meal. Wanted: 150 chairs in rows and a small stage of 4 decks with 2 rails.',
  lines: [
    {
      work: 'Bins',
      keys: /^bins$/,
      handling: '110 guests × 4 per 100 = 4.4, so 5 × 90 s',
      way: '',
      practisedPersonSeconds: 450,
      crewPersonSeconds: 776,
    },
    {
      work: 'Cloths to the laundry',
      keys: /^linen-off\//,
      handling: '15 × 15 s = 225',
      way: '5 a zone, so 3 armfuls × 25.4 s = 76; the laundry is taken to be as far as the store',
      practisedPersonSeconds: 301,
      crewPersonSeconds: 519,
    },
    {
      work: 'Wiping tables',
      keys: /^bus\/wipe-tables\//,
      handling: '15 × 45 s',
      way: '',
      practisedPersonSeconds: 675,
      crewPersonSeconds: 1164,
    },
    {
      work: 'Chairs to the side',
      keys: /^park\/furnishing_stacking-chair\//,
      handling: '120 × 7.5 s; stacked they take 120 × 0.035 = 4.2 m² of the 21 m² at the side',
      way: '',
      practisedPersonSeconds: 900,
      crewPersonSeconds: 1553,
    },
    {
      work: 'Tables to the store',
      keys: /^strike\/furnishing_round-table\//,
      handling: '15 × 67.5 s = 1,012',
      way: '5 a zone, so 3 trolleys × 2 people × 100.4 s = 602',
      practisedPersonSeconds: 1614,
      crewPersonSeconds: 2784,
    },
    {
      work: 'Dust mop',
      keys: /^clean\/dust-mop\//,
      handling: '2,303 ft², 6.5 min per 1,000 ft²: 14.97 min',
      way: '',
      practisedPersonSeconds: 898,
      crewPersonSeconds: 1550,
    },
    {
      work: 'Spot mop after food',
      keys: /^clean\/spot-mop\//,
      handling: '2,303 ft², 4.5 min per 1,000 ft²: 10.37 min',
      way: '',
      practisedPersonSeconds: 622,
      crewPersonSeconds: 1073,
    },
    {
      work: 'Marking out',
      keys: /^mark-out\//,
      handling: '4 decks and 15 rows (50 chairs a zone, 12 to a row: 5 rows) = 19 × 15 s',
      way: '',
      practisedPersonSeconds: 285,
      crewPersonSeconds: 492,
    },
    {
      work: 'Stage decks from the store',
      keys: /^set\/furnishing_stage-deck\//,
      handling: '4 × 270 s = 1,080',
      way: '4 carries × 2 people × 25.4 s = 203',
      practisedPersonSeconds: 1283,
      crewPersonSeconds: 2213,
    },
    {
      work: 'Rails from the store',
      keys: /^set\/furnishing_stage-rail\//,
      handling: '2 × 180 s = 360',
      way: '2 carries × 2 people × 25.4 s = 101',
      practisedPersonSeconds: 461,
      crewPersonSeconds: 796,
    },
    {
      work: 'Chairs from the side',
      keys: /^set\/furnishing_stacking-chair\/.*from-side/,
      handling: '120 × 9 s',
      way: '',
      practisedPersonSeconds: 1080,
      crewPersonSeconds: 1863,
    },
    {
      work: 'Chairs from the store',
      keys: /^set\/furnishing_stacking-chair\/zone-\d+\/\d+$/,
      handling: '30 × 9 s = 270',
      way: '10 a zone, so 3 trolleys × 100.4 s = 301',
      practisedPersonSeconds: 571,
      crewPersonSeconds: 985,
    },
    {
      work: 'Lining up rows',
      keys: /^set\/align-rows\//,
      handling: '150 × 1.5 s',
      way: '',
      practisedPersonSeconds: 225,
      crewPersonSeconds: 388,
    },
  ],
  practisedPersonSeconds: 9365,
  crewPersonSeconds: 16_156,
  fixed: [
    { work: 'Briefing', keys: /^briefing$/, time: '5 min, one speaks', personSeconds: 300 },
    { work: 'Walkthrough', keys: /^walkthrough$/, time: '5 min for one, 3 for two', personSeconds: 300 },
    {
      work: 'Drying',
      keys: /^dry\//,
      time: '20 min on vinyl in each zone, nobody stays',
      personSeconds: 0,
    },
    { work: 'Sign-off', keys: /^sign-off$/, time: '10 min for one, 6 for two', personSeconds: 600 },
  ],
  remarks: [
    'If nobody ever waited: 14 min of fixed times and 16,156 ÷ 4 hands make 81 min; with 6 hands 59 min. Each zone also lies still for 20 min while it dries.',
    'A plan by hand with 4: after 8 min all clear and clean zone 1, then zone 2, 2,886 ÷ 3.8 each and a minute lost, so at 22 and 36; zone 1 is dry at 42. From then on a pair builds the stage and a pair ends zone 3, at 54 and dry at 74. At 42 there are 8,968 left, ÷ 4 and 2 min lost: 82; sign-off: 88.',
    'With 6: four clear and clean zone 1 until 22 and zone 3 until 36, a pair zone 2 until 34, then the bins. From 42 on three pairs mark (2 min), build the decks (two rounds of 5) and two of them fix the rails: 57.5. Then 3,503 ÷ 6 for chairs and lining up in all zones and 2 min lost: 69.5; sign-off: 75.5.',
    'Without spots to mop the drying would fall away; so would 18 min of work.',
  ],
  ready: [
    { hands: 4, minutesLeast: 83, minutesMost: 94 },
    { hands: 6, minutesLeast: 70, minutesMost: 82 },
  ],
  readyByHand: true,
  input: aGoldenTurn(banquet, worship, { headcount: 110, foodServed: true }),
}
