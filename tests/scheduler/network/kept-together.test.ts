import { describe, expect, test } from 'vitest'
import type { Layout, Placement } from '../../../src/domain/layout.ts'
import type { Task } from '../../../src/domain/task.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import {
  aFurnishing,
  aLayout,
  aNetworkInput,
  aTurn,
  chair,
  furnishings,
  games,
  hall,
  pieces,
  postPair,
  roundTable,
  stageDeck,
  tableCloth,
} from './a-network-input.ts'
import { keyed, mustPrecede, piecesIn } from './a-network-question.ts'

const rail = aFurnishing('stage rail', 'stage rails', { kind: 'stage-rail', handsPerPiece: 2 })
const panel = aFurnishing('dance-floor panel', 'dance-floor panels', { kind: 'dance-floor-panel' })
const stock = [...furnishings, rail, panel]
/** A stage, a dance floor, chairs; nobody has said where. The hall has three zones. */
const show = aLayout('worship', {
  name: 'Spring show',
  furnishings: [pieces(stageDeck, 4), pieces(rail, 2), pieces(panel, 13), pieces(chair, 90)],
})
const network = taskNetwork(aNetworkInput({ toLayout: show, furnishings: stock }))
const ofPieces = (id: string, tasks: readonly Task[] = network.tasks) =>
  tasks.filter((task) => task.furnishingId === id)
const waitsFor = (task: Task, id: string) =>
  ofPieces(id).filter(({ key }) => mustPrecede(network, task.key).has(key)).length

describe('a stage of which nobody has said where it stands', () => {
  const decks = ofPieces(stageDeck.id)

  test('is built in one place, in small lots, all of it before its rails', () => {
    expect(piecesIn(decks)).toBe(4)
    expect(decks.length).toBe(4)
    for (const task of ofPieces(rail.id)) expect(waitsFor(task, stageDeck.id)).toBe(4)
  })

  test('is built by the plan of the layout: nobody is told a zone that is only guessed', () => {
    expect(decks[0]!).toMatchObject({ key: `set/${stageDeck.id}/room/1`, zone: null, toPlace: 'Garden Hall' })
    expect(decks[0]!.text).toMatch(/and build it up in Garden Hall, by the plan of Spring show\./)
    for (const task of [...decks, ...ofPieces(rail.id), ...ofPieces(panel.id)]) {
      expect(`${task.text} ${task.toPlace}`).not.toMatch(/zone/)
    }
  })

  test('makes the chairs before it wait, and no others', () => {
    const decksBefore = (zone: number) =>
      ofPieces(chair.id)
        .filter((task) => task.zone === zone)
        .map((task) => waitsFor(task, stageDeck.id))
    expect(decksBefore(1).every((count) => count === 0)).toBe(true)
    expect(decksBefore(2).every((count) => count === 0)).toBe(true)
    expect(decksBefore(3).every((count) => count === 4)).toBe(true)
  })

  test('is marked in the room, apart from the rows of the zone', () => {
    const marks = network.tasks.filter((task) => task.kind === 'mark-out')
    expect(marks.map(({ key, count }) => [key, count])).toEqual([
      ['mark-out/zone-1', 3],
      ['mark-out/zone-2', 3],
      ['mark-out/zone-3', 3],
      ['mark-out/room-3', 4],
    ])
    expect(marks[3]!.text).toMatch(
      /^Mark with tape where the stage decks go in Garden Hall, by the plan of Spring show: 4 marks\./,
    )
    expect(marks[3]!.zone).toBeNull()
    for (const task of decks) expect(task.after).toContain('mark-out/room-3')
  })

  test('is taken down in one place too', () => {
    const away = taskNetwork(aTurn(show, games, { furnishings: stock }))
    const struck = ofPieces(stageDeck.id, away.tasks)
    expect(piecesIn(struck)).toBe(4)
    for (const task of struck) {
      expect(task).toMatchObject({ kind: 'strike', zone: null, fromPlace: 'Garden Hall' })
      expect(task.text).toMatch(/^Take down \d stage decks? in Garden Hall and take/)
    }
    const cleaned = (zone: number) =>
      struck.filter(({ key }) => mustPrecede(away, `clean/dust-mop/zone-${zone}/1`).has(key)).length
    expect([1, 2, 3].map(cleaned)).toEqual([0, 0, struck.length])
  })
})

