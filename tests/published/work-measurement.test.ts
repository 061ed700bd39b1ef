/** Predetermined times, allowances, learning and cleaning times against worked examples; each says what it rests on. */
import { describe, expect, test } from 'vitest'
import {
  ACTION_DISTANCES,
  actionIndexForMetres,
  actionIndexForSteps,
  BODY_MOTIONS,
  CLEANING_RANGES,
  cleaningMinutes,
  GAIN_CONTROL,
  generalMoveIndex,
  HANDLING_RANGES,
  indexSeconds,
  LEARNING_RATE_RANGE,
  learntSeconds,
  MTM_FIGURES,
  MTM_MOVE_WEIGHTS,
  MTM_PACES,
  mtmWalkingMetresPerSecond,
  mtmWalkTmu,
  normalSeconds,
  PLACEMENTS,
  secondsFromTmu,
  standardSeconds,
  tmuFromSeconds,
} from '../../src/scheduler/standards/work-measurement/index.ts'

describe('the time measurement unit', () => {
  test('is 0.036 s, so that 100,000 of them are an hour and 27.8 a second (MTM-1 data card 2019; read)', () => {
    expect(secondsFromTmu(1)).toBe(0.036)
    expect(secondsFromTmu(100_000)).toBeCloseTo(3600, 9)
    expect(tmuFromSeconds(1)).toBeCloseTo(27.8, 1)
    expect(() => secondsFromTmu(Number.NaN)).toThrow(
      new RangeError('tmu must be a number, 0 or more, not NaN'),
    )
  })
})

describe('MTM-1', () => {
  test('walks at 1.60 m/s with nothing in the way and 1.41 obstructed or loaded (from memory)', () => {
    const { metres } = MTM_PACES.unloaded
    expect(mtmWalkingMetresPerSecond(metres, MTM_FIGURES.paceFree.tmu)).toBeCloseTo(1.6, 2)
    expect(mtmWalkingMetresPerSecond(metres, MTM_FIGURES.paceObstructedOrLoaded.tmu)).toBeCloseTo(1.41, 2)
  })

  test('D-4: fetching a chair from 6 m away is 7 paces out and 7 back, 8.1 s of walking (computed)', () => {
    const { metres } = MTM_PACES.unloaded
    expect(mtmWalkTmu(6, metres, MTM_FIGURES.paceFree.tmu)).toBe(105)
    expect(mtmWalkTmu(6, metres, MTM_FIGURES.paceObstructedOrLoaded.tmu)).toBe(119)
    expect(secondsFromTmu(105 + 119)).toBeCloseTo(8.1, 1)
    expect(mtmWalkTmu(0, metres, 15)).toBe(0)
  })

  test('turns the body in 18.6 or 37.2 TMU, side-steps in 17.0 or 34.1 (data card 2019; read)', () => {
    expect(MTM_FIGURES.turnBodyLeadFoot.tmu).toBe(18.6)
    expect(MTM_FIGURES.turnBodyBothFeet.tmu).toBe(2 * MTM_FIGURES.turnBodyLeadFoot.tmu)
    expect([MTM_FIGURES.sideStepLeadFoot.tmu, MTM_FIGURES.sideStepBothFeet.tmu]).toEqual([17, 34.1])
    expect(MTM_FIGURES.sideStepBothFeetPerExtraCentimetre.tmu).toBe(
      2 * MTM_FIGURES.sideStepLeadFootPerExtraCentimetre.tmu,
    )
  })

  test('bends in 29.0 and rises in 31.9 TMU, kneels in 69.4 and rises in 76.7 (from memory)', () => {
    expect([MTM_FIGURES.bend.tmu, MTM_FIGURES.riseFromBend.tmu]).toEqual([29, 31.9])
    expect([MTM_FIGURES.kneelOnBothKnees.tmu, MTM_FIGURES.riseFromBothKnees.tmu]).toEqual([69.4, 76.7])
    expect([MTM_FIGURES.sit.tmu, MTM_FIGURES.stand.tmu]).toEqual([34.7, 43.4])
  })

  test('reaches farther in more time, and moves to an exact place more slowly than to a rough one (tables; read)', () => {
    expect([
      MTM_FIGURES.reach12InchesSingleObject.tmu,
      MTM_FIGURES.reach20InchesSingleObject.tmu,
      MTM_FIGURES.reach30InchesSingleObject.tmu,
    ]).toEqual([12.9, 18.6, 25.8])
    expect([MTM_FIGURES.move30InchesRoughPlace.tmu, MTM_FIGURES.move30InchesExactPlace.tmu]).toEqual([
      24.3, 30.7,
    ])
  })

  test('adds for the weight in the hand: × 1.11 + 3.9, × 1.22 + 7.4, × 1.50 + 16.0 TMU (tables; read)', () => {
    const rough = MTM_FIGURES.move30InchesRoughPlace.tmu
    const moved = MTM_MOVE_WEIGHTS.map(({ poundsMost, factor, constantTmu }) => [
      poundsMost,
      rough * factor + constantTmu,
    ])
    expect(moved.map(([pounds]) => pounds)).toEqual([12.5, 22.5, 47.5])
    expect(moved.map(([, tmu]) => Math.round(tmu! * 100) / 100)).toEqual([30.87, 37.05, 52.45])
  })

  test('refuses a pace of no time', () => {
    expect(() => mtmWalkingMetresPerSecond(0.8, 0)).toThrow(
      new RangeError('tmuPerPace must be a number above 0, not 0'),
    )
  })
})

