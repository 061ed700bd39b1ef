/** Light, picture, sound and air: what sources say they can do, and how long they take. Each test names its source. */
import { describe, expect, test } from 'vitest'
import {
  airOutSeconds,
  candelasPerSquareMetre,
  DARK_ROOM_FOOT_LAMBERTS,
  DMX_FULL_UNIVERSE,
  dmxRefreshHertz,
  dmxRefreshMicroseconds,
  dmxSignalIsLost,
  EGRESS_LIGHT,
  EMERGENCY_LIGHT_LEAST,
  EMERGENCY_LIGHT_RATIO_MOST,
  farthestViewerMetres,
  hotRestrikeProblem,
  LOWEST_LEVELS,
  leastScreenFootLamberts,
  luxFromFootCandles,
  METAL_HALIDE_SPANS,
  nearestViewerMetres,
  PROJECTOR_SPANS,
  perceivedPercent,
  RESTRIKE_PLAN_SECONDS,
  ROOM_AIR_SPANS,
  SOUND_SPANS,
  type SourcedSpan,
  screenFootLamberts,
} from '../../src/scheduler/standards/equipment-facts/index.ts'

const minutes = (count: number): number => count * 60
const inMinutes = ({ leastSeconds, mostSeconds }: SourcedSpan) => [leastSeconds / 60, mostSeconds / 60]

describe('metal halide lamps', () => {
  test('need 2 to 5 min from cold to full light; sources go up to 10', () => {
    expect(inMinutes(METAL_HALIDE_SPANS.coldStartToFull)).toEqual([2, 5]) // liquisearch.com; second-hand
    expect(inMinutes(METAL_HALIDE_SPANS.coldStartToFullPlanningProgram)).toEqual([2, 10]) // a lighting program; read
    expect(inMinutes(METAL_HALIDE_SPANS.coldStartToFullMaker)).toEqual([2, 6]) // a maker; read
  })

  test('strike again only after 5 to 20 min when switched off hot, so 20 are planned', () => {
    expect(inMinutes(METAL_HALIDE_SPANS.hotRestrike)).toEqual([5, 10]) // liquisearch.com; second-hand
    expect(inMinutes(METAL_HALIDE_SPANS.hotRestrikeMaker)).toEqual([5, 15]) // californialightworks.com; read
    expect(inMinutes(METAL_HALIDE_SPANS.hotRestrikeLongest)).toEqual([15, 20]) // rayzeek.com; read
    const longest = Math.max(...Object.values(METAL_HALIDE_SPANS).map(({ mostSeconds }) => mostSeconds))
    expect(RESTRIKE_PLAN_SECONDS).toBe(minutes(20))
    expect(RESTRIKE_PLAN_SECONDS).toBe(longest)
  })

  test('must not be switched off and on again within 20 min (common practice, no source)', () => {
    expect(hotRestrikeProblem(minutes(5))).toEqual({
      offSeconds: 300,
      restrikeSeconds: 1200,
      darkSeconds: 900,
      text: 'Off for 5 min, but hot lamps may need 20 min before they light again. Leave them on.',
    })
    expect(hotRestrikeProblem(minutes(20) - 1)?.darkSeconds).toBe(1)
    expect(hotRestrikeProblem(minutes(20))).toBeNull()
  })

  test('may stay on, may be quicker where the site has timed them, and may restrike at once with special igniters', () => {
    expect(hotRestrikeProblem(0)).toBeNull()
    expect(hotRestrikeProblem(minutes(9), minutes(8))).toBeNull()
    expect(hotRestrikeProblem(minutes(7), minutes(8))?.darkSeconds).toBe(60)
    expect(hotRestrikeProblem(1, 0)).toBeNull()
  })

  test('are not asked about a time below nothing', () => {
    expect(() => hotRestrikeProblem(-1)).toThrow(
      new RangeError('offSeconds must be a number, 0 or more, not -1'),
    )
    expect(() => hotRestrikeProblem(60, Number.NaN)).toThrow(RangeError)
  })
})

