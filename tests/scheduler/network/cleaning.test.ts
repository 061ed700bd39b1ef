import { describe, expect, test } from 'vitest'
import type { FloorKind } from '../../../src/domain/section.ts'
import { cleaningJobs } from '../../../src/scheduler/network/cleaning-methods.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import type { OutgoingUse } from '../../../src/scheduler/network/network-input.ts'
import {
  aLayout,
  aNetworkInput,
  aPolicy,
  aTurn,
  banquet,
  chair,
  hall,
  pieces,
  stageDeck,
  worship,
} from './a-network-input.ts'

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

  test('is a wet mop alone on a wet floor: nothing dry goes over it', () => {
    expect(methods(['dust-mop', 'spot-mop'], use({ floorWet: true }))).toEqual(['wet-mop'])
    expect(methods(['sweep', 'wet-mop'], use({ floorWet: true }))).toEqual(['wet-mop'])
    expect(methods([], use({ floorWet: true }))).toEqual(['wet-mop'])
  })

  test('is sweeping first on a wet floor after food: what lies about is picked up before the mop', () => {
    expect(methods(['dust-mop'], use({ floorWet: true, foodServed: true }))).toEqual(['sweep', 'wet-mop'])
  })

  test('is what the policy says before its own wet mop, as the floor is dry then', () => {
    expect(methods(['dust-mop', 'wet-mop'], use({ foodServed: true }))).toEqual(['dust-mop', 'wet-mop'])
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

describe('the text of cleaning', () => {
  const texts = (input: Parameters<typeof taskNetwork>[0]) =>
    taskNetwork(input)
      .tasks.filter((task) => task.kind === 'clean')
      .map(({ text }) => text)
  const isAround = (text: string) => text.includes('around what stands')

  test('says to go around what stands where most of it stays', () => {
    const closer = aLayout('worship', { furnishings: [pieces(chair, 150), pieces(stageDeck, 6)] })
    const kept = texts(aTurn(worship, closer, { sameLayout: false }))
    expect(kept.length).toBe(3)
    expect(kept.every(isAround)).toBe(true)
  })

  test('does not where most of it goes, or nothing stood', () => {
    expect(texts(aTurn(banquet, worship)).some(isAround)).toBe(false)
    const bare = aLayout('other')
    expect(texts(aTurn(bare, bare)).some(isAround)).toBe(false)
  })

  test('says it zone by zone', () => {
    const at = (xMetres: number, index: number) => ({
      furnishingId: chair.id,
      xMetres,
      yMetres: index + 1,
      rotationDegrees: 0,
    })
    // Of 18 m: two stay in the first third, two go out of the last.
    const from = aLayout('meeting', {
      id: aLayout('other').id,
      furnishings: [pieces(chair, 4)],
      placements: [at(1, 0), at(1, 1), at(17, 0), at(17, 1)],
    })
    const to = aLayout('meeting', { furnishings: [pieces(chair, 2)], placements: [at(1, 0), at(1, 1)] })
    const around = texts(
      aTurn(from, to, {
        room: { ...hall, floor: { kind: 'rectangle', widthMetres: 18, depthMetres: 12 } },
        placementsFrom: from.placements,
      }),
    ).map(isAround)
    expect(around).toEqual([true, false, false])
  })
})
