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
    'A plan by hand with 4: the 3,908 ÷ 4 from 8 min on and a minute lost: at 25.5 the room is set. Only then does the feed come on, 1.5 min by itself and 2 by hand; 5 min for trying it out, 6 for the sign-off: 40.',
    'With 6: three pairs mop until 12.5; a pair marks until 14 while four empty bins until 15.5; one lot of chairs is in at 18.5, the other two at 20, lined up at 21.5. Feed, trying out and sign-off, 14.5 min: 36.',
    'For 5 min it has to be quiet: nobody mops, rolls a trolley or sets chairs meanwhile.',
  ],
  ready: [
    { hands: 4, minutesLeast: 38, minutesMost: 43 },
    { hands: 6, minutesLeast: 34, minutesMost: 39 },
  ],
  readyByHand: true,
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
