import { games } from '../a-network-input.ts'
import { aGoldenTurn } from './a-golden-hall.ts'
import type { GoldenTurn } from './golden-turn.ts'

export const gamesToGames: GoldenTurn = {
  name: 'Games to games',
  story: '2 post pairs and 20 chairs stand and stay; 40 people played, the next group comes. Nothing moves.',
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
      work: 'Dust mop around what stands',
      keys: /^clean\/dust-mop\//,
      handling: '2,303 ft², 6.5 min per 1,000 ft²: 14.97 min',
      way: '',
      practisedPersonSeconds: 898,
      crewPersonSeconds: 1550,
    },
  ],
  practisedPersonSeconds: 1078,
  crewPersonSeconds: 1861,
  fixed: [
    { work: 'Walkthrough', keys: /^walkthrough$/, time: '5 min for one, 3 for two', personSeconds: 300 },
    { work: 'Sign-off', keys: /^sign-off$/, time: '10 min for one, 6 for two', personSeconds: 600 },
  ],
  remarks: [
    'There is nothing to share out, so nobody is briefed.',
    'If nobody ever waited: 9 min of fixed times and 1,861 ÷ 2 hands make 24.5 min; with 4 hands 17 min.',
    'A plan by hand with 2: both together walk through (3 min), empty the bins (3) and mop zone after zone (4.5 each), and sign off (6): 25.5. With 4: one empties the bins while each of the others mops a zone (9): 18.',
  ],
  ready: [
    { hands: 2, minutesLeast: 24, minutesMost: 27 },
    { hands: 4, minutesLeast: 17, minutesMost: 19 },
  ],
  readyByHand: true,
  input: aGoldenTurn(games, games, { headcount: 40, foodServed: false }),
}
