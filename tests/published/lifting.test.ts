/**
 * Lifting by hand against the Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) publication
 * 94-110 (revised 9/2021). Tables and rules were read in a public transcription of the print that cites its pages and
 * calls itself a draft (repository nbarr1/ErgonomicTool), so they are second-hand; worked examples say what they are.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  assessLift,
  asymmetryMultiplier,
  burstFrequency,
  couplingMultiplier,
  type DurationClass,
  durationClass,
  FREQUENCY_TABLE,
  frequencyMultiplier,
  type Grip,
  type HandPosition,
  horizontalFromBoxWidth,
  horizontalMultiplier,
  LIFTING_CONSTANTS,
  type Lift,
  type LiftingUnits,
  liftingIndexReading,
  OUTSIDE_THE_EQUATION,
  recoveryWantedSeconds,
  travelMultiplier,
  verticalMultiplier,
} from '../../src/scheduler/standards/lifting/index.ts'

const minutes = (count: number): number => count * 60

const hands = (horizontal: number, vertical: number, asymmetryDegrees: number): HandPosition => ({
  horizontal,
  vertical,
  asymmetryDegrees,
})

describe('the printed multiplier tables', () => {
  type Cells = readonly (readonly [value: number, multiplier: number])[]

  /** Tables 1 to 4, pp. 8-13; second-hand. H = 22 and 23 in and D = 130 cm are printed otherwise than the formula. */
  const horizontal: Record<LiftingUnits, Cells> = {
    us: [
      [0, 1],
      [10, 1],
      [11, 0.91],
      [12, 0.83],
      [13, 0.77],
      [14, 0.71],
      [15, 0.67],
      [16, 0.63],
      [17, 0.59],
      [18, 0.56],
      [19, 0.53],
      [20, 0.5],
      [21, 0.48],
      [22, 0.46],
      [23, 0.44],
      [24, 0.42],
      [25, 0.4],
      [25.1, 0],
    ],
    metric: [
      [0, 1],
      [25, 1],
      [28, 0.89],
      [30, 0.83],
      [32, 0.78],
      [34, 0.74],
      [36, 0.69],
      [38, 0.66],
      [40, 0.63],
      [42, 0.6],
      [44, 0.57],
      [46, 0.54],
      [48, 0.52],
      [50, 0.5],
      [52, 0.48],
      [54, 0.46],
      [56, 0.45],
      [58, 0.43],
      [60, 0.42],
      [63, 0.4],
      [63.1, 0],
    ],
  }
  const vertical: Record<LiftingUnits, Cells> = {
    us: [
      [0, 0.78],
      [5, 0.81],
      [10, 0.85],
      [15, 0.89],
      [20, 0.93],
      [25, 0.96],
      [30, 1],
      [35, 0.96],
      [40, 0.93],
      [45, 0.89],
      [50, 0.85],
      [55, 0.81],
      [60, 0.78],
      [65, 0.74],
      [70, 0.7],
      [70.1, 0],
    ],
    metric: [
      [0, 0.78],
      [10, 0.81],
      [20, 0.84],
      [30, 0.87],
      [40, 0.9],
      [50, 0.93],
      [60, 0.96],
      [70, 0.99],
      [80, 0.99],
      [90, 0.96],
      [100, 0.93],
      [110, 0.9],
      [120, 0.87],
      [130, 0.84],
      [140, 0.81],
      [150, 0.78],
      [160, 0.75],
      [170, 0.72],
      [175, 0.7],
      [175.1, 0],
    ],
  }
  const travel: Record<LiftingUnits, Cells> = {
    us: [
      [0, 1],
      [10, 1],
      [15, 0.94],
      [20, 0.91],
      [25, 0.89],
      [30, 0.88],
      [35, 0.87],
      [40, 0.87],
      [45, 0.86],
      [50, 0.86],
      [55, 0.85],
      [60, 0.85],
      [70, 0.85],
      [70.1, 0],
    ],
    metric: [
      [0, 1],
      [25, 1],
      [40, 0.93],
      [55, 0.9],
      [70, 0.88],
      [85, 0.87],
      [100, 0.87],
      [115, 0.86],
      [130, 0.86],
      [145, 0.85],
      [160, 0.85],
      [175, 0.85],
      [175.1, 0],
    ],
  }
  const asymmetry: Cells = [
    [0, 1],
    [15, 0.95],
    [30, 0.9],
    [45, 0.86],
    [60, 0.81],
    [75, 0.76],
    [90, 0.71],
    [105, 0.66],
    [120, 0.62],
    [135, 0.57],
    [136, 0],
  ]
  const systems: readonly LiftingUnits[] = ['us', 'metric']

  test.each(systems)('are what the worksheet way uses, cell by cell (%s)', (units) => {
    for (const [h, multiplier] of horizontal[units]) {
      expect(horizontalMultiplier(units, h, 'worksheet'), `H ${h}`).toBe(multiplier)
    }
    for (const [v, multiplier] of vertical[units]) {
      expect(verticalMultiplier(units, v, 'worksheet'), `V ${v}`).toBe(multiplier)
    }
    for (const [d, multiplier] of travel[units]) {
      expect(travelMultiplier(units, d, 'worksheet'), `D ${d}`).toBe(multiplier)
    }
    for (const [a, multiplier] of asymmetry) {
      expect(asymmetryMultiplier(a, 'worksheet'), `A ${a}`).toBe(multiplier)
    }
  })

  test('differ from the formula in three cells, and full precision keeps to the formula there', () => {
    expect(horizontalMultiplier('us', 22, 'full')).toBeCloseTo(0.454_545, 6)
    expect(horizontalMultiplier('us', 23, 'full')).toBeCloseTo(0.434_783, 6)
    expect(travelMultiplier('metric', 130, 'full')).toBeCloseTo(0.854_615, 6)
  })

  test('have one cell for each grip and height of the hands (Table 7, p. 18; second-hand)', () => {
    const cells: readonly (readonly [Grip, low: number, high: number])[] = [
      ['good', 1, 1],
      ['fair', 0.95, 1],
      ['poor', 0.9, 0.9],
    ]
    for (const [grip, low, high] of cells) {
      expect(couplingMultiplier('us', grip, 29.9)).toBe(low)
      expect(couplingMultiplier('us', grip, 30)).toBe(high)
      expect(couplingMultiplier('metric', grip, 74.9)).toBe(low)
      expect(couplingMultiplier('metric', grip, 75)).toBe(high)
    }
  })

  /** Table 5, p. 15; second-hand. Columns: short, moderate, long, each with low and high hands. */
  const frequency = `
    0.2 1.00 1.00 .95 .95 .85 .85
    0.5  .97  .97 .92 .92 .81 .81
    1    .94  .94 .88 .88 .75 .75
    2    .91  .91 .84 .84 .65 .65
    3    .88  .88 .79 .79 .55 .55
    4    .84  .84 .72 .72 .45 .45
    5    .80  .80 .60 .60 .35 .35
    6    .75  .75 .50 .50 .27 .27
    7    .70  .70 .42 .42 .22 .22
    8    .60  .60 .35 .35 .18 .18
    9    .52  .52 .30 .30 .00 .15
    10   .45  .45 .26 .26 .00 .13
    11   .41  .41 .00 .23 .00 .00
    12   .37  .37 .00 .21 .00 .00
    13   .00  .34 .00 .00 .00 .00
    14   .00  .31 .00 .00 .00 .00
    15   .00  .28 .00 .00 .00 .00
    15.1 .00  .00 .00 .00 .00 .00`
  const columns: readonly (readonly [DurationClass, verticalInches: number])[] = [
    ['short', 29.9],
    ['short', 30],
    ['moderate', 29.9],
    ['moderate', 30],
    ['long', 29.9],
    ['long', 30],
  ]

  test('give the frequency multiplier row by row', () => {
    for (const line of frequency.trim().split('\n')) {
      const [liftsPerMinute, ...cells] = line.trim().split(/\s+/).map(Number)
      columns.forEach(([duration, vertical], column) => {
        for (const rounding of ['worksheet', 'full'] as const) {
          const multiplier = frequencyMultiplier('us', liftsPerMinute!, duration, vertical, rounding)
          expect(multiplier, `F ${liftsPerMinute}, ${duration}, V ${vertical}`).toBe(cells[column])
        }
      })
    }
    expect(FREQUENCY_TABLE).toHaveLength(17)
  })

  test('are read on a straight line between two rows (p. 7, and example 7 with F = 2.4, pp. 56-57; second-hand)', () => {
    expect(frequencyMultiplier('us', 2.4, 'short', 40, 'full')).toBeCloseTo(0.898, 9)
    expect(frequencyMultiplier('us', 2.4, 'short', 40, 'worksheet')).toBe(0.9)
    expect(frequencyMultiplier('metric', 0.35, 'long', 10, 'full')).toBeCloseTo(0.83, 9)
    // Towards a row of zeros the manual is silent; a straight line is this project's reading.
    expect(frequencyMultiplier('us', 8.5, 'long', 10, 'full')).toBeCloseTo(0.09, 9)
  })

  test('count a lift less often than once in five minutes as 0.2 a minute (p. 15; second-hand)', () => {
    expect(frequencyMultiplier('us', 0, 'long', 10, 'full')).toBe(0.85)
    expect(frequencyMultiplier('us', 0.1, 'moderate', 40, 'full')).toBe(0.95)
  })
})

