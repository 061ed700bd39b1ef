import { describe, expect, test } from 'vitest'
import type { FloorKind } from '../../../src/domain/section.ts'
import { cleaningJobs } from '../../../src/scheduler/network/cleaning-methods.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import type { OutgoingUse } from '../../../src/scheduler/network/network-input.ts'
import { aNetworkInput, aPolicy, aTurn, banquet, worship } from './a-network-input.ts'

const use = (overrides: Partial<OutgoingUse> = {}): OutgoingUse => ({
  kind: 'banquet',
  foodServed: false,
  floorWet: false,
  headcount: 0,
  ...overrides,
})

const cleaningAfter = (banquetMethods: ReturnType<typeof aPolicy>['cleaning']['banquet']) =>
  aPolicy({ cleaning: { ...aPolicy().cleaning, banquet: banquetMethods } })

function methods(
  usual: ReturnType<typeof aPolicy>['cleaning']['banquet'],
  outgoing: OutgoingUse | null,
  floorKinds: readonly FloorKind[] = ['vinyl'],
) {
  return cleaningJobs(aNetworkInput({ policy: cleaningAfter(usual), outgoing, floorKinds })).map(
    (job) => job.method,
  )
}

describe('cleaning after a use', () => {
  test('is what the policy says for its kind, in that order', () => {
    expect(methods(['sweep', 'spot-mop'], use())).toEqual(['sweep', 'spot-mop'])
  })

  test('is left out where nobody used the room', () => {
    expect(methods(['sweep', 'spot-mop'], null)).toEqual([])
  })

  test('is left out where the policy wants none', () => {
    expect(methods([], use())).toEqual([])
  })

  test('has a spot mop more after food, unless there is one already', () => {
    expect(methods(['dust-mop'], use({ foodServed: true }))).toEqual(['dust-mop', 'spot-mop'])
    expect(methods(['spot-mop'], use({ foodServed: true }))).toEqual(['spot-mop'])
  })

  test('has a wet mop in place of a spot mop after a wet floor', () => {
    expect(methods(['dust-mop', 'spot-mop'], use({ floorWet: true }))).toEqual(['dust-mop', 'wet-mop'])
    expect(methods([], use({ floorWet: true, foodServed: true }))).toEqual(['wet-mop'])
  })

  test('is vacuuming on carpet, whatever the policy says', () => {
    expect(methods(['dust-mop', 'spot-mop'], use({ floorWet: true }), ['carpet'])).toEqual(['vacuum'])
  })

  test('is sweeping on a hard floor where the policy says vacuum', () => {
    expect(methods(['vacuum', 'sweep'], use(), ['tile'])).toEqual(['sweep'])
  })

  test('is both on a floor of both kinds, each on its part', () => {
    const input = aNetworkInput({ outgoing: use(), floorKinds: ['carpet', 'tile', 'vinyl'] })
    const jobs = cleaningJobs(input)
    expect(jobs.map((job) => job.method)).toEqual(['vacuum', 'dust-mop'])
    expect(jobs[0]!.share).toBeCloseTo(1 / 3)
    expect(jobs[1]!.share).toBeCloseTo(2 / 3)
  })
})

describe('a mopped floor', () => {
  const soaked = { kind: 'banquet', foodServed: true, floorWet: true, headcount: 100 } as const

  test('dries by itself in every zone before anything is set there', () => {
    const { tasks } = taskNetwork(aTurn(banquet, worship, { outgoing: soaked, floorKinds: ['sealed-wood'] }))
    for (const zone of [1, 2, 3]) {
      const dry = tasks.find((task) => task.key === `dry/zone-${zone}`)!
      expect(dry.modes).toEqual([{ hands: 0, seconds: 1350 }])
      expect(dry.after.every((key) => key.startsWith(`clean/wet-mop/zone-${zone}/`))).toBe(true)
      const marks = tasks.find((task) => task.kind === 'mark-out' && task.zone === zone)!
      expect(marks.after).toEqual([dry.key])
    }
  })

  test('dries as slowly as the slowest of its kinds', () => {
    const jobs = cleaningJobs(aNetworkInput({ outgoing: soaked, floorKinds: ['vinyl', 'concrete'] }))
    expect(jobs.find((job) => job.method === 'wet-mop')!.dryingSeconds).toBe(2700)
  })

  test('has wet-floor signs until it is dry', () => {
    const { tasks } = taskNetwork(aTurn(banquet, worship, { outgoing: soaked }))
    const wet = tasks.filter((task) => task.kind === 'dry' || task.key.startsWith('clean/wet-mop'))
    expect(wet.length).toBeGreaterThan(3)
    for (const task of wet) expect(task.safetyNotes.join()).toMatch(/wet-floor signs/)
  })
})

describe('a swept floor', () => {
  test('may be walked on at once', () => {
    expect(taskNetwork(aTurn(banquet, worship)).tasks.some((task) => task.kind === 'dry')).toBe(false)
  })
})
