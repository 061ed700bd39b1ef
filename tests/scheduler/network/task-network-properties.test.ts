import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Furnishing } from '../../../src/domain/furnishing.ts'
import { FurnishingKind } from '../../../src/domain/furnishing.ts'
import { LayoutKind } from '../../../src/domain/layout.ts'
import { CleaningMethod } from '../../../src/domain/policy.ts'
import { FloorKind } from '../../../src/domain/section.ts'
import type { Task } from '../../../src/domain/task.ts'
import { TaskNetwork } from '../../../src/domain/task.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import type { NetworkInput } from '../../../src/scheduler/network/network-input.ts'
import { zoneCount } from '../../../src/scheduler/network/zones.ts'
import {
  aFurnishing,
  aLayout,
  aNetworkInput,
  aPolicy,
  foldingWall,
  houseLights,
  inState,
  northStore,
  pieces,
  screen,
} from './a-network-input.ts'

const anyFurnishing = (index: number): fc.Arbitrary<Furnishing> =>
  fc
    .record({
      kind: fc.constantFrom(...FurnishingKind.options),
      handsPerPiece: fc.integer({ min: 1, max: 8 }),
      setPersonSeconds: fc.option(fc.integer({ min: 1, max: 400 })),
      trolley: fc.option(
        fc.record({
          capacityPieces: fc.integer({ min: 1, max: 40 }),
          countOwned: fc.integer({ min: 1, max: 5 }),
        }),
      ),
    })
    .map((overrides) => aFurnishing(`piece ${index}`, `pieces ${index}`, overrides))

const anyCount = fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 400 }))

const anyInput: fc.Arbitrary<NetworkInput> = fc
  .record({
    stock: fc.tuple(anyFurnishing(1), anyFurnishing(2), anyFurnishing(3), anyFurnishing(4)),
    stood: fc.tuple(anyCount, anyCount, anyCount, anyCount),
    wanted: fc.tuple(anyCount, anyCount, anyCount, anyCount),
    kinds: fc.tuple(
      fc.option(fc.constantFrom(...LayoutKind.options)),
      fc.constantFrom(...LayoutKind.options),
    ),
    outgoing: fc.option(
      fc.record({
        kind: fc.constantFrom(...LayoutKind.options),
        foodServed: fc.boolean(),
        floorWet: fc.boolean(),
      }),
    ),
    cleaning: fc.uniqueArray(fc.constantFrom(...CleaningMethod.options), { maxLength: 5 }),
    floorKinds: fc.uniqueArray(fc.constantFrom(...FloorKind.options), { minLength: 1 }),
    areaSquareMetres: fc.double({ min: 5, max: 2000, noNaN: true }),
    distanceMetres: fc.double({ min: 0, max: 300, noNaN: true }),
    briefingSeconds: fc.constantFrom(0, 300),
    paceFactor: fc.double({ min: 0.2, max: 5, noNaN: true }),
    wallIs: fc.constantFrom('stacked', 'closed'),
    wallBecomes: fc.constantFrom('stacked', 'closed'),
    screenIs: fc.constantFrom('up', 'down'),
    lightsPercent: fc.integer({ min: 10, max: 100 }),
  })
  .map((any) => {
    const counted = (counts: readonly number[]) =>
      any.stock.flatMap((furnishing, index) =>
        counts[index]! > 0 ? [pieces(furnishing, counts[index]!)] : [],
      )
    return aNetworkInput({
      furnishings: any.stock,
      storagePlaces: [
        {
          ...northStore,
          routes: northStore.routes.map((route) => ({ ...route, distanceMetres: any.distanceMetres })),
        },
      ],
      areaSquareMetres: any.areaSquareMetres,
      floorKinds: any.floorKinds,
      standing: counted(any.stood),
      standingKind: any.kinds[0],
      toLayout: aLayout(any.kinds[1], {
        furnishings: counted(any.wanted),
        equipment: [
          { equipmentId: foldingWall.id, setting: { kind: 'state', state: any.wallBecomes } },
          { equipmentId: houseLights.id, setting: { kind: 'level', levelPercent: any.lightsPercent } },
        ],
      }),
      outgoing: any.outgoing,
      equipmentFrom: [
        inState(foldingWall, any.wallIs),
        inState(screen, any.screenIs),
        { equipment: houseLights, setting: { kind: 'off' } },
      ],
      policy: aPolicy({
        briefingSeconds: any.briefingSeconds,
        paceFactor: any.paceFactor,
        cleaning: Object.fromEntries(LayoutKind.options.map((kind) => [kind, any.cleaning])) as ReturnType<
          typeof aPolicy
        >['cleaning'],
      }),
    })
  })