interface Example {
  readonly id: string
  readonly lift: Lift
  /** RWL and LI as published, origin first. */
  readonly published: { readonly limits: readonly number[]; readonly indices: readonly number[] }
  /** The same before the last rounding, and at full precision; computed with an independent program. */
  readonly worksheetLimits: readonly number[]
  readonly fullLimits: readonly number[]
  readonly status: string
}

const care = (position: HandPosition): Lift['destination'] => ({ placedWithCare: true, hands: position })
const letGoAt = (vertical: number): Lift['destination'] => ({ placedWithCare: false, vertical })

describe('the worked examples of the manual', () => {
  const examples: readonly Example[] = [
    {
      id: 'C-1, example 1: loading punch press stock',
      lift: {
        units: 'us',
        load: 44,
        origin: hands(23, 15, 0),
        destination: care(hands(23, 64, 0)),
        liftsPerMinute: 0.1,
        duration: 'short',
        grip: 'fair',
      },
      published: { limits: [16.3, 14.5], indices: [2.7, 3] },
      worksheetLimits: [16.32, 14.47],
      fullLimits: [16.02, 14.15],
      status: 'inputs and results from memory',
    },
    {
      id: 'C-2, example 1 with the reel close and let go at the top',
      lift: {
        units: 'us',
        load: 44,
        origin: hands(10, 15, 0),
        destination: letGoAt(64),
        liftsPerMinute: 0.1,
        duration: 'short',
        grip: 'fair',
      },
      published: { limits: [37.1], indices: [1.2] },
      worksheetLimits: [37.08],
      fullLimits: [36.84],
      status: 'from memory',
    },
    {
      id: 'C-3, example 2: loading supply rolls',
      lift: {
        units: 'us',
        load: 35,
        origin: hands(15, 27, 0),
        destination: care(hands(20, 10, 0)),
        liftsPerMinute: 0.1,
        duration: 'short',
        grip: 'poor',
      },
      published: { limits: [28, 18.1], indices: [1.3, 1.9] },
      worksheetLimits: [28.03, 18.14],
      fullLimits: [27.69, 18.06],
      status: 'from memory',
    },
    {
      id: 'C-4, example 4: package inspection',
      lift: {
        units: 'us',
        load: 26,
        origin: hands(10, 22, 0),
        destination: care(hands(20, 59, 0)),
        liftsPerMinute: 3,
        duration: 'short',
        grip: 'fair',
      },
      published: { limits: [34.9, 15.2], indices: [0.7, 1.7] },
      worksheetLimits: [34.87, 15.23],
      fullLimits: [34.81, 15.25],
      status: 'read at second hand (figure 14, p. 46); the lifting indices from memory',
    },
    {
      id: 'C-5, example 6: product packaging I',
      lift: {
        units: 'us',
        load: 25,
        origin: hands(14, 24, 90),
        destination: letGoAt(40),
        liftsPerMinute: 1,
        duration: 'long',
        grip: 'fair',
      },
      published: { limits: [16.4], indices: [1.5] },
      worksheetLimits: [16.35],
      fullLimits: [16.46],
      status: 'from memory, the least sure of these',
    },
  ]

  test.each(examples)(
    '$id, come out as published when worked by worksheet ($status)',
    ({ lift, published }) => {
      const { origin, destination } = assessLift(lift, 'worksheet')
      const ends = destination ? [origin, destination] : [origin]
      expect(ends.map((end) => end.recommendedWeightLimit)).toEqual(published.limits)
      expect(ends.map((end) => end.liftingIndex)).toEqual(published.indices)
    },
  )

  test.each(examples)('$id, rest on the multipliers of the worksheet', ({ lift, worksheetLimits }) => {
    const { origin, destination } = assessLift(lift, 'worksheet')
    const ends = destination ? [origin, destination] : [origin]
    const limits = ends.map(({ multipliers }) =>
      Object.values(multipliers).reduce<number>((product, multiplier) => product * multiplier, 51),
    )
    limits.forEach((limit, end) => {
      expect(limit).toBeCloseTo(worksheetLimits[end]!, 2)
    })
  })

  test.each(examples)('$id, differ only in the last digits at full precision', ({ lift, fullLimits }) => {
    const { origin, destination } = assessLift(lift, 'full')
    const ends = destination ? [origin, destination] : [origin]
    ends.forEach((end, position) => {
      expect(end.recommendedWeightLimit).toBeCloseTo(fullLimits[position]!, 2)
      expect(end.liftingIndex).toBeCloseTo(lift.load / fullLimits[position]!, 2)
    })
  })

  test('show example 4 multiplier by multiplier (figure 14, p. 46; second-hand)', () => {
    const { origin, destination } = assessLift(examples[3]!.lift, 'worksheet')
    expect(origin.multipliers).toEqual({
      horizontal: 1,
      vertical: 0.94,
      travel: 0.87,
      asymmetry: 1,
      frequency: 0.88,
      coupling: 0.95,
    })
    expect(destination?.multipliers.coupling).toBe(1)
  })

  test('let the end with the lower limit decide (pp. 21, 26; second-hand)', () => {
    const inspected = assessLift(examples[3]!.lift, 'worksheet')
    expect(inspected.hardestEnd).toBe('destination')
    expect(inspected.recommendedWeightLimit).toBe(15.2)
    expect(inspected.liftingIndex).toBe(1.7)
    expect(assessLift(examples[4]!.lift, 'worksheet')).toMatchObject({
      hardestEnd: 'origin',
      destination: null,
    })
  })

  test('take the frequency from the hands at the origin, the grip from those at the end judged (pp. 15, 46)', () => {
    const lift: Lift = { ...examples[3]!.lift, liftsPerMinute: 9, duration: 'long' }
    const { origin, destination } = assessLift(lift, 'full')
    expect(origin.multipliers.frequency).toBe(0) // V = 22 in
    expect(destination?.multipliers.frequency).toBe(0) // V = 59 in would give .15
    expect(destination?.multipliers.coupling).toBe(1)
  })
})