/** Zandin, MOST Work Measurement Systems; every index value from memory. */
describe('BasicMOST', () => {
  test.each([
    [
      'D-1: walk 4 steps to a case on the floor, pick it up, put it on a table',
      'A6 B6 G1 A1 B0 P1 A0',
      15,
      5.4,
    ],
    ['D-2: fetch one stacked chair from 6 m away and set it in line', 'A16 B0 G3 A16 B3 P3 A0', 41, 14.8],
    ['D-3: the same with the trolley pushed along the row', 'A3 B0 G3 A3 B3 P3 A0', 15, 5.4],
  ])('%s (from memory)', (_, sequence, index, seconds) => {
    expect(generalMoveIndex(sequence)).toBe(index)
    expect(indexSeconds(index)).toBeCloseTo(seconds, 1)
  })

  test('D-3 against D-2: pushing the trolley along is worth a factor of 2.7 (computed)', () => {
    const factor = generalMoveIndex('A16 B0 G3 A16 B3 P3 A0') / generalMoveIndex('A3 B0 G3 A3 B3 P3 A0')
    expect(factor).toBeCloseTo(2.7, 1)
  })

  test('gives 6 m, 8 steps of 0.75 m, the index that D-2 has', () => {
    expect(actionIndexForSteps(8)).toBe(16)
    expect(actionIndexForMetres(6)).toBe(16)
  })

  test.each([
    [0.5, 3],
    [2, 3],
    [4, 6],
    [7, 10],
    [10, 16],
    [15, 24],
    [16, 32],
    [90, 152],
    [91, null],
  ])('puts %d steps under index %s', (steps, index) => {
    expect(actionIndexForSteps(steps)).toBe(index)
  })

  test.each([
    [7.5, 16],
    [7.6, 24],
    [12, 24],
    [15, 32],
    [20, 42],
    [25, 54],
    [30, 67],
    [38, 81],
    [44, 96],
    [51, 113],
    [59, 131],
    [69, 152],
    [69.1, null],
  ])('puts a walk of %d m under index %s', (metres, index) => {
    expect(actionIndexForMetres(metres)).toBe(index)
  })

  test('has longer ways under higher indices, and known indices only in the other tables', () => {
    const rising = (values: readonly number[]) => values.toSorted((a, b) => a - b)
    const indices = ACTION_DISTANCES.map(({ index }) => index)
    const steps = ACTION_DISTANCES.map(({ stepsMost }) => stepsMost)
    expect(indices).toEqual(rising(indices))
    expect(steps).toEqual(rising(steps))
    expect(BODY_MOTIONS.map(({ index }) => index)).toEqual([0, 3, 6, 10, 16])
    expect(GAIN_CONTROL.map(({ index }) => index)).toEqual([0, 1, 3])
    expect(PLACEMENTS.map(({ index }) => index)).toEqual([0, 1, 3, 6])
  })

  test('refuses a sequence that is none, and names the part', () => {
    expect(() => generalMoveIndex('A6 B6 G1')).toThrow(
      new RangeError('a general move has the parts A B G A B P A, not A6 B6 G1'),
    )
    expect(() => generalMoveIndex('A6 B6 G2 A1 B0 P1 A0')).toThrow(
      new RangeError('part 3 must be G with an index of its table, not G2'),
    )
    expect(() => actionIndexForMetres(0)).toThrow(RangeError)
    expect(() => indexSeconds(-1)).toThrow(RangeError)
  })
})

