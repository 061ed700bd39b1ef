import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { CleaningMethod } from '../../../src/domain/cleaning-method.ts'
import type { Furnishing } from '../../../src/domain/furnishing.ts'
import { FurnishingKind, HandlingMethod } from '../../../src/domain/furnishing.ts'
import { RoomId } from '../../../src/domain/ids.ts'
import type { Placement } from '../../../src/domain/layout.ts'
import { LayoutKind } from '../../../src/domain/layout-kind.ts'
import { Passage, PassageKind } from '../../../src/domain/passage.ts'
import { Reckoning } from '../../../src/domain/reckoning.ts'
import { FloorKind } from '../../../src/domain/section.ts'
import type { Task } from '../../../src/domain/task.ts'
import { TaskNetwork } from '../../../src/domain/task.ts'
import { Tool } from '../../../src/domain/tool.ts'
import { reckonedNetwork, taskNetwork } from '../../../src/scheduler/network/index.ts'
import type { NetworkInput } from '../../../src/scheduler/network/network-input.ts'
import { zoneCount } from '../../../src/scheduler/network/zones.ts'
import {
  aFurnishing,
  aLayout,
  aNetworkInput,
  aPolicy,
  foldingWall,
  hall,
  houseLights,
  inState,
  northStore,
  pieces,
  screen,
  soundSystem,
} from './a-network-input.ts'
import { mustPrecede } from './a-network-question.ts'

const anyFurnishing = (index: number): fc.Arbitrary<Furnishing> =>
  fc
    .record({
      kind: fc.constantFrom(...FurnishingKind.options),
      method: fc.constantFrom('trolley', 'trolley', ...HandlingMethod.options),
      handsPerPiece: fc.integer({ min: 1, max: 8 }),
      massKilograms: fc.constantFrom(1, 6, 28, 60),
      countOwned: fc.integer({ min: 1, max: 500 }),
      setPersonSeconds: fc.option(fc.integer({ min: 1, max: 400 })),
      widthMetres: fc.constantFrom(null, 0.45, 1.8),
      depthMetres: fc.constantFrom(null, 0.5),
      trolley: fc.option(
        fc.record({
          capacityPieces: fc.integer({ min: 1, max: 40 }),
          countOwned: fc.integer({ min: 1, max: 5 }),
        }),
      ),
    })
    .map((overrides) => aFurnishing(`piece ${index}`, `pieces ${index}`, overrides))

const anyCount = fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 400 }))
const fourCounts = fc.tuple(anyCount, anyCount, anyCount, anyCount)

/** Pieces in a grid: two of them with the same number have their first pieces in the same places. */
const placementsOf = (furnishing: Furnishing, count: number, shiftedMetres: number): Placement[] =>
  Array.from({ length: count }, (_, index) => ({
    furnishingId: furnishing.id,
    xMetres: shiftedMetres + (index % 20),
    yMetres: Math.floor(index / 20),
    rotationDegrees: 0,
  }))

const anyPassage = (index: number): fc.Arbitrary<Passage> =>
  fc
    .record({
      kind: fc.constantFrom(...PassageKind.options),
      trolleysAtOnce: fc.integer({ min: 1, max: 3 }),
      rideSeconds: fc.constantFrom(0, 30, 300),
      loadLimitKilograms: fc.option(fc.integer({ min: 1, max: 600 })),
    })
    .map((any) =>
      Passage.parse({ id: `passage_${index}`, siteId: hall.siteId, name: `Passage ${index}`, ...any }),
    )

const named = (name: string, fromMetres: number, toMetres: number) => ({
  name,
  corners: [
    { xMetres: fromMetres, yMetres: 0 },
    { xMetres: toMetres, yMetres: 0 },
    { xMetres: toMetres, yMetres: 10 },
    { xMetres: fromMetres, yMetres: 10 },
  ],
})