/** Computed from the equation (US constants, full precision), not published. */
describe('the lifts of a hall', () => {
  test.each([
    {
      id: 'C-9, a stack of 4 chairs of 6 kg from the floor to a trolley: more than twice the limit',
      lift: {
        load: 52.9,
        origin: hands(16, 20, 0),
        destination: letGoAt(26),
        liftsPerMinute: 1,
        grip: 'poor',
      },
      limit: 24.9,
      index: 2.12,
    },
    {
      id: 'C-10, one chair of 6 kg off a trolley at waist height: well inside it',
      lift: {
        load: 13.2,
        origin: hands(15, 36, 45),
        destination: letGoAt(30),
        liftsPerMinute: 3,
        grip: 'fair',
      },
      limit: 24.5,
      index: 0.54,
    },
    {
      id: 'C-11, an 8-ft table of 60 lb by one person: nearly twice the limit',
      lift: {
        load: 60,
        origin: hands(12, 15, 0),
        destination: letGoAt(30),
        liftsPerMinute: 0.5,
        grip: 'fair',
      },
      limit: 32.7,
      index: 1.84,
    },
  ] as const)('$id', ({ lift, limit, index }) => {
    const assessed = assessLift({ units: 'us', duration: 'short', ...lift }, 'full')
    expect(assessed.recommendedWeightLimit).toBeCloseTo(limit, 1)
    expect(assessed.liftingIndex).toBeCloseTo(index, 2)
  })

  test('come to nearly the same in metres and kilograms, though the constants are no exact conversions', () => {
    const us = assessLift(
      {
        units: 'us',
        load: 52.9,
        origin: hands(16, 20, 0),
        destination: letGoAt(36),
        liftsPerMinute: 1,
        duration: 'short',
        grip: 'poor',
      },
      'full',
    )
    const metric = assessLift(
      {
        units: 'metric',
        load: 24,
        origin: hands(40.64, 50.8, 0),
        destination: letGoAt(91.44),
        liftsPerMinute: 1,
        duration: 'short',
        grip: 'poor',
      },
      'full',
    )
    expect(metric.recommendedWeightLimit / 0.453_592).toBeCloseTo(us.recommendedWeightLimit, 0)
    expect(Math.abs(metric.liftingIndex! / us.liftingIndex! - 1)).toBeLessThan(0.03)
  })
})