describe('a dimmer', () => {
  test('holds no less than 10 % with an ordinary driver, 1 to 5 % with a better one (makers; read)', () => {
    expect(LOWEST_LEVELS.ordinaryDriver).toMatchObject({ leastPercent: 10, mostPercent: 10 })
    expect(LOWEST_LEVELS.deepDimmingDriver).toMatchObject({ leastPercent: 1, mostPercent: 5 })
  })

  test('at 10 % looks like 32 % (square-root rule from memory; a maker says less)', () => {
    expect(perceivedPercent(10)).toBeCloseTo(31.6, 1)
    expect([perceivedPercent(0), perceivedPercent(100)]).toEqual([0, 100])
    expect(() => perceivedPercent(101)).toThrow(
      new RangeError('levelPercent must be a number, from 0 to 100, not 101'),
    )
  })
})

/** ANSI E1.11-2008 as given by isquint.net and a fixture maker; second-hand. Result: manuals of DMX testers; read. */
describe('DMX512-A', () => {
  test('sends a full universe in 22,668 µs: 88 + 8 + 513 × 44', () => {
    expect(dmxRefreshMicroseconds(DMX_FULL_UNIVERSE)).toBe(22_668)
  })

  test('so refreshes it 44.1 times a second', () => {
    expect(dmxRefreshHertz(DMX_FULL_UNIVERSE)).toBeCloseTo(44.1, 1)
  })

  test('counts as lost below once a second', () => {
    expect(dmxSignalIsLost(0.99)).toBe(true)
    expect(dmxSignalIsLost(1)).toBe(false)
    expect(dmxSignalIsLost(dmxRefreshHertz(DMX_FULL_UNIVERSE))).toBe(false)
  })

  test.each([
    [{ slots: 513 }, 'slots must be a number, from 0 to 512, not 513'],
    [{ breakMicroseconds: 87 }, 'breakMicroseconds must be a number, 88 or more, not 87'],
    [{ markMicroseconds: 7 }, 'markMicroseconds must be a number, 8 or more, not 7'],
  ])('has no frame with %o', (wrong, message) => {
    expect(() => dmxRefreshMicroseconds({ ...DMX_FULL_UNIVERSE, ...wrong })).toThrow(new RangeError(message))
  })
})

describe('a projector', () => {
  test('with a lamp warms up in 1 to 2 min and cools down in 1 to 3 (common practice, no source)', () => {
    expect(inMinutes(PROJECTOR_SPANS.lampWarmUp)).toEqual([1, 2])
    expect(inMinutes(PROJECTOR_SPANS.lampCoolDown)).toEqual([1, 3])
  })

  test('may refuse a restart for 2 min and a stop in its first (hallesservice.com, on rear-projection sets; read)', () => {
    expect(PROJECTOR_SPANS.lampRestartRefused.mostSeconds).toBe(minutes(2))
    expect(PROJECTOR_SPANS.lampStopRefused.mostSeconds).toBe(minutes(1))
  })

  test('with a laser shows a picture within 5 to 30 s and need not cool down (common practice, no source)', () => {
    expect(PROJECTOR_SPANS.solidStateWarmUp).toMatchObject({ leastSeconds: 5, mostSeconds: 30 })
    expect(PROJECTOR_SPANS.solidStateCoolDown.mostSeconds).toBe(0)
  })
})

/** experiencingworship.com, video projection formulas, 2003; read. The gain of a screen is from memory. */
describe('the picture', () => {
  test('F-1: 1,000 lumens on 6 × 8 ft give 20.8 (read)', () => {
    expect(screenFootLamberts(1000, 1, 6 * 8)).toBeCloseTo(20.83, 2)
  })

  test('is twice as bright on a screen of gain 2, and a foot-lambert is 3.426 cd/m² (from memory)', () => {
    expect(screenFootLamberts(1000, 2, 48)).toBeCloseTo(2 * screenFootLamberts(1000, 1, 48), 9)
    expect(candelasPerSquareMetre(screenFootLamberts(1000, 1, 48))).toBeCloseTo(71.4, 1)
  })

  test('wants 18 ± 2 in the dark and 5 times the light that is in the room (read)', () => {
    expect(DARK_ROOM_FOOT_LAMBERTS).toMatchObject({ least: 16, best: 18, most: 20 })
    expect(leastScreenFootLamberts(0)).toBe(16)
    expect(leastScreenFootLamberts(2)).toBe(16)
    expect(leastScreenFootLamberts(10)).toBe(50)
  })

  test('has no brightness on a screen without area or gain', () => {
    expect(() => screenFootLamberts(1000, 1, 0)).toThrow(
      new RangeError('areaSquareFeet must be a number above 0, not 0'),
    )
    expect(() => screenFootLamberts(1000, 0, 48)).toThrow(RangeError)
    expect(() => leastScreenFootLamberts(-1)).toThrow(RangeError)
  })

  test('2 m high is seen from 8 m for detail, 12 m for reading, 16 m for video (AV trade rule; from memory)', () => {
    expect(farthestViewerMetres(2, 'detail')).toBe(8)
    expect(farthestViewerMetres(2, 'reading')).toBe(12)
    expect(farthestViewerMetres(2, 'video')).toBe(16)
  })

  test('2 m high is watched from no nearer than 4 m (read)', () => {
    expect(nearestViewerMetres(2)).toBe(4)
    expect(() => nearestViewerMetres(-2)).toThrow(RangeError)
  })
})