const anyInput: fc.Arbitrary<NetworkInput> = fc
  .record({
    stock: fc.tuple(anyFurnishing(1), anyFurnishing(2), anyFurnishing(3), anyFurnishing(4)),
    stood: fourCounts,
    wanted: fourCounts,
    /** Of each furnishing: whether its places are known. */
    placedFrom: fc.tuple(fc.boolean(), fc.boolean(), fc.boolean(), fc.boolean()),
    placedTo: fc.tuple(fc.boolean(), fc.boolean(), fc.boolean(), fc.boolean()),
    shiftedMetres: fc.constantFrom(0, 0.3, 3, 20),
    kinds: fc.tuple(
      fc.option(fc.constantFrom(...LayoutKind.options)),
      fc.constantFrom(...LayoutKind.options),
    ),
    outgoing: fc.option(
      fc.record({
        kind: fc.constantFrom(...LayoutKind.options),
        foodServed: fc.boolean(),
        floorWet: fc.boolean(),
        headcount: fc.integer({ min: 0, max: 600 }),
      }),
    ),
    cleaning: fc.uniqueArray(fc.constantFrom(...CleaningMethod.options), { maxLength: 5 }),
    floorKinds: fc.uniqueArray(fc.constantFrom(...FloorKind.options), { minLength: 1 }),
    areaSquareMetres: fc.double({ min: 5, max: 2000, noNaN: true }),
    zones: fc.constantFrom<NetworkInput['room']['zones'][]>(
      [],
      [named('Stage side', 0, 8), named('Middle', 8, 14), named('Door side', 14, 20)],
    ),
    parking: fc.constantFrom<NetworkInput['room']['parking'][]>(
      [],
      [
        { name: 'West wall', areaSquareMetres: 2 },
        { name: 'Foyer', areaSquareMetres: 1 },
      ],
    ),
    passages: fc.tuple(anyPassage(1), anyPassage(2)),
    passagesOnWay: fc.integer({ min: 0, max: 2 }),
    depthOrder: fc.boolean(),
    toolsOwned: fc.integer({ min: 0, max: 3 }),
    joinedRooms: fc.constantFrom(0, 0, 0, 1, 2, 50),
    units: fc.constantFrom('metric' as const, 'us' as const),
    distanceMetres: fc.option(fc.double({ min: 0, max: 300, noNaN: true })),
    briefingSeconds: fc.constantFrom(0, 300),
    paceFactor: fc.double({ min: 0.2, max: 5, noNaN: true }),
    wallIs: fc.constantFrom('stacked', 'closed'),
    wallBecomes: fc.constantFrom('stacked', 'closed'),
    soundIs: fc.constantFrom('off', 'on'),
    screenIs: fc.constantFrom('up', 'down'),
    lightsPercent: fc.integer({ min: 10, max: 100 }),
    sameLayout: fc.boolean(),
  })
  .map((any) => {
    const counted = (counts: readonly number[]) =>
      any.stock.flatMap((furnishing, index) =>
        counts[index]! > 0 ? [pieces(furnishing, counts[index]!)] : [],
      )
    const placed = (counts: readonly number[], isPlaced: readonly boolean[], shiftedMetres: number) =>
      any.stock.flatMap((furnishing, index) =>
        isPlaced[index] ? placementsOf(furnishing, counts[index]!, shiftedMetres) : [],
      )
    const wanted = any.sameLayout ? any.stood : any.wanted
    return aNetworkInput({
      room: { ...hall, zones: any.zones, parking: any.parking },
      furnishings: any.stock,
      storagePlaces: [
        {
          ...northStore,
          routes:
            any.distanceMetres === null
              ? []
              : northStore.routes.map((route) => ({
                  ...route,
                  distanceMetres: any.distanceMetres!,
                  passageIds: any.passages.slice(0, any.passagesOnWay).map(({ id }) => id),
                })),
          depthOrder: any.depthOrder ? any.stock.map(({ id }) => id) : [],
        },
      ],
      passages: any.passages,
      tools: Array.from({ length: any.toolsOwned }, (_, index) =>
        Tool.parse({
          id: `tool_${index}`,
          siteId: hall.siteId,
          name: 'tool',
          namePlural: 'tools',
          countOwned: index + 1,
          cleaningMethods: ['dust-mop', 'wet-mop'],
          furnishingIds: [any.stock[index]!.id],
        }),
      ),
      acousticallyJoinedRoomIds: Array.from({ length: any.joinedRooms }, (_, index) =>
        RoomId.parse(`room_${index}`),
      ),
      units: any.units,
      areaSquareMetres: any.areaSquareMetres,
      floorKinds: any.floorKinds,
      standing: counted(any.stood),
      standingKind: any.sameLayout ? any.kinds[1] : any.kinds[0],
      placementsFrom: placed(any.stood, any.placedFrom, 0),
      toLayout: aLayout(any.kinds[1], {
        furnishings: counted(wanted),
        placements: placed(wanted, any.placedTo, any.shiftedMetres),
        equipment: [
          { equipmentId: foldingWall.id, setting: { kind: 'state', state: any.wallBecomes } },
          { equipmentId: houseLights.id, setting: { kind: 'level', levelPercent: any.lightsPercent } },
          { equipmentId: soundSystem.id, setting: { kind: 'state', state: 'on' } },
        ],
      }),
      outgoing: any.outgoing,
      equipmentFrom: [
        inState(foldingWall, any.wallIs),
        inState(screen, any.screenIs),
        inState(soundSystem, any.soundIs),
        { equipment: houseLights, setting: { kind: 'off' } },
      ],
      policy: aPolicy({
        briefingSeconds: any.briefingSeconds,
        paceFactor: any.paceFactor,
        cleaning: Object.fromEntries(LayoutKind.options.map((kind) => [kind, any.cleaning])) as ReturnType<
          typeof aPolicy
        >['cleaning'],
      }),
      sameLayout: any.sameLayout,
    })
  })

