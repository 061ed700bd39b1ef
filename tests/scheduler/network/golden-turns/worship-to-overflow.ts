import { aLayout, chair, inState, pieces, screen } from '../a-network-input.ts'
import { aGoldenTurn, rowsOfChairs, videoFeed } from './a-golden-hall.ts'
import type { GoldenTurn } from './golden-turn.ts'

const worship = aLayout('worship', {
  seats: 120,
  furnishings: [pieces(chair, 120)],
  placements: rowsOfChairs(10),
})

const overflow = aLayout('overflow', {
  seats: 180,
  furnishings: [pieces(chair, 180)],
  placements: rowsOfChairs(15),
  equipment: [
    { equipmentId: screen.id, setting: { kind: 'state', state: 'down' } },
    { equipmentId: videoFeed.id, setting: { kind: 'state', state: 'live' } },
  ],
})

export const worshipToOverflow: GoldenTurn = {
  name: 'Worship to overflow',
  story:
    '10 rows of 12 chairs stand where the plan has them; 100 people were there. Wanted: 5 rows more, the screen down, the feed of the large room on and tried out.',
  lines: [
    {
      work: 'Bins',
      keys: /^bins$/,
      handling: '100 guests × 4 per 100 = 4 × 90 s',
      way: '',
      practisedPersonSeconds: 360,
      crewPersonSeconds: 621,
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
      work: 'Marking out',
      keys: /^mark-out\//,
      handling: '5 rows × 15 s',
      way: '',
      practisedPersonSeconds: 75,
      crewPersonSeconds: 130,
    },
    {
      work: 'Chairs from the store',
      keys: /^set\/furnishing_stacking-chair\/zone-\d+\/\d+$/,
      handling: '60 × 9 s = 540',
      way: '3 trolleys of 25 × 100.4 s = 301',
      practisedPersonSeconds: 841,
      crewPersonSeconds: 1451,
    },
    {
      work: 'Lining up the new rows',
      keys: /^set\/align-rows\//,
      handling: '60 × 1.5 s',
      way: '',
      practisedPersonSeconds: 90,
      crewPersonSeconds: 156,
    },
  ],
  practisedPersonSeconds: 2264,
  crewPersonSeconds: 3908,
  fixed: [
    { work: 'Briefing', keys: /^briefing$/, time: '5 min, one speaks', personSeconds: 300 },
    { work: 'Walkthrough', keys: /^walkthrough$/, time: '5 min for one, 3 for two', personSeconds: 300 },
    { work: 'Screen down', keys: /^switch\/equipment_screen\//, time: '40 s by itself', personSeconds: 0 },
    {
      work: 'Feed to standby, then live',
      keys: /^switch\/equipment_video-feed\//,
      time: '90 s by itself, then 2 min for one with the skill video',
      personSeconds: 120,
    },
    {
      work: 'Trying out picture and sound',
      keys: /^sound-check\//,
      time: '5 min for one with the skill video, in quiet',
      personSeconds: 300,
    },
    { work: 'Sign-off', keys: /^sign-off$/, time: '10 min for one, 6 for two', personSeconds: 600 },
  ],
  remarks: [
    'If nobody ever waited: 14 min of fixed times and (3,908 + 420) ÷ 4 hands make 32 min; with 6 hands 26 min.',
    'For 5 min it has to be quiet: nobody mops, rolls a trolley or sets chairs meanwhile.',
  ],
  ready: [
    { hands: 4, minutesLeast: 32, minutesMost: 45 },
    { hands: 6, minutesLeast: 26, minutesMost: 40 },
  ],
  input: aGoldenTurn(
    worship,
    overflow,
    { headcount: 100, foodServed: false },
    {
      placementsFrom: rowsOfChairs(10),
      equipmentFrom: [inState(screen, 'up'), inState(videoFeed, 'off')],
    },
  ),
}
