import { describe, expect, test } from 'vitest'
import type { EquipmentSetting } from '../../../src/domain/equipment.ts'
import { Equipment } from '../../../src/domain/equipment.ts'
import type { Task, TaskNetwork } from '../../../src/domain/task.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import type { NetworkInput } from '../../../src/scheduler/network/network-input.ts'
import {
  aLayout,
  aTurn,
  banquet,
  chair,
  foldingWall,
  games,
  houseLights,
  inState,
  pieces,
  screen,
  soundSystem,
  videoFeed,
} from './a-network-input.ts'
import { keyed, mustPrecede, ofKind } from './a-network-question.ts'

const level = (levelPercent: number): EquipmentSetting => ({ kind: 'level', levelPercent })
const off: EquipmentSetting = { kind: 'off' }
const named = (state: string): EquipmentSetting => ({ kind: 'state', state })

/** Games to 60 chairs in rows; one device goes from one setting to another. */
function turnWith(
  equipment: Equipment,
  from: EquipmentSetting,
  to: EquipmentSetting,
  overrides: Partial<NetworkInput> = {},
): TaskNetwork {
  const rows = aLayout('worship', {
    furnishings: [pieces(chair, 60)],
    equipment: [{ equipmentId: equipment.id, setting: to }],
  })
  return taskNetwork(aTurn(games, rows, { equipmentFrom: [{ equipment, setting: from }], ...overrides }))
}

const isWorkInRoom = ({ kind }: Task) =>
  ['strike', 'park', 'clean', 'dry', 'mark-out', 'set', 'linen-on', 'settings', 'bins'].includes(kind)

const workBefore = (network: TaskNetwork, key: string) => {
  const earlier = mustPrecede(network, key)
  return network.tasks.filter((task) => isWorkInRoom(task) && earlier.has(task.key)).length
}
const allWork = ({ tasks }: TaskNetwork) => tasks.filter(isWorkInRoom).length

const expectLate = (network: TaskNetwork) => {
  expect(allWork(network)).toBeGreaterThan(0)
  for (const task of ofKind(network, 'switch')) {
    expect([task.key, workBefore(network, task.key)]).toEqual([task.key, allWork(network)])
  }
}
const expectEarly = (network: TaskNetwork) => {
  expect(ofKind(network, 'switch').length).toBeGreaterThan(0)
  for (const task of ofKind(network, 'switch')) {
    expect([task.key, workBefore(network, task.key)]).toEqual([task.key, 0])
  }
}

const stageLights: Equipment = Equipment.parse({
  ...houseLights,
  id: 'equipment_stage-lights',
  name: 'Stage lights',
  kind: 'lighting',
  control: { ...houseLights.control, homeSetting: { kind: 'off' } },
})
const workLights: Equipment = Equipment.parse({
  ...soundSystem,
  id: 'equipment_work-lights',
  name: 'Work lights',
  kind: 'lighting',
  readinessCheck: null,
  warmUpSeconds: 0,
  control: { ...soundSystem.control, homeState: 'on' },
})

describe('light to work by', () => {
  test('is dimmed only when everything in the room is cleaned and set', () => {
    expectLate(turnWith(houseLights, level(100), level(40)))
    expectLate(turnWith(houseLights, level(80), off))
    expectLate(turnWith(workLights, named('on'), named('off')))
  })

  test('is dimmed to where it belongs only then, too', () => {
    const dimAtHome = Equipment.parse({
      ...houseLights,
      control: { ...houseLights.control, homeSetting: { kind: 'level', levelPercent: 30 } },
    })
    expectLate(turnWith(dimAtHome, level(100), level(30)))
  })

  test('is raised before anybody works', () => {
    expectEarly(turnWith(houseLights, level(40), level(100)))
    expectEarly(turnWith(houseLights, off, level(30)))
  })

  test('is not what stage lights give: off is their home, and they go off at once', () => {
    expectEarly(turnWith(stageLights, level(80), off))
  })
})

describe('a device that glows or hums', () => {
  test('comes on when everything is set, warms up and is tried out then', () => {
    const network = turnWith(soundSystem, named('off'), named('on'))
    expectLate(network)
    const order = ['switch/equipment_sound/off/on', 'warm-up/equipment_sound', 'sound-check/equipment_sound']
    const keys = network.tasks.map((task) => task.key)
    expect(keys.filter((key) => order.includes(key))).toEqual(order)
    expect(keyed(network, 'sign-off').after).toEqual(['sound-check/equipment_sound'])
    expectLate(turnWith(videoFeed, named('off'), named('live')))
    expectLate(turnWith(screen, named('up'), named('down')))
  })

  test('goes off before anybody works', () => {
    expectEarly(turnWith(soundSystem, named('on'), named('off')))
    expectEarly(turnWith(videoFeed, named('live'), named('off')))
    expectEarly(turnWith(screen, named('down'), named('up')))
  })

  test('that has to be switched off on its way goes off first, and comes on last', () => {
    const relay = Equipment.parse({
      ...videoFeed,
      control: {
        ...videoFeed.control,
        states: ['off', 'slides', 'relay'],
        transitions: [
          { from: 'slides', to: 'off', seconds: 60, hands: 1, skill: null, needsFloorClear: false },
          { from: 'off', to: 'relay', seconds: 60, hands: 1, skill: null, needsFloorClear: false },
        ],
      },
    })
    const network = turnWith(relay, named('slides'), named('relay'))
    expect(workBefore(network, 'switch/equipment_video-feed/slides/off')).toBe(0)
    const on = 'switch/equipment_video-feed/off/relay'
    expect(workBefore(network, on)).toBe(allWork(network))
    expect(mustPrecede(network, on)).toContain('switch/equipment_video-feed/slides/off')
  })

  test('is tried out when everything is set, if it was on before', () => {
    const network = turnWith(soundSystem, named('on'), named('on'))
    expect(workBefore(network, 'sound-check/equipment_sound')).toBe(allWork(network))
  })

  test('starts early where it takes long to warm up, and is tried out when everything is set', () => {
    const network = turnWith(
      Equipment.parse({ ...soundSystem, warmUpSeconds: 1200 }),
      named('off'),
      named('on'),
    )
    expectEarly(network)
    expect(workBefore(network, 'warm-up/equipment_sound')).toBe(0)
    const check = 'sound-check/equipment_sound'
    expect(workBefore(network, check)).toBe(allWork(network))
    expect(mustPrecede(network, check)).toContain('warm-up/equipment_sound')
  })
})