const forAnyTurn = (check: (input: NetworkInput, network: TaskNetwork) => void) =>
  fc.assert(
    fc.property(anyInput, (input) => check(input, taskNetwork(input))),
    { seed: 20261125, numRuns: 50 },
  )

/** No task is longer. */
const A_WEEK = 604_800

const isFixed = ({ kind }: Task): boolean =>
  ['briefing', 'walkthrough', 'dry', 'switch', 'warm-up', 'sound-check', 'sign-off'].includes(kind)
/** Away from the room: to the store, or to be washed. */
const isAway = ({ toPlace }: Task) => [northStore.name, 'the laundry', 'the kitchen'].includes(toPlace ?? '')
const isClearing = ({ kind }: Task) => ['bus', 'linen-off', 'strike', 'park'].includes(kind)
const isSetting = ({ kind }: Task) => ['set', 'linen-on', 'settings'].includes(kind)
const isOnClearFloor = (task: Task) => isSetting(task) || ['clean', 'dry', 'mark-out'].includes(task.kind)
const sumOf = (tasks: readonly Task[]) => tasks.reduce((sum, task) => sum + task.count!, 0)
const countIn = (list: NetworkInput['standing'], id: string) =>
  list.filter((one) => one.furnishingId === id).reduce((sum, one) => sum + one.count, 0)

