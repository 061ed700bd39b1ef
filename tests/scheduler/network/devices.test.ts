import { describe, expect, test } from 'vitest'
import { Equipment } from '../../../src/domain/equipment.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import {
  aLayout,
  aPolicy,
  aTurn,
  chair,
  foldingWall,
  games,
  inState,
  pieces,
  screen,
  soundSystem,
} from './a-network-input.ts'
import { keyed, mustPrecede, ofKind } from './a-network-question.ts'

const wants = (equipment: Equipment, state: string) => ({
  equipmentId: equipment.id,
  setting: { kind: 'state' as const, state },
})
const loud = aLayout('worship', {
  furnishings: [pieces(chair, 60)],
  equipment: [wants(soundSystem, 'on')],
})

describe('a device that comes on', () => {
  const network = taskNetwork(aTurn(games, loud, { equipmentFrom: [inState(soundSystem, 'off')] }))

  test('warms up by itself after its last step, then is tried out', () => {
    expect(keyed(network, 'warm-up/equipment_sound')).toMatchObject({
      kind: 'warm-up',
      modes: [{ hands: 0, seconds: 60 }],
      after: ['switch/equipment_sound/off/on'],
      workPersonSeconds: 0,
    })
    expect(keyed(network, 'sound-check/equipment_sound')).toMatchObject({
      kind: 'sound-check',
      modes: [{ hands: 1, seconds: 900 }],
      skill: 'sound',
      after: ['warm-up/equipment_sound'],
    })
  })

  test('is ready when it is warm, and checked when it was tried', () => {
    expect(network.milestones).toContainEqual({
      milestone: 'devices-ready',
      taskKeys: ['warm-up/equipment_sound'],
    })
    expect(network.milestones).toContainEqual({
      milestone: 'sound-checked',
      taskKeys: ['sound-check/equipment_sound'],
    })
  })
})

describe('a device that was on before', () => {
  test('is warm, and is tried out for the next use', () => {
    const network = taskNetwork(aTurn(games, loud, { equipmentFrom: [inState(soundSystem, 'on')] }))
    expect(ofKind(network, 'warm-up')).toEqual([])
    expect(mustPrecede(network, 'sound-check/equipment_sound')).toContain('set/align-rows/zone-1')
  })

  test('is left alone where the very layout stays', () => {
    const network = taskNetwork(aTurn(loud, loud, { equipmentFrom: [inState(soundSystem, 'on')] }))
    expect([...new Set(network.tasks.map((task) => task.kind))]).toEqual(['walkthrough', 'clean', 'sign-off'])
  })

  test('is neither warmed up nor tried out when it goes home', () => {
    const network = taskNetwork(aTurn(loud, games, { equipmentFrom: [inState(soundSystem, 'on')] }))
    expect(ofKind(network, 'switch')).toHaveLength(1)
    expect([...ofKind(network, 'warm-up'), ...ofKind(network, 'sound-check')]).toEqual([])
  })
})

describe('a step that needs a movable wall open', () => {
  const lowered = Equipment.parse({
    ...screen,
    id: 'equipment_a-screen',
    name: 'Wide screen',
    control: {
      ...screen.control,
      transitions: [
        {
          from: 'up',
          to: 'down',
          seconds: 40,
          hands: 1,
          skill: null,
          needsFloorClear: false,
          needsWallOpen: true,
        },
      ],
    },
  })
  test('waits for the walls of the room', () => {
    const wide = aLayout('overflow', {
      furnishings: [pieces(chair, 60)],
      equipment: [wants(lowered, 'down'), wants(foldingWall, 'stacked')],
    })
    const network = taskNetwork(
      aTurn(games, wide, { equipmentFrom: [inState(lowered, 'up'), inState(foldingWall, 'closed')] }),
    )
    const step = 'switch/equipment_a-screen/up/down'
    expect(mustPrecede(network, step)).toContain('switch/equipment_folding-wall/closed/stacked')
    expect(keyed(network, step).text).toMatch(/The movable wall comes first/)
  })
})

describe('a skill that no minor may have', () => {
  test('makes a task one for adults', () => {
    const network = taskNetwork(
      aTurn(games, loud, {
        equipmentFrom: [inState(soundSystem, 'off')],
        policy: aPolicy({ adultOnlySkills: ['sound'] }),
      }),
    )
    expect(keyed(network, 'sound-check/equipment_sound').adultsOnly).toBe(true)
    expect(keyed(network, 'switch/equipment_sound/off/on').adultsOnly).toBe(true)
    const others = taskNetwork(aTurn(games, loud, { equipmentFrom: [inState(soundSystem, 'off')] }))
    expect(keyed(others, 'sound-check/equipment_sound').adultsOnly).toBe(false)
  })
})
