/** What the revised NIOSH lifting equation does not apply to: for these no index may be shown. */

export interface OutsideTheEquation {
  readonly key: string
  readonly text: string
  readonly source: string
}

const PAGE_6 =
  'NIOSH 94-110 (rev. 9/2021), section 1.2, p. 6; second-hand (public transcription of the print)'
const PAGE_5 =
  'NIOSH 94-110 (rev. 9/2021), section 1.2, p. 5; second-hand (public transcription of the print)'

export const OUTSIDE_THE_EQUATION: readonly OutsideTheEquation[] = [
  { key: 'one-hand', text: 'Lifting with one hand.', source: PAGE_6 },
  { key: 'over-eight-hours', text: 'Lifting for more than 8 hours.', source: PAGE_6 },
  { key: 'seated-or-kneeling', text: 'Lifting while seated or kneeling.', source: PAGE_6 },
  { key: 'cramped', text: 'Lifting in a cramped space, such as under a stage.', source: PAGE_6 },
  {
    key: 'unstable',
    text: 'Loads whose weight shifts, such as a half-filled bag or a tub of water.',
    source: PAGE_6,
  },
  {
    key: 'while-moving',
    text: 'Lifting while carrying, pushing or pulling. Rolling a table is not a lift.',
    source: PAGE_6,
  },
  { key: 'barrow-or-shovel', text: 'Lifting with a barrow or a shovel.', source: PAGE_6 },
  {
    key: 'fast',
    text: 'Fast lifts, quicker than about 75 cm (30 in) a second: floor to table top in less than a second.',
    source: PAGE_6,
  },
  {
    key: 'slippery',
    text: 'A slippery floor: friction below 0.4 between sole and floor, as on a freshly mopped one.',
    source: PAGE_6,
  },
  {
    key: 'climate',
    text: 'Air well outside 19 to 26 °C (66 to 79 °F), or outside 35 to 50 % relative humidity.',
    source: PAGE_6,
  },
  {
    key: 'carried',
    text: 'Carrying more than a step or two. A chair carried across the hall is not a lift in this sense.',
    source: PAGE_5,
  },
]