describe('the tasks of any turn', () => {
  test('are a valid network, of at most 120 tasks, each with a key of its own', () => {
    forAnyTurn((_, network) => {
      expect(TaskNetwork.parse(network)).toEqual(network)
      expect(network.tasks.length).toBeLessThanOrEqual(120)
      expect(new Set(network.tasks.map((task) => task.key)).size).toBe(network.tasks.length)
    })
  })

  test('wait only for tasks that stand before them in the list, so never in a circle', () => {
    forAnyTurn((_, { tasks }) => {
      const earlier = new Set<string>()
      const faults: string[] = []
      for (const { key, after } of tasks) {
        if (!after.every((one) => earlier.has(one))) faults.push(key)
        if (new Set(after).size < after.length) faults.push(`${key}: twice`)
        earlier.add(key)
      }
      expect(faults).toEqual([])
    })
  })

  test('begin with one task and end with the sign-off, which nothing is left out of', () => {
    forAnyTurn((_, { tasks }) => {
      expect(tasks.filter((task) => task.after.length === 0)).toHaveLength(1)
      const waitedFor = new Set(tasks.flatMap((task) => task.after))
      const ends = tasks.filter((task) => !waitedFor.has(task.key))
      expect(ends.map((task) => task.key)).toEqual(['sign-off'])
    })
  })

  test('lose no piece and make none up: what stays, moves and goes is what stood, what comes too is what is wanted', () => {
    let straight = 0
    forAnyTurn((input, { tasks }) => {
      for (const { id } of input.furnishings) {
        const ofPiece = tasks.filter((task) => task.furnishingId === id && task.kind !== 'restack')
        const toStore = sumOf(ofPiece.filter((t) => isClearing(t) && isAway(t)))
        const aside = sumOf(ofPiece.filter((t) => isClearing(t) && !isAway(t)))
        const fromStore = sumOf(ofPiece.filter((t) => isSetting(t) && t.fromPlace === northStore.name))
        const isStraight = ({ key }: Task) => key.includes('/straight-')
        straight += sumOf(ofPiece.filter(isStraight))
        const fromSide = sumOf(
          ofPiece.filter((t) => isSetting(t) && t.fromPlace !== northStore.name && !isStraight(t)),
        )
        const stood = countIn(input.standing, id)
        const wanted = countIn(input.toLayout.furnishings, id)
        expect(aside).toBe(fromSide)
        const stays = stood - toStore - aside
        expect(stays).toBeGreaterThanOrEqual(0)
        expect(stays + fromSide + fromStore).toBe(wanted)
      }
    })
    expect(straight).toBeGreaterThan(0)
  })

  test('park no more than there is floor for', () => {
    forAnyTurn((input, { tasks }) => {
      const areaById = new Map<string, number>(
        input.furnishings.map(({ id, kind }) => [id, input.rates.storedAreaSquareMetres[kind]]),
      )
      const parked = tasks
        .filter((task) => isClearing(task) && task.furnishingId && !isAway(task))
        .reduce((sum, task) => sum + task.count! * areaById.get(task.furnishingId!)!, 0)
      const places = input.room.parking.reduce((sum, place) => sum + place.areaSquareMetres, 0)
      expect(parked).toBeLessThanOrEqual((places || input.areaSquareMetres / 10) + 1e-6)
    })
  })

  test('are done sooner by more hands, and cover their work with any number', () => {
    forAnyTurn((_, { tasks }) => {
      for (const task of tasks) {
        const { key, modes, workPersonSeconds } = task
        const isDivisible = !isFixed(task)
        const wrong = modes.filter(({ hands, seconds }, index) => {
          const fewer = modes[index - 1]
          const isNoSooner = fewer && (hands <= fewer.hands || seconds >= fewer.seconds)
          return isNoSooner || (isDivisible && seconds < A_WEEK && hands * seconds < workPersonSeconds)
        })
        expect({ key, wrong }).toEqual({ key, wrong: [] })
      }
    })
  })

  test('hold only what is listed, and never more than there is, with any number of hands', () => {
    forAnyTurn((_, { tasks, resources }) => {
      const capacityByKey = new Map(resources.map((resource) => [resource.key, resource.capacity]))
      const used = new Set<string>()
      const faults: string[] = []
      for (const { key, uses, modes } of tasks) {
        if (new Set(uses.map((use) => use.resource)).size < uses.length) faults.push(`${key}: twice`)
        for (const { resource, amount, perHand } of uses) {
          used.add(resource)
          const most = perHand ? amount * modes.at(-1)!.hands : amount
          if (!(most <= (capacityByKey.get(resource) ?? 0))) faults.push(`${key}: ${most} of ${resource}`)
        }
      }
      expect(faults).toEqual([])
      expect([...capacityByKey.keys()].sort()).toEqual([...used].sort())
    })
  })

  test('clean and set before sound comes on, and clean no floor before the wall has moved over it', () => {
    forAnyTurn((_, network) => {
      const inRoom = network.tasks.filter(
        (task) =>
          isClearing(task) || isSetting(task) || ['clean', 'dry', 'mark-out', 'bins'].includes(task.kind),
      )
      for (const { key, kind, equipmentId } of network.tasks) {
        const isLate = equipmentId === soundSystem.id
        const isWall = equipmentId === foldingWall.id
        if (!isLate && !isWall && kind !== 'clean') continue
        const before = mustPrecede(network, key)
        if (isLate) expect(inRoom.filter((task) => !before.has(task.key))).toEqual([])
        if (isWall) expect(inRoom.filter((task) => before.has(task.key) && isOnClearFloor(task))).toEqual([])
        if (kind === 'clean') {
          const walls = network.tasks.filter((task) => task.equipmentId === foldingWall.id)
          expect(walls.filter((task) => !before.has(task.key))).toEqual([])
        }
      }
    })
  })

  test('reach milestones by tasks that there are', () => {
    forAnyTurn((_, { tasks, milestones }) => {
      const keys = new Set(tasks.map((task) => task.key))
      expect(new Set(milestones.map(({ milestone }) => milestone)).size).toBe(milestones.length)
      for (const { taskKeys } of milestones) {
        expect(taskKeys.filter((key) => !keys.has(key))).toEqual([])
        expect(new Set(taskKeys).size).toBe(taskKeys.length)
      }
    })
  })

  test('are each explained by a reckoning that adds up, and are the same when nobody asks for it', () => {
    forAnyTurn((input, network) => {
      const reckoned = reckonedNetwork(input)
      expect(JSON.stringify(reckoned.network)).toBe(JSON.stringify(network))
      expect([...reckoned.reckonings.keys()].sort()).toEqual(network.tasks.map((task) => task.key).sort())
      Reckoning.array().parse([...reckoned.reckonings.values()])
      const faults = network.tasks.flatMap((task) =>
        reckoningFaults(task, reckoned.reckonings.get(task.key)!).map((fault) => `${task.key}: ${fault}`),
      )
      expect(faults).toEqual([])
    })
  })

  test('are in zones that the floor has', () => {
    forAnyTurn((input, { tasks }) => {
      const strips = zoneCount(input.areaSquareMetres, input.policy.zoneSquareMetres)
      const zones = input.room.zones.length || strips
      for (const { zone } of tasks) if (zone !== null) expect(zone).toBeLessThanOrEqual(zones)
    })
  })

  test('are the same each time, whatever the order the stock is listed in', () => {
    forAnyTurn((input, network) => {
      const text = JSON.stringify(network)
      expect(JSON.stringify(taskNetwork(input))).toBe(text)
      const reordered = {
        ...input,
        furnishings: [...input.furnishings].reverse(),
        standing: [...input.standing].reverse(),
        equipmentFrom: [...input.equipmentFrom].reverse(),
      }
      expect(JSON.stringify(taskNetwork(reordered))).toBe(text)
    })
  })

  test('take no less work when there is more to set', () => {
    forAnyTurn((placed) => {
      // With more pieces than places nobody knows any more where they stand: then counts decide, before and after.
      const input = { ...placed, toLayout: { ...placed.toLayout, placements: [] } }
      const network = taskNetwork(input)
      const work = (tasks: readonly Task[]) =>
        tasks.filter(isSetting).reduce((sum, task) => sum + task.workPersonSeconds, 0)
      const first = input.furnishings[0]!
      const more = taskNetwork({
        ...input,
        sameLayout: false,
        toLayout: { ...input.toLayout, furnishings: [...input.toLayout.furnishings, pieces(first, 100)] },
      })
      // Each lot is rounded up to a whole person-second, so coarser lots may save one each.
      expect(work(more.tasks)).toBeGreaterThanOrEqual(work(network.tasks) - network.tasks.length)
    })
  })
})