const forAnyTurn = (check: (input: NetworkInput, network: TaskNetwork) => void) =>
  fc.assert(
    fc.property(anyInput, (input) => check(input, taskNetwork(input))),
    { seed: 20261125, numRuns: 60 },
  )

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
      for (const task of tasks) {
        expect(task.after.filter((key) => !earlier.has(key))).toEqual([])
        expect(new Set(task.after).size).toBe(task.after.length)
        earlier.add(task.key)
      }
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

  test('lose no piece and make none up', () => {
    forAnyTurn((input, { tasks }) => {
      for (const { id } of input.furnishings) {
        const ofPiece = tasks.filter((task) => task.furnishingId === id)
        const toStore = ofPiece.filter((task) => task.kind === 'strike' && task.toPlace === northStore.name)
        const aside = ofPiece.filter((task) => task.kind === 'strike' && task.toPlace !== northStore.name)
        const fromStore = ofPiece.filter((task) => task.kind === 'set' && task.fromPlace === northStore.name)
        const fromSide = ofPiece.filter((task) => task.kind === 'set' && task.fromPlace !== northStore.name)
        const stood = countIn(input.standing, id)
        const wanted = countIn(input.toLayout.furnishings, id)
        expect(sumOf(aside)).toBe(sumOf(fromSide))
        const stays = stood - sumOf(toStore) - sumOf(aside)
        expect(stays).toBeGreaterThanOrEqual(0)
        expect(stays + sumOf(aside) + sumOf(fromStore)).toBe(wanted)
        expect(Math.min(sumOf(toStore), sumOf(fromStore))).toBe(0)
      }
    })
  })

  test('are done sooner by more hands, and cover their work with any number', () => {
    forAnyTurn((_, { tasks }) => {
      for (const { key, modes, workPersonSeconds, kind } of tasks) {
        const isDivisible = kind === 'strike' || kind === 'set' || kind === 'clean'
        const wrong = modes.filter(({ hands, seconds }, index) => {
          const fewer = modes[index - 1]
          const isNoSooner = fewer && (hands <= fewer.hands || seconds >= fewer.seconds)
          return isNoSooner || (isDivisible && hands * seconds < workPersonSeconds)
        })
        expect({ key, wrong }).toEqual({ key, wrong: [] })
      }
    })
  })

  test('hold only trolleys that are listed, and never more than there are', () => {
    forAnyTurn((_, { tasks, resources }) => {
      const capacityByKey = new Map(resources.map((resource) => [resource.key, resource.capacity]))
      for (const use of tasks.flatMap((task) => task.uses)) {
        expect(capacityByKey.get(use.resource)!).toBeGreaterThanOrEqual(use.amount)
      }
    })
  })

  test('are in zones that the floor has', () => {
    forAnyTurn((input, { tasks }) => {
      const zones = zoneCount(input.areaSquareMetres, input.policy.zoneSquareMetres)
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
    forAnyTurn((input, network) => {
      const work = (tasks: readonly Task[]) =>
        tasks.filter((task) => task.kind === 'set').reduce((sum, task) => sum + task.workPersonSeconds, 0)
      const first = input.furnishings[0]!
      const more = taskNetwork({
        ...input,
        toLayout: { ...input.toLayout, furnishings: [...input.toLayout.furnishings, pieces(first, 100)] },
      })
      // Each lot is rounded up to a whole person-second, so coarser lots may save one each.
      expect(work(more.tasks)).toBeGreaterThanOrEqual(work(network.tasks) - network.tasks.length)
    })
  })
})