describe('from observed to planned time', () => {
  test('normal time is observed time × rating (Konz, Rest Allowances; second-hand)', () => {
    expect(normalSeconds(20, 0.9)).toBe(18)
    expect(() => normalSeconds(20, 0)).toThrow(RangeError)
  })

  test('D-5: the chair of D-2 with 15 % for personal needs, fatigue and delay takes 17.0 s (computed)', () => {
    const work = indexSeconds(generalMoveIndex('A16 B0 G3 A16 B3 P3 A0'))
    expect(work).toBeCloseTo(14.76, 2)
    expect(standardSeconds(work, { share: 0.15, of: 'work' })).toBeCloseTo(17, 1)
  })

  test('a share of the shift asks for more than the same share of the work (course text of June 2016; read)', () => {
    expect(standardSeconds(100, { share: 0.2, of: 'work' })).toBeCloseTo(120, 9)
    expect(standardSeconds(100, { share: 0.2, of: 'shift' })).toBeCloseTo(125, 9)
    // 24 min of personal needs in a shift of 480 are 5 %: 456 min of work fill the shift.
    expect(standardSeconds(456 * 60, { share: 24 / 480, of: 'shift' })).toBeCloseTo(480 * 60, 6)
  })

  test('a shift that is all allowance is refused', () => {
    expect(() => standardSeconds(100, { share: 1, of: 'shift' })).toThrow(RangeError)
    expect(() => standardSeconds(100, { share: -0.1, of: 'work' })).toThrow(
      new RangeError('allowance.share must be a number, 0 or more, not -0.1'),
    )
  })
})

describe('the learning curve', () => {
  test('D-6: at a rate of 0.80, 100 s become 80, 64, 51.2 and 40.96 at the 2nd, 4th, 8th and 16th time (computed)', () => {
    const times = [1, 2, 4, 8, 16].map((repetition) => learntSeconds(100, repetition, 0.8))
    expect(times.map((seconds) => Math.round(seconds * 100) / 100)).toEqual([100, 80, 64, 51.2, 40.96])
  })

  test('stays level at a rate of 1, and knows no rate above it nor a zeroth time', () => {
    expect(learntSeconds(100, 50, 1)).toBe(100)
    expect(() => learntSeconds(100, 2, 1.2)).toThrow(RangeError)
    expect(() => learntSeconds(100, 2, 0)).toThrow(RangeError)
    expect(() => learntSeconds(100, 0, 0.8)).toThrow(
      new RangeError('repetition must be a number, 1 or more, not 0'),
    )
    expect([LEARNING_RATE_RANGE.least, LEARNING_RATE_RANGE.most]).toEqual([0.8, 0.9])
  })
})

describe('cleaning times', () => {
  const minutesFor = (squareFeet: number, work: keyof typeof CLEANING_RANGES) =>
    cleaningMinutes(squareFeet, CLEANING_RANGES[work].mostMinutesPer1000SquareFeet)

  test('D-7: a shop of 20,000 ft² takes 0.8 h to dust, 4.8 h to wet-mop, 2.2 h to buff, 7.8 h in all (ISSA 540; second-hand)', () => {
    const hours = (['dustMop48Inches', 'wetMop16Ounces', 'buff20Inches'] as const).map(
      (work) => minutesFor(20_000, work) / 60,
    )
    expect(hours.map((value) => Math.round(value * 10) / 10)).toEqual([0.8, 4.8, 2.2])
    expect(hours.reduce((sum, value) => sum + value, 0)).toBeCloseTo(7.8, 1)
  })

  test('D-8: a hall of 2,400 ft² takes 5.8 min to dust, 34.6 to wet-mop, 15.6 to scrub by machine (computed)', () => {
    expect(minutesFor(2400, 'dustMop48Inches')).toBeCloseTo(5.8, 1)
    expect(minutesFor(2400, 'wetMop16Ounces')).toBeCloseTo(34.6, 1)
    expect(minutesFor(2400, 'autoScrub20Inches')).toBeCloseTo(15.6, 1)
    expect(minutesFor(0, 'wetMop16Ounces')).toBe(0)
  })

  test('of a backpack on hard floor are those of 10,000 and 7,000 ft² an hour (a maker; second-hand)', () => {
    const { leastMinutesPer1000SquareFeet, mostMinutesPer1000SquareFeet } =
      CLEANING_RANGES.vacuumBackpackHardFloor
    expect(leastMinutesPer1000SquareFeet).toBeCloseTo(60 / 10, 1)
    expect(mostMinutesPer1000SquareFeet).toBeCloseTo(60 / 7, 1)
  })
})

describe('setting a stage deck', () => {
  test('80 decks of 4 × 8 ft set by 4 people in 1 to 2 hours are 180 to 360 s of work each (exhibitions.co.uk, 2010; read)', () => {
    const decks = (40 * 64) / (4 * 8)
    const each = (hours: number) => (4 * hours * 3600) / decks
    expect(decks).toBe(80)
    expect(HANDLING_RANGES.stageDeckPublished.set).toEqual({ least: each(1), most: each(2) })
    expect(HANDLING_RANGES.stageDeck.set).toEqual(HANDLING_RANGES.stageDeckPublished.set)
  })
})