describe('heating', () => {
  const heater = (hands: number) =>
    Equipment.parse({
      ...soundSystem,
      id: 'equipment_heater',
      name: 'Heater',
      kind: 'heating-or-cooling',
      warmUpSeconds: 0,
      readinessCheck: null,
      control: {
        ...soundSystem.control,
        transitions: [{ from: 'off', to: 'on', seconds: 2400, hands, skill: null, needsFloorClear: false }],
      },
    })
  test('that runs by itself starts while people work', () => {
    expectEarly(turnWith(heater(0), named('off'), named('on')))
    expectLate(turnWith(heater(1), named('off'), named('on')))
  })
})

describe('a movable wall', () => {
  const withFood = { outgoing: { kind: 'games' as const, foodServed: true, floorWet: false, headcount: 120 } }
  const network = turnWith(foldingWall, named('stacked'), named('closed'), withFood)
  const wall = 'switch/equipment_folding-wall/stacked/closed'

  test('moves over a floor that is clear and dry: it is cleaned, marked out and set after that', () => {
    const after = network.tasks.filter(({ kind }) => ['clean', 'dry', 'mark-out', 'set'].includes(kind))
    expect(new Set(after.map(({ kind }) => kind)).size).toBe(4)
    for (const { key } of after) expect(mustPrecede(network, key)).toContain(wall)
  })

  test('waits for everything to be struck and for whoever carries the bins out', () => {
    const before = mustPrecede(network, wall)
    const gone = network.tasks.filter(({ kind }) => ['strike', 'park', 'bins'].includes(kind))
    expect(gone.map(({ kind }) => kind)).toContain('bins')
    for (const { key } of gone) expect(before).toContain(key)
  })

  test('does not wait for the furniture, even where it does not say that it needs the floor clear', () => {
    const careless = Equipment.parse({
      ...foldingWall,
      control: {
        ...foldingWall.control,
        transitions: [
          { from: 'stacked', to: 'closed', seconds: 60, hands: 2, skill: null, needsFloorClear: false },
        ],
      },
    })
    expectEarly(turnWith(careless, named('stacked'), named('closed')))
  })
})

describe('airing', () => {
  const fans = Equipment.parse({
    ...soundSystem,
    id: 'equipment_fans',
    name: 'Roof fans',
    kind: 'ventilation',
    warmUpSeconds: 600,
    readinessCheck: null,
    control: {
      ...soundSystem.control,
      transitions: [
        { from: 'off', to: 'on', seconds: 30, hands: 0, skill: null, needsFloorClear: false },
        { from: 'on', to: 'off', seconds: 30, hands: 0, skill: null, needsFloorClear: false },
      ],
    },
  })
  const fullHouse = {
    outgoing: { kind: 'games' as const, foodServed: false, floorWet: false, headcount: 200 },
  }

  test('after a full house is left to the ventilation, which nobody has to stay with', () => {
    const network = turnWith(fans, named('off'), named('on'), fullHouse)
    expectEarly(network)
    expect(keyed(network, 'warm-up/equipment_fans')).toMatchObject({
      text: 'Air the room: leave Roof fans on, about 10 min. Nobody has to stay.',
      modes: [{ hands: 0, seconds: 600 }],
      workPersonSeconds: 0,
      after: ['switch/equipment_fans/off/on'],
    })
    expect(keyed(network, 'sign-off').after).toContain('warm-up/equipment_fans')
  })

  test('goes on where the ventilation is on already, also where the very layout stays', () => {
    const network = turnWith(fans, named('on'), named('on'), fullHouse)
    expect(keyed(network, 'warm-up/equipment_fans').after).toEqual(['walkthrough'])
    const stays = turnWith(fans, named('on'), named('on'), { ...fullHouse, sameLayout: true })
    expect(ofKind(stays, 'warm-up')).toHaveLength(1)
  })

  test('is not needed where nobody was, or where the layout leaves the ventilation off', () => {
    expect(ofKind(turnWith(fans, named('on'), named('on')), 'warm-up')).toEqual([])
    const home = taskNetwork(aTurn(games, banquet, { equipmentFrom: [inState(fans, 'on')], ...fullHouse }))
    expect(ofKind(home, 'switch')).toHaveLength(1)
    expect(ofKind(home, 'warm-up')).toEqual([])
  })
})
