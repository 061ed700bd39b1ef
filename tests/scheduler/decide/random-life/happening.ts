/** What may happen at a hall, as plain data: small, so that a sequence of them that goes wrong can be told and kept. */
import fc from 'fast-check'

export const layoutNames = [
  'long-games',
  'long-banquet',
  'long-worship',
  'south-meeting',
  'north-meeting',
  'north-open-day',
  'side-meeting',
  'side-supper',
] as const

/** A time at the site, counted from the first day, 07:00, in quarters of an hour. */
export interface Slot {
  readonly day: number
  readonly quarter: number
  /** In quarters of an hour. */
  readonly length: number
}

/** Crew that an event demands; in quarters of an hour from doors, or to so many after clear. */
export interface Demand {
  readonly fromDoors: number | null
  readonly toClear: number
  readonly length: number
  readonly hands: number
  readonly skilled: boolean
}

export interface Beside {
  readonly headcount: number
  readonly priority: number
  readonly quiet: boolean
  readonly food: boolean
  readonly wet: boolean
  readonly helpers: number
  readonly demand: Demand | null
  /** In quarters of an hour before doors when negative, else after clear. */
  readonly milestone: { readonly which: number; readonly at: number } | null
  readonly risk: boolean
}

interface Wanted extends Slot, Beside {
  readonly layout: (typeof layoutNames)[number]
}

export type Happening =
  | ({ readonly what: 'book' } & Wanted)
  | ({
      /** The same layout once more, so long after clear. */
      readonly what: 'book-again'
      readonly which: number
      readonly gapQuarters: number
      readonly lengthQuarters: number
    } & Beside)
  | ({ readonly what: 'hold'; readonly lasts: number } & Wanted)
  | { readonly what: 'confirm'; readonly which: number }
  | ({ readonly what: 'move'; readonly which: number } & Slot)
  | { readonly what: 'move-place'; readonly which: number; readonly layout: (typeof layoutNames)[number] }
  | ({ readonly what: 'move-terms'; readonly which: number } & Beside)
  | { readonly what: 'swap'; readonly which: number; readonly other: number }
  | { readonly what: 'cancel'; readonly which: number }
  | {
      readonly what: 'link'
      readonly whiches: readonly number[]
      /** The next in the room and layout of the first comes along, and nothing firm with holds: there may be a set to keep. */
      readonly withAlike: boolean
      readonly keepAsSet: boolean
    }
  | { readonly what: 'unlink'; readonly which: number }
  | { readonly what: 'clear-later'; readonly which: number; readonly quarters: number }
  | ({
      readonly what: 'add-shift'
      readonly hands: number
      readonly skilled: boolean
      readonly paid: boolean
    } & Slot)
  | {
      readonly what: 'change-shift'
      readonly which: number
      readonly hands: number
      readonly hour: number
      readonly reach: number
    }
  | { readonly what: 'drop-shift'; readonly which: number; readonly reach: number }
  | { readonly what: 'skill-until'; readonly day: number | null; readonly reach: number }
  | ({
      readonly what: 'away'
      readonly thing: number
      readonly count: number
      readonly borrowed: boolean
      readonly forGood: boolean
      readonly reach: number
    } & Slot)
  | { readonly what: 'back'; readonly which: number; readonly reach: number }
  | ({ readonly what: 'close'; readonly thing: number } & Slot)
  | { readonly what: 'lift'; readonly which: number }
  | {
      readonly what: 'observe'
      readonly room: number
      readonly chairs: number
      readonly ago: number
      readonly reach: number
    }
  | { readonly what: 'rates'; readonly factor: number; readonly reach: number }
  | { readonly what: 'policy'; readonly patch: PolicyPatch; readonly reach: number }
  | { readonly what: 'change-hall'; readonly how: number; readonly reach: number }
  | { readonly what: 'judge'; readonly turns: number }
  | { readonly what: 'polish'; readonly turns: number }
  | { readonly what: 'clock'; readonly hours: number }

export interface PolicyPatch {
  readonly planningHands?: number
  readonly returnHomeAfterHours?: number | null
  readonly justInTimeFromGapHours?: number | null
  readonly paidPersonHoursMost?: number | null
  readonly replanTurnsMost?: number
  readonly walkBetweenRoomsSeconds?: number
}

const which = fc.nat(11)
const layout = fc.constantFrom(...layoutNames)
/** How many days ahead turns are looked at at once. */
const reach = fc.constantFrom(100, 100, 1, 3)

const slot = {
  day: fc.oneof(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 1, max: 3 })),
  // Now and then to the hour, so that gaps of just 24 or 48 h come about.
  quarter: fc.oneof(fc.integer({ min: 0, max: 64 }), fc.constantFrom(8, 24, 40, 56)),
  length: fc.oneof(
    { weight: 6, arbitrary: fc.integer({ min: 3, max: 20 }) },
    { weight: 2, arbitrary: fc.constantFrom(4, 16) },
    { weight: 1, arbitrary: fc.constantFrom(96, 192, 300) },
  ),
}

const demand: fc.Arbitrary<Demand> = fc.record({
  fromDoors: fc.constantFrom(-192, -190, -100, -8, 0, 2, null),
  toClear: fc.constantFrom(1, 4, 40, 90, 96),
  length: fc.constantFrom(1, 3, 8, 96),
  hands: fc.integer({ min: 1, max: 2 }),
  skilled: fc.boolean(),
})

