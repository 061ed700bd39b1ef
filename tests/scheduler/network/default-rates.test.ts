import { describe, expect, test } from 'vitest'
import { RatePath, Rates } from '../../../src/domain/rate-set.ts'
import {
  DEFAULT_RATE_SOURCES,
  DEFAULT_RATES,
  defaultRateSource,
  ratePaths,
} from '../../../src/scheduler/network/index.ts'

const paths = ratePaths(DEFAULT_RATES)

describe('the default rates', () => {
  test('are valid rates', () => {
    expect(Rates.parse(DEFAULT_RATES)).toEqual(DEFAULT_RATES)
  })

  test('have each a name that is a path', () => {
    expect(new Set(paths).size).toBe(paths.length)
    for (const path of paths) expect(RatePath.parse(path)).toBe(path)
    expect(paths).toContain('fromTrolley.stacking-chair.setPersonSeconds')
    expect(paths).toContain('walkthroughModes.0.seconds')
    expect(paths).toContain('walkingMetresPerSecond')
  })

  test('have each a source, and there is no source for anything else', () => {
    expect(Object.keys(DEFAULT_RATE_SOURCES).sort()).toEqual([...paths].sort())
    for (const path of paths) expect(defaultRateSource(path)!.length).toBeGreaterThan(3)
    expect(defaultRateSource('byHand.sofa.setPersonSeconds')).toBeNull()
  })

  test('say which figures were published, which are from memory and which nobody has published', () => {
    expect(defaultRateSource('cleaningPersonSecondsPerSquareMetre.wet-mop')).toMatch(/ISSA 540/)
    expect(defaultRateSource('walkingMetresPerSecond')).toMatch(/MTM-1.*from memory/)
    expect(defaultRateSource('fromTrolley.round-table.setPersonSeconds')).toMatch(
      /no source: 60 to 120, the middle/,
    )
    expect(defaultRateSource('byHand.stacking-chair.strikePersonSeconds')).toMatch(/BasicMOST/)
  })

  test('of handling lie in the ranges of the trade', () => {
    const { fromTrolley, alignPersonSecondsPerChair } = DEFAULT_RATES
    expect(fromTrolley['place-setting']).toEqual({ setPersonSeconds: 30, strikePersonSeconds: 22.5 })
    expect(fromTrolley['stage-rail']).toEqual({ setPersonSeconds: 180, strikePersonSeconds: 135 })
    expect(fromTrolley['dance-floor-panel']).toEqual({ setPersonSeconds: 45, strikePersonSeconds: 30 })
    expect(alignPersonSecondsPerChair).toBe(1.5)
  })
})
