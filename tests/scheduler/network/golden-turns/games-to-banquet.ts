import { banquet, games } from '../a-network-input.ts'
import { aGoldenTurn } from './a-golden-hall.ts'
import type { GoldenTurn } from './golden-turn.ts'

export const gamesToBanquet: GoldenTurn = {
  name: 'Games to banquet',
  story:
    '2 post pairs and 20 chairs stand; 40 people played. Wanted: 15 round tables of 60 in with cloths, 120 chairs, no place settings.',
  lines: [
    {
      work: 'Bins',
      keys: /^bins$/,
      handling: '40 guests × 4 per 100 = 1.6, so 2 × 90 s',
      way: '',
      practisedPersonSeconds: 180,
      crewPersonSeconds: 311,
    },
    {
      work: 'Chairs to the side',
      keys: /^park\/furnishing_stacking-chair\//,
      handling: '20 × 7.5 s',
      way: '',
      practisedPersonSeconds: 150,
      crewPersonSeconds: 259,
    },
    {
      work: 'Posts to the store',
      keys: /^strike\/furnishing_post-pair\//,
      handling: '2 × 180 s = 360',
      way: '2 carries × 2 people × 25.4 s = 101',
      practisedPersonSeconds: 461,
      crewPersonSeconds: 796,
    },
    {
      work: 'Dust mop',
      keys: /^clean\/dust-mop\//,
      handling: '214 m² = 2,303 ft², 6.5 min per 1,000 ft²: 14.97 min',
      way: '',
      practisedPersonSeconds: 898,
      crewPersonSeconds: 1550,
    },
    {
      work: 'Marking out',
      keys: /^mark-out\//,
      handling: '15 tables × 15 s',
      way: '',
      practisedPersonSeconds: 225,
      crewPersonSeconds: 388,
    },
    {
      work: 'Tables from the store',
      keys: /^set\/furnishing_round-table\//,
      handling: '15 × 90 s = 1,350',
      way: '5 a zone, so 3 trolleys × 2 people × 100.4 s = 602',
      practisedPersonSeconds: 1952,
      crewPersonSeconds: 3368,
    },
    {
      work: 'Cloths from the store',
      keys: /^linen-on\//,
      handling: '15 × 45 s = 675',
      way: '5 a zone, so 3 armfuls × 25.4 s = 76',
      practisedPersonSeconds: 751,
      crewPersonSeconds: 1296,
    },
    {
      work: 'Chairs from the store',
      keys: /^set\/furnishing_stacking-chair\/zone-\d+\/\d+$/,
      handling: '100 × 9 s = 900',
      way: '34, 33 and 33 a zone, so 2 trolleys to each: 6 × 100.4 s = 602',
      practisedPersonSeconds: 1502,
      crewPersonSeconds: 2591,
    },
    {
      work: 'Chairs from the side',
      keys: /^set\/furnishing_stacking-chair\/.*from-side/,
      handling: '20 × 9 s',
      way: '',
      practisedPersonSeconds: 180,
      crewPersonSeconds: 311,
    },
  ],
  practisedPersonSeconds: 6299,
  crewPersonSeconds: 10_870,
  fixed: [
    { work: 'Briefing', keys: /^briefing$/, time: '5 min, one speaks', personSeconds: 300 },
    { work: 'Walkthrough', keys: /^walkthrough$/, time: '5 min for one, 3 for two', personSeconds: 300 },
    { work: 'Sign-off', keys: /^sign-off$/, time: '10 min for one, 6 for two', personSeconds: 600 },
  ],
  remarks: [
    'If nobody ever waited: 14 min of fixed times and 10,870 ÷ 4 hands make 59 min; with 6 hands 44 min.',
  ],
  ready: [
    { hands: 4, minutesLeast: 50, minutesMost: 75 },
    { hands: 6, minutesLeast: 40, minutesMost: 60 },
  ],
  readyByHand: false,
  input: aGoldenTurn(games, banquet, { headcount: 40, foodServed: false }),
}