const rarely = <Value>(arbitrary: fc.Arbitrary<Value>) => fc.option(arbitrary, { freq: 3 })

const beside = {
  headcount: fc.oneof(
    { weight: 9, arbitrary: fc.integer({ min: 5, max: 29 }) },
    { weight: 1, arbitrary: fc.integer({ min: 30, max: 230 }) },
  ),
  priority: fc.integer({ min: 0, max: 1 }),
  quiet: fc.boolean(),
  food: fc.boolean(),
  wet: fc.boolean(),
  helpers: fc.constantFrom(0, 0, 4),
  demand: fc.oneof({ weight: 3, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: demand }),
  milestone: fc.oneof(
    { weight: 4, arbitrary: fc.constant(null) },
    {
      weight: 1,
      arbitrary: fc.record({ which: fc.nat(4), at: fc.constantFrom(-190, -8, -2, 0, 1, 4, 190) }),
    },
  ),
  risk: fc.constantFrom(false, false, false, true),
}

const wanted = { ...slot, ...beside, layout }

const patch: fc.Arbitrary<PolicyPatch> = fc.oneof(
  fc.record({ planningHands: fc.constantFrom(0, 2) }),
  fc.record({ returnHomeAfterHours: fc.constantFrom(null, 4, 30, 60, 120) }),
  fc.record({ justInTimeFromGapHours: fc.constantFrom(null, 0, 12) }),
  fc.record({ paidPersonHoursMost: fc.constantFrom(null, 0, 1) }),
  fc.record({ replanTurnsMost: fc.constantFrom(0, 1, 24) }),
  fc.record({ walkBetweenRoomsSeconds: fc.constantFrom(0, 120, 900) }),
)

const happen = <What extends Happening['what'], Fields extends object>(
  what: What,
  fields: { [Field in keyof Fields]: fc.Arbitrary<Fields[Field]> },
) => fc.tuple(fc.constant(what), fc.record<Fields>(fields)).map(([one, values]) => ({ what: one, ...values }))

const times = (weight: number, arbitrary: fc.Arbitrary<Happening>) => ({ weight, arbitrary })

export const bookOnce = happen('book', wanted)
export const bookAgain = happen('book-again', {
  ...beside,
  which,
  gapQuarters: fc.constantFrom(4, 12, 60, 90),
  lengthQuarters: fc.integer({ min: 4, max: 16 }),
})
const linkOf = (withAlike: fc.Arbitrary<boolean>, keepAsSet: fc.Arbitrary<boolean>) =>
  happen('link', {
    whiches: fc.uniqueArray(which, { minLength: 2, maxLength: 3 }),
    withAlike,
    keepAsSet,
  })
export const linkThatKeeps = linkOf(fc.constant(true), fc.constant(true))

/** The kinds of things, each as often as it is to come. */
export const happenings: readonly { readonly weight: number; readonly arbitrary: fc.Arbitrary<Happening> }[] =
  [
    times(8, bookOnce),
    times(2, bookAgain),
    times(2, happen('hold', { ...wanted, lasts: fc.constantFrom(2, 20, 70) })),
    times(1, happen('confirm', { which })),
    times(2, happen('move', { which, ...slot })),
    times(1, happen('move-place', { which, layout })),
    times(1, happen('move-terms', { which, ...beside })),
    times(1, happen('swap', { which, other: which })),
    times(2, happen('cancel', { which })),
    times(2, linkOf(fc.boolean(), fc.boolean())),
    times(1, happen('unlink', { which })),
    times(1, happen('clear-later', { which, quarters: fc.constantFrom(1, 6, 30) })),
    times(
      1,
      happen('add-shift', {
        ...slot,
        hands: fc.integer({ min: 1, max: 2 }),
        skilled: fc.boolean(),
        paid: fc.boolean(),
      }),
    ),
    times(
      1,
      happen('change-shift', {
        which,
        hands: fc.integer({ min: 1, max: 3 }),
        hour: fc.constantFrom(2, 7, 12),
        reach,
      }),
    ),
    times(1, happen('drop-shift', { which, reach })),
    times(1, happen('skill-until', { day: rarely(fc.integer({ min: 0, max: 9 })), reach })),
    times(
      1,
      happen('away', {
        ...slot,
        thing: fc.nat(7),
        count: fc.integer({ min: 1, max: 200 }),
        borrowed: fc.boolean(),
        forGood: fc.boolean(),
        reach,
      }),
    ),
    times(1, happen('back', { which, reach })),
    times(2, happen('close', { ...slot, thing: fc.nat(7) })),
    times(1, happen('lift', { which })),
    times(
      1,
      happen('observe', {
        room: fc.nat(3),
        chairs: fc.integer({ min: 1, max: 60 }),
        ago: fc.constantFrom(0, 1, 30),
        reach,
      }),
    ),
    times(1, happen('rates', { factor: fc.constantFrom(0.5, 1.2, 2), reach })),
    times(2, happen('policy', { patch, reach })),
    times(1, happen('change-hall', { how: fc.nat(5), reach })),
    times(1, happen('judge', { turns: fc.integer({ min: 1, max: 6 }) })),
    times(1, happen('polish', { turns: fc.integer({ min: 1, max: 3 }) })),
    times(3, happen('clock', { hours: fc.constantFrom(1, 5, 13, 30, 70) })),
  ]

export const happening: fc.Arbitrary<Happening> = fc.oneof(...happenings)
