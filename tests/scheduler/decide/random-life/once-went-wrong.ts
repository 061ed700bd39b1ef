/** What random lives have found: each the fewest things that have to happen, and what went wrong when they did. */
import type { Beside, Happening, layoutNames } from './happening.ts'

export interface OnceWentWrong {
  readonly story: string
  readonly happenings: readonly Happening[]
}

type Layout = (typeof layoutNames)[number]
type Wanted = Extract<Happening, { what: 'book' }>

/** For two hours from 09:00, unless said otherwise. */
const wanted = (day: number, layout: Layout, otherwise: Partial<Wanted> = {}) => ({
  ...plain,
  day,
  quarter: 8,
  length: 8,
  layout,
  ...otherwise,
})
const plain: Beside = {
  headcount: 20,
  priority: 0,
  quiet: false,
  food: false,
  wet: false,
  helpers: 0,
  demand: null,
  milestone: null,
  risk: false,
}
const book = (day: number, layout: Layout, otherwise: Partial<Wanted> = {}): Happening => ({
  ...wanted(day, layout, otherwise),
  what: 'book',
})
const hold = (day: number, layout: Layout, lasts: number): Happening => ({
  ...wanted(day, layout),
  what: 'hold',
  lasts,
})
const homeAfter = (returnHomeAfterHours: number, reach = 100): Happening => ({
  what: 'policy',
  patch: { returnHomeAfterHours },
  reach,
})

export const onceWentWrong: readonly OnceWentWrong[] = [
  {
    story:
      'A room was said to be put back after a booking far behind the request, because who follows it there was not loaded',
    happenings: [homeAfter(60), book(7, 'long-banquet'), book(8, 'long-games'), book(1, 'long-games')],
  },
  {
    story:
      'Tables were away, and the next request in the room was answered for turns a week off that this had changed',
    happenings: [
      book(6, 'long-games', { quarter: 40 }),
      book(6, 'long-games'),
      {
        ...wanted(0, 'long-games'),
        what: 'away',
        thing: 0,
        count: 1,
        borrowed: false,
        forGood: true,
        reach: 3,
      },
      book(1, 'long-games'),
    ],
  },
  {
    story:
      'Rooms were to be put back from now on, turns far off were yet to be looked at, and what stood there depended on who asked',
    happenings: [book(2, 'side-supper'), homeAfter(60, 1), book(9, 'side-meeting')],
  },
  {
    story:
      'A booking in the south half kept the whole room from being put back, and nobody told the next turn in the north half',
    happenings: [homeAfter(60), book(2, 'long-banquet'), book(8, 'north-meeting'), book(3, 'south-meeting')],
  },
  {
    story:
      'A skill ran out, the turn that needed it was yet to be looked at, and going over its plan found it broken',
    happenings: [
      book(3, 'long-games'),
      hold(4, 'long-banquet', 2),
      { what: 'skill-until', day: 0, reach: 3 },
      { what: 'polish', turns: 3 },
    ],
  },
  {
    story: 'Which turn was named as the next one hung on the order in which turns were loaded',
    happenings: [
      book(8, 'long-games'),
      book(4, 'south-meeting'),
      book(3, 'long-games'),
      { what: 'move', which: 2, day: 3, quarter: 8, length: 8 },
    ],
  },
  {
    story: 'Doors that were past were refused twice over, or once, by how much was loaded',
    happenings: [
      book(0, 'north-meeting', { quarter: 40, length: 16 }),
      book(4, 'long-games'),
      book(2, 'long-banquet'),
      { what: 'skill-until', day: 0, reach: 100 },
      { what: 'clock', hours: 70 },
      book(1, 'long-games'),
    ],
  },
  {
    story: 'A cancellation freed hands for a turn that fails a day later, which was not loaded',
    happenings: [
      book(2, 'long-games', {
        demand: { fromDoors: null, toClear: 90, length: 8, hands: 2, skilled: false },
      }),
      book(2, 'long-games', { quarter: 24 }),
      book(3, 'long-games', {
        demand: { fromDoors: null, toClear: 4, length: 8, hands: 2, skilled: true },
        risk: true,
      }),
      { what: 'drop-shift', which: 1, reach: 1 },
      { what: 'cancel', which: 0 },
    ],
  },
  {
    story:
      'A group that helps in the room it was in was counted on in another room, where turns were planned together',
    happenings: [
      book(3, 'long-games'),
      book(5, 'long-banquet', { quiet: true, food: true, helpers: 4 }),
      book(2, 'side-supper', { quarter: 40 }),
      book(2, 'long-worship', {
        quarter: 42,
        demand: { fromDoors: -190, toClear: 90, length: 8, hands: 1, skilled: true },
      }),
      book(1, 'side-meeting', { quarter: 3, length: 4, headcount: 29, food: true, wet: true }),
      { what: 'policy', patch: { justInTimeFromGapHours: 0 }, reach: 100 },
      { what: 'skill-until', day: 0, reach: 100 },
      { what: 'move', which: 1, day: 2, quarter: 19, length: 15 },
      { what: 'polish', turns: 2 },
      { what: 'move-place', which: 1, layout: 'south-meeting' },
    ],
  },
  {
    story:
      'A device was changed for the next days, and a turn behind them was judged at once or later by who asked',
    happenings: [
      homeAfter(30),
      book(3, 'long-games'),
      book(1, 'long-banquet'),
      book(9, 'long-games'),
      { what: 'move', which: 0, day: 8, quarter: 8, length: 8 },
      { what: 'change-hall', how: 4, reach: 3 },
    ],
  },
  {
    story: 'A hold ran out while nobody looked, and the turn that was to follow it had begun',
    happenings: [
      book(2, 'long-games', { quarter: 27, length: 7 }),
      { ...wanted(0, 'south-meeting', { quarter: 19, length: 12 }), what: 'hold', lasts: 70 },
      { what: 'clock', hours: 30 },
    ],
  },
  {
    story:
      'Rooms were to be put back later than before, and one that had been put back by then stood so or not by who asked',
    happenings: [
      homeAfter(4),
      book(0, 'long-banquet', { risk: true }),
      book(4, 'long-games'),
      book(3, 'long-games', { quarter: 24 }),
      book(2, 'long-games'),
      book(6, 'long-games'),
      { what: 'drop-shift', which: 0, reach: 100 },
      { what: 'move', which: 3, day: 3, quarter: 8, length: 8 },
      { what: 'clock', hours: 13 },
      homeAfter(120),
      { what: 'move-place', which: 4, layout: 'long-games' },
    ],
  },
]