describe('a dance floor and posts of which nobody has said where they stand', () => {
  test('are put in the middle, each in one place', () => {
    const panels = ofPieces(panel.id)
    expect(piecesIn(panels)).toBe(13)
    const middle = ofPieces(chair.id).filter((task) => task.zone === 2)
    for (const task of middle) expect(waitsFor(task, panel.id)).toBe(panels.length)
    const posts = taskNetwork(aNetworkInput({ toLayout: games }))
    expect(posts.tasks.filter((task) => task.furnishingId === postPair.id).map(({ key }) => key)).toEqual([
      `set/${postPair.id}/room/1`,
      `set/${postPair.id}/room/2`,
    ])
  })
})

describe('a stage whose decks have places', () => {
  const at = (xMetres: number, yMetres: number): Placement => ({
    furnishingId: stageDeck.id,
    xMetres,
    yMetres,
    rotationDegrees: 0,
  })
  const placed: Layout = { ...show, placements: [at(1, 1), at(1, 3), at(1, 5), at(1, 7)] }
  const room = { ...hall, floor: { kind: 'rectangle' as const, widthMetres: 18, depthMetres: 12 } }
  const known = taskNetwork(aNetworkInput({ toLayout: placed, furnishings: stock, room }))

  test('is built where they are, and its rails with it', () => {
    expect(keyed(known, `set/${stageDeck.id}/zone-1/1`).text).toMatch(/build it up in zone 1\./)
    expect(ofPieces(stageDeck.id, known.tasks).every((task) => task.zone === 1)).toBe(true)
    expect(ofPieces(rail.id, known.tasks).every((task) => task.zone === 1)).toBe(true)
  })
})

describe('a room of one zone', () => {
  test('leaves nothing to guess', () => {
    const small = taskNetwork(aNetworkInput({ toLayout: show, furnishings: stock, areaSquareMetres: 80 }))
    expect(keyed(small, `set/${stageDeck.id}/zone-1/1`).text).toMatch(/build it up in Garden Hall\. /)
    expect(small.tasks.some(({ key }) => key.includes('room-') || key.includes('/room/'))).toBe(false)
  })
})

describe('tables that have places', () => {
  const setting = aFurnishing('place setting', 'place settings', { kind: 'place-setting' })
  const at = (xMetres: number, yMetres: number): Placement => ({
    furnishingId: roundTable.id,
    xMetres,
    yMetres,
    rotationDegrees: 0,
  })
  /** Four tables in the first third of the hall, two in the second. */
  const placements = [at(2, 2), at(2, 4), at(4, 2), at(4, 4), at(8, 2), at(8, 4)]
  const dinner = aLayout('banquet', {
    furnishings: [pieces(roundTable, 6), pieces(tableCloth, 6), pieces(setting, 48), pieces(chair, 48)],
    placements,
  })
  const room = { ...hall, floor: { kind: 'rectangle' as const, widthMetres: 18, depthMetres: 12 } }
  const byZone = (tasks: readonly Task[], id: string) =>
    [1, 2, 3].map((zone) => piecesIn(ofPieces(id, tasks).filter((task) => task.zone === zone)))
  const overrides = { furnishings: [...stock, setting], room }

  test('have their cloths, settings and chairs where they stand', () => {
    const { tasks } = taskNetwork(aNetworkInput({ ...overrides, toLayout: dinner }))
    expect(byZone(tasks, roundTable.id)).toEqual([4, 2, 0])
    expect(byZone(tasks, tableCloth.id)).toEqual([4, 2, 0])
    expect(byZone(tasks, setting.id)).toEqual([32, 16, 0])
    expect(byZone(tasks, chair.id)).toEqual([32, 16, 0])
  })

  test('are cleared where they stand', () => {
    const bare = aLayout('other')
    const { tasks } = taskNetwork(aTurn(dinner, bare, { ...overrides, placementsFrom: placements }))
    expect(byZone(tasks, tableCloth.id)).toEqual([4, 2, 0])
    expect(byZone(tasks, chair.id)).toEqual([32, 16, 0])
  })

  test('say nothing of chairs that are not for a banquet', () => {
    const meeting = aLayout('meeting', { furnishings: dinner.furnishings, placements })
    const { tasks } = taskNetwork(aNetworkInput({ ...overrides, toLayout: meeting }))
    expect(byZone(tasks, tableCloth.id)).toEqual([4, 2, 0])
    expect(byZone(tasks, chair.id)).toEqual([16, 16, 16])
  })
})
