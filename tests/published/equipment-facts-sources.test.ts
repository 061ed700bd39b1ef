/** Every figure says where it comes from, and whether anybody read it there. */
import { describe, expect, test } from 'vitest'
import * as equipmentFacts from '../../src/scheduler/standards/equipment-facts/index.ts'
import * as lifting from '../../src/scheduler/standards/lifting/index.ts'
import * as workMeasurement from '../../src/scheduler/standards/work-measurement/index.ts'

/** Ends in a status, or is common practice as a whole; what rests on several sources says which part is which. */
const SAYS_ITS_STATUS =
  /(; (read|second-hand|from memory)( \(.+\))?$)|common practice, no source|is from memory/

function sourcesIn(value: unknown): string[] {
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inner]) =>
    key === 'source' || key.endsWith('_SOURCE') ? [String(inner)] : sourcesIn(inner),
  )
}

describe.each([
  ['lifting', lifting, 20],
  ['work measurement', workMeasurement, 60],
  ['equipment', equipmentFacts, 25],
])('the figures on %s', (_, figures, sourcesLeast) => {
  const sources = sourcesIn(figures)

  test('say for each row whether it was read, is second-hand, from memory or common practice', () => {
    expect(sources.filter((source) => !SAYS_ITS_STATUS.test(source))).toEqual([])
    expect(sources.length).toBeGreaterThanOrEqual(sourcesLeast)
  })
})

describe('a span', () => {
  test('never ends before it begins', () => {
    const spans = [
      equipmentFacts.METAL_HALIDE_SPANS,
      equipmentFacts.PROJECTOR_SPANS,
      equipmentFacts.ROOM_AIR_SPANS,
      equipmentFacts.SOUND_SPANS,
      workMeasurement.DRYING_RANGES,
    ].flatMap((table): { leastSeconds: number; mostSeconds: number }[] => Object.values(table))
    expect(spans.length).toBeGreaterThan(25)
    expect(spans.filter(({ leastSeconds, mostSeconds }) => leastSeconds > mostSeconds)).toEqual([])
  })
})