describe('light on the way out', () => {
  test('is 1 foot-candle while occupied, about 11 lux (US Fire Administration 2007-11; read)', () => {
    expect(EGRESS_LIGHT.occupied.leastFootCandles).toBe(1)
    expect(luxFromFootCandles(EGRESS_LIGHT.occupied.leastFootCandles)).toBeCloseTo(10.8, 1)
  })

  test('may fall to 0.2 during a performance, 2.2 lux, and is 10 on new stairs in use, 108 lux (same; read)', () => {
    expect(luxFromFootCandles(EGRESS_LIGHT.performance.leastFootCandles)).toBeCloseTo(2.2, 1)
    expect(luxFromFootCandles(EGRESS_LIGHT.newStairsInUse.leastFootCandles)).toBeCloseTo(107.6, 1)
  })

  test('in an emergency starts at 1 on average and falls to 0.6, nowhere under a tenth of that (NYC 1008.3.5; read)', () => {
    expect(EGRESS_LIGHT.emergencyStartAverage.leastFootCandles).toBe(1)
    expect(EGRESS_LIGHT.emergencyStartAnyPoint.leastFootCandles).toBe(0.1)
    expect(EGRESS_LIGHT.emergencyEndAverage.leastFootCandles).toBe(0.6)
    expect(EGRESS_LIGHT.emergencyEndAnyPoint.leastFootCandles).toBe(0.06)
    expect(EMERGENCY_LIGHT_RATIO_MOST.ratio).toBe(40)
  })

  test('in an emergency lasts 90 min (a consultant on means of egress; second-hand)', () => {
    expect(EMERGENCY_LIGHT_LEAST.seconds).toBe(minutes(90))
  })
})

describe('before the doors open', () => {
  test('a small team needs 15 to 20 min of sound check, a full band 30 to 60 (anhonestsound.com, 2016; read)', () => {
    expect(inMinutes(SOUND_SPANS.soundCheckSmallTeam)).toEqual([15, 20])
    expect(inMinutes(SOUND_SPANS.soundCheckFullBand)).toEqual([30, 60])
  })

  test('a line check takes 5 to 15 min, fresh batteries and a scan 5 to 10 (common practice, no source)', () => {
    expect(inMinutes(SOUND_SPANS.lineCheck)).toEqual([5, 15])
    expect(inMinutes(SOUND_SPANS.wirelessMicrophones)).toEqual([5, 10])
  })

  test('a hall warms up in 30 to 120 min (practice), about an hour without reserve (eng-tips.com; read)', () => {
    expect(inMinutes(ROOM_AIR_SPANS.heatOrCoolFromSetback)).toEqual([30, 120])
    expect(inMinutes(ROOM_AIR_SPANS.heatWithoutReserve)).toEqual([60, 60])
  })

  test('three air changes take 20 to 60 min at 9 to 3 changes an hour (common practice, no source)', () => {
    expect([airOutSeconds(9), airOutSeconds(3)].map((seconds) => seconds / 60)).toEqual(
      inMinutes(ROOM_AIR_SPANS.airOut),
    )
    expect(airOutSeconds(6, 0)).toBe(0)
    expect(() => airOutSeconds(0)).toThrow(
      new RangeError('airChangesPerHour must be a number above 0, not 0'),
    )
  })
})