describe('the lifting equation', () => {
  const sensibleLift = fc.record({
    units: fc.constantFrom<LiftingUnits>('us', 'metric'),
    load: fc.double({ min: 0, max: 100, noNaN: true }),
    origin: fc.record({
      horizontal: fc.double({ min: 0, max: 70, noNaN: true }),
      vertical: fc.double({ min: 0, max: 180, noNaN: true }),
      asymmetryDegrees: fc.double({ min: 0, max: 180, noNaN: true }),
    }),
    destination: fc.oneof(
      fc.record({
        placedWithCare: fc.constant(false as const),
        vertical: fc.double({ min: 0, max: 180, noNaN: true }),
      }),
      fc.record({
        placedWithCare: fc.constant(true as const),
        hands: fc.record({
          horizontal: fc.double({ min: 0, max: 70, noNaN: true }),
          vertical: fc.double({ min: 0, max: 180, noNaN: true }),
          asymmetryDegrees: fc.double({ min: 0, max: 180, noNaN: true }),
        }),
      }),
    ),
    liftsPerMinute: fc.double({ min: 0, max: 20, noNaN: true }),
    duration: fc.constantFrom<DurationClass>('short', 'moderate', 'long'),
    grip: fc.constantFrom<Grip>('good', 'fair', 'poor'),
  })

  test('never recommends more than its load constant, and gives no index where it recommends nothing', () => {
    fc.assert(
      fc.property(sensibleLift, fc.constantFrom('full' as const, 'worksheet' as const), (lift, rounding) => {
        const assessed = assessLift(lift, rounding)
        expect(assessed.recommendedWeightLimit).toBeGreaterThanOrEqual(0)
        expect(assessed.recommendedWeightLimit).toBeLessThanOrEqual(
          LIFTING_CONSTANTS[lift.units].loadConstant,
        )
        expect(assessed.liftingIndex === null).toBe(assessed.recommendedWeightLimit === 0)
      }),
      { seed: 20261125, numRuns: 500 },
    )
  })

  test('never recommends more for a lift that is farther out, farther round, more often or for longer', () => {
    const harder: Record<DurationClass, DurationClass> = { short: 'moderate', moderate: 'long', long: 'long' }
    fc.assert(
      fc.property(sensibleLift, fc.double({ min: 0, max: 30, noNaN: true }), (lift, more) => {
        const { origin, liftsPerMinute, duration } = lift
        const limit = assessLift(lift, 'full').origin.recommendedWeightLimit
        const further: readonly Lift[] = [
          { ...lift, origin: { ...origin, horizontal: origin.horizontal + more } },
          { ...lift, origin: { ...origin, asymmetryDegrees: Math.min(180, origin.asymmetryDegrees + more) } },
          { ...lift, liftsPerMinute: liftsPerMinute + more },
          { ...lift, duration: harder[duration] },
          { ...lift, grip: 'poor' },
        ]
        for (const other of further) {
          expect(assessLift(other, 'full').origin.recommendedWeightLimit).toBeLessThanOrEqual(limit + 1e-9)
        }
      }),
      { seed: 20261125, numRuns: 500 },
    )
  })

  test('gives the same limit at both ends when the hands end as they began', () => {
    const position = hands(40, 80, 30)
    const assessed = assessLift(
      {
        units: 'metric',
        load: 10,
        origin: position,
        destination: care(position),
        liftsPerMinute: 1,
        duration: 'short',
        grip: 'good',
      },
      'full',
    )
    expect(assessed.destination?.recommendedWeightLimit).toBe(assessed.origin.recommendedWeightLimit)
    expect(assessed.hardestEnd).toBe('origin')
  })

  test.each([
    ['load', { load: -1 }, 'load must be a number, 0 or more, not -1'],
    ['load', { load: Number.NaN }, 'load must be a number, 0 or more, not NaN'],
    ['H', { origin: hands(-1, 0, 0) }, 'origin.horizontal must be a number, 0 or more, not -1'],
    ['V', { origin: hands(30, Number.NaN, 0) }, 'origin.vertical must be a number, 0 or more, not NaN'],
    ['A', { origin: hands(30, 0, 181) }, 'origin.asymmetryDegrees must be a number, from 0 to 180, not 181'],
    ['V', { destination: letGoAt(-5) }, 'destination.vertical must be a number, 0 or more, not -5'],
    [
      'H',
      { destination: care(hands(Number.POSITIVE_INFINITY, 0, 0)) },
      'destination.horizontal must be a number, 0 or more, not Infinity',
    ],
    ['F', { liftsPerMinute: Number.NaN }, 'liftsPerMinute must be a number, 0 or more, not NaN'],
  ] as const)('refuses an impossible %s by its name', (_, wrong, message) => {
    const lift: Lift = {
      units: 'metric',
      load: 10,
      origin: hands(30, 50, 0),
      destination: letGoAt(80),
      liftsPerMinute: 1,
      duration: 'short',
      grip: 'fair',
      ...wrong,
    }
    expect(() => assessLift(lift, 'full')).toThrow(new RangeError(message))
  })

  test('says what it does not apply to: among it the chair carried across the hall (pp. 5-6; second-hand)', () => {
    expect(OUTSIDE_THE_EQUATION.map(({ key }) => key)).toEqual([
      'one-hand',
      'over-eight-hours',
      'seated-or-kneeling',
      'cramped',
      'unstable',
      'while-moving',
      'barrow-or-shovel',
      'fast',
      'slippery',
      'climate',
      'carried',
    ])
  })
})

