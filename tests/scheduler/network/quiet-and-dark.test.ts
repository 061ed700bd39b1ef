import { describe, expect, test } from 'vitest'
import type { Equipment } from '../../../src/domain/equipment.ts'
import { Equipment as EquipmentSchema } from '../../../src/domain/equipment.ts'
import { RoomId } from '../../../src/domain/ids.ts'
import type { NetworkInput } from '../../../src/scheduler/network/index.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import {
  aLayout,
  aTurn,
  banquet,
  chair,
  games,
  inState,
  pieces,
  screen,
  soundSystem,
} from './a-network-input.ts'
import { keyed, ofKind } from './a-network-question.ts'

const chapel = RoomId.parse('room_chapel')
const rows = aLayout('worship', {
  furnishings: [pieces(chair, 80)],
  equipment: [{ equipmentId: soundSystem.id, setting: { kind: 'state', state: 'on' } }],
})
const withSound = (overrides: Partial<NetworkInput> = {}) =>
  taskNetwork(aTurn(games, rows, { equipmentFrom: [inState(soundSystem, 'off')], ...overrides }))

const quietUse = (amount: number, room = 'room_hall') => ({ resource: `quiet:${room}`, amount })

describe('quiet', () => {
  test('is taken whole by a sound check, and in part by everything that makes noise', () => {
    const network = withSound()
    expect(keyed(network, 'sound-check/equipment_sound').uses).toContainEqual(quietUse(1000))
    for (const kind of ['strike', 'park', 'clean', 'set'] as const) {
      expect(ofKind(network, kind).length).toBeGreaterThan(0)
      for (const task of ofKind(network, kind)) expect(task.uses).toContainEqual(quietUse(1))
    }
    expect(network.resources).toContainEqual({
      key: 'quiet:room_hall',
      label: 'Quiet in Garden Hall',
      capacity: 1000,
    })
  })

  test('is not taken by talking, tape on the floor, or what changes by itself', () => {
    const network = withSound()
    for (const key of ['briefing', 'walkthrough', 'mark-out/zone-1', 'warm-up/equipment_sound', 'sign-off']) {
      expect(keyed(network, key).uses).toEqual([])
    }
  })

  test('is nobody’s business where nothing needs it and no other room hears this one', () => {
    const network = taskNetwork(aTurn(games, banquet))
    expect(
      network.tasks.flatMap((task) => task.uses).some(({ resource }) => /quiet|dark/.test(resource)),
    ).toBe(false)
  })

  test('of a room that hears this one is broken by noise here, and by a sound check here', () => {
    const network = withSound({ acousticallyJoinedRoomIds: [chapel] })
    expect(keyed(network, `set/${chair.id}/zone-1/1`).uses).toContainEqual(quietUse(1, chapel))
    expect(keyed(network, 'sound-check/equipment_sound').uses).toContainEqual(quietUse(1, chapel))
    expect(keyed(network, 'sound-check/equipment_sound').uses).toContainEqual(quietUse(1000))
  })

  test('of such a room counts also where nothing needs quiet here', () => {
    const network = taskNetwork(aTurn(games, banquet, { acousticallyJoinedRoomIds: [chapel] }))
    const uses = keyed(network, 'clean/dust-mop/zone-1/1').uses
    expect(uses).toEqual([quietUse(1, chapel)])
  })
})

describe('dark', () => {
  const focused: Equipment = EquipmentSchema.parse({
    ...screen,
    id: 'equipment_stage-lights',
    name: 'Stage lights',
    kind: 'lighting',
    readinessCheck: { what: 'focus', seconds: 600, hands: 2, needsDark: true },
  })
  const lit = aLayout('worship', {
    furnishings: [pieces(chair, 80)],
    equipment: [{ equipmentId: focused.id, setting: { kind: 'state', state: 'down' } }],
  })
  const network = taskNetwork(aTurn(games, lit, { equipmentFrom: [inState(focused, 'up')] }))

  test('is taken whole by focusing, and in part by whoever needs light to work', () => {
    expect(keyed(network, 'sound-check/equipment_stage-lights').uses).toEqual([
      { resource: 'dark:room_hall', amount: 1000 },
    ])
    for (const kind of ['clean', 'mark-out', 'set'] as const) {
      for (const task of ofKind(network, kind)) {
        expect(task.uses).toContainEqual({ resource: 'dark:room_hall', amount: 1 })
      }
    }
    expect(network.resources.map(({ key }) => key)).toContain('dark:room_hall')
  })

  test('is asked for in words, and nobody walks about in it', () => {
    const task = keyed(network, 'sound-check/equipment_stage-lights')
    expect(task.text).toBe(
      'Try out Stage lights in Garden Hall: focus, about 10 min. It must be dark. For 2 people.',
    )
    expect(task.safetyNotes.join(' ')).toMatch(/nobody walks about in the dark/)
  })
})