/** Written from what a reckoning says of itself, without the code that makes it. */
function reckoningFaults(task: Task, reckoning: Reckoning): string[] {
  const faults: string[] = []
  const isWithin = (value: number, exact: number, above: number) =>
    value >= exact - 0.001 && value <= exact + above
  const products = reckoning.terms.map((term) => {
    const product = term.times.reduce((value, number) => value * number.value, 1)
    const personSeconds = term.dividedBy.reduce((value, number) => value / number.value, product)
    if (!isWithin(term.personSeconds, personSeconds, 0.001)) faults.push(`${term.what} is not its product`)
    return { personSeconds, atPace: term.atPace }
  })
  const sum = (atPace: boolean) =>
    products.filter((one) => one.atPace === atPace).reduce((total, one) => total + one.personSeconds, 0)
  const factor = (reckoning.paceFactor?.value ?? 1) * (1 + (reckoning.allowanceShare?.value ?? 0))
  const work = sum(true) * factor + sum(false)
  if (!isWithin(task.workPersonSeconds, work, 1)) faults.push(`${task.workPersonSeconds} is not ${work}`)
  if (reckoning.workPersonSeconds !== task.workPersonSeconds) faults.push('another work than the task')
  if (reckoning.modes.length !== task.modes.length) faults.push('other modes than the task')
  for (const [index, { hands, effectiveHands, seconds }] of reckoning.modes.entries()) {
    if (hands !== task.modes[index]!.hands || seconds !== task.modes[index]!.seconds)
      faults.push('other modes')
    if (effectiveHands === null || seconds === A_WEEK) continue
    if (!isWithin(seconds, task.workPersonSeconds / effectiveHands.value, 1)) {
      faults.push(`${seconds} s with ${hands} hands`)
    }
  }
  return faults
}