describe('the distance of the hands, guessed from the width of a box', () => {
  /** Section 1.3.1.1, p. 8; second-hand. */
  test.each([
    ['metric', 40, 25, 40],
    ['metric', 40, 24.9, 45],
    ['us', 16, 10, 16],
    ['us', 16, 9.9, 18],
    ['us', 0, 0, 10],
  ] as const)('%s, %d wide with the hands at %d: %d', (units, width, vertical, horizontal) => {
    expect(horizontalFromBoxWidth(units, width, vertical)).toBe(horizontal)
  })

  test('refuses a width below nothing', () => {
    expect(() => horizontalFromBoxWidth('us', -1, 0)).toThrow(RangeError)
  })
})

describe('lifting in bursts', () => {
  test('C-6: 10 lifts a minute for 8 of 15 minutes count as 5.33 a minute (p. 16; second-hand)', () => {
    expect(burstFrequency(10, minutes(8))).toBeCloseTo(5.33, 2)
  })

  test('10 lifts a minute for 5 of 15 minutes count as 3.33; the manual prints 3.4 (p. 16; second-hand)', () => {
    expect(burstFrequency(10, minutes(5))).toBeCloseTo(3.33, 2)
  })

  test('counts at its own rate when it lasts a quarter of an hour, or is faster than 15 a minute', () => {
    expect(burstFrequency(4, minutes(20))).toBe(4)
    expect(burstFrequency(16, minutes(1))).toBe(16)
    expect(burstFrequency(0, 0)).toBe(0)
  })
})

/** Section 1.3.5.2, pp. 13-14; second-hand. */
describe('the duration of a day of lifting', () => {
  test('C-7: 30 min, 10 min of light work and 45 min more are moderate, 75 min together (p. 14)', () => {
    const day = (recoveryMinutes: number) =>
      durationClass([
        { liftingSeconds: minutes(30), recoverySeconds: minutes(recoveryMinutes) },
        { liftingSeconds: minutes(45), recoverySeconds: null },
      ])
    expect(day(10)).toBe('moderate')
    expect(day(29)).toBe('moderate')
    expect(day(30)).toBe('short') // the same page: with 30 min between them the short class applies
  })

  test('C-8: two hours of lifting want 36 min of recovery to stay moderate (p. 14)', () => {
    expect(recoveryWantedSeconds(minutes(120))).toBe(minutes(36))
    const day = (recoveryMinutes: number) =>
      durationClass([
        { liftingSeconds: minutes(120), recoverySeconds: minutes(recoveryMinutes) },
        { liftingSeconds: minutes(10), recoverySeconds: null },
      ])
    expect(day(36)).toBe('moderate')
    expect(day(35)).toBe('long')
  })

  test('is short up to an hour, moderate up to two, long up to eight, and beyond that the equation is silent', () => {
    const day = (liftingMinutes: number) =>
      durationClass([{ liftingSeconds: minutes(liftingMinutes), recoverySeconds: null }])
    expect([60, 61, 120, 121, 480, 481].map(day)).toEqual([
      'short',
      'moderate',
      'moderate',
      'long',
      'long',
      null,
    ])
    expect(durationClass([])).toBeNull()
  })

  test('asks of the first hour as long a recovery as the work (1.0, the first print had 1.2)', () => {
    expect(recoveryWantedSeconds(minutes(60))).toBe(minutes(60))
    expect(recoveryWantedSeconds(minutes(121))).toBeNull()
  })

  test('has the class of its hardest stretch, and a short last recovery counts against it', () => {
    expect(
      durationClass([
        { liftingSeconds: minutes(90), recoverySeconds: minutes(60) },
        { liftingSeconds: minutes(10), recoverySeconds: null },
      ]),
    ).toBe('moderate')
    expect(durationClass([{ liftingSeconds: minutes(30), recoverySeconds: minutes(10) }])).toBe('moderate')
    expect(durationClass([{ liftingSeconds: minutes(30), recoverySeconds: minutes(5) }])).toBe('long')
  })

  test('refuses a session without lifting and a recovery below nothing', () => {
    expect(() => durationClass([{ liftingSeconds: 0, recoverySeconds: null }])).toThrow(
      new RangeError('liftingSeconds must be a number above 0, not 0'),
    )
    expect(() => durationClass([{ liftingSeconds: 60, recoverySeconds: -1 }])).toThrow(
      new RangeError('recoverySeconds must be a number, 0 or more, not -1'),
    )
  })
})

describe('a lifting index', () => {
  /** Section 1.4.3, p. 20; second-hand. */
  test.each([
    [0.5, 'design-goal'],
    [1, 'design-goal'],
    [1.01, 'higher-risk-for-some'],
    [3, 'higher-risk-for-some'],
    [3.01, 'higher-risk-for-nearly-everybody'],
    [null, 'higher-risk-for-nearly-everybody'],
  ] as const)('of %s reads %s', (index, level) => {
    expect(liftingIndexReading(index).level).toBe(level)
  })

  test('below nothing is refused', () => {
    expect(() => liftingIndexReading(-1)).toThrow(RangeError)
  })
})
