import { describe, expect, test } from 'vitest'
import type { Placement } from '../../../src/domain/layout.ts'
import type { LayoutKind } from '../../../src/domain/layout-kind.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import { aLayout, aNetworkInput, aTurn, chair, hall, pieces } from './a-network-input.ts'
import { keyed } from './a-network-question.ts'

const room = { ...hall, floor: { kind: 'rectangle' as const, widthMetres: 18, depthMetres: 12 } }
const set = (kind: LayoutKind, count: number, placements: Placement[] = []) =>
  taskNetwork(
    aNetworkInput({ room, toLayout: aLayout(kind, { furnishings: [pieces(chair, count)], placements }) }),
  )
const rowTasks = (network: ReturnType<typeof set>) =>
  network.tasks.filter(({ key }) => key.startsWith('mark-out/') || key.startsWith('set/align-rows/')).length

/** Four rows of five, half a metre from chair to chair. */
const inRows = Array.from({ length: 20 }, (_, index) => ({
  furnishingId: chair.id,
  xMetres: 3 + 0.5 * (index % 5),
  yMetres: 2 + Math.floor(index / 5),
  rotationDegrees: 0,
}))
const inACircle = Array.from({ length: 20 }, (_, index) => ({
  furnishingId: chair.id,
  xMetres: 6 + 3 * Math.cos((index * Math.PI) / 10),
  yMetres: 6 + 3 * Math.sin((index * Math.PI) / 10),
  rotationDegrees: index * 18,
}))

describe('rows of chairs', () => {
  test('are marked and lined up for worship and overflow', () => {
    expect(rowTasks(set('worship', 60))).toBe(6)
    expect(rowTasks(set('overflow', 60))).toBe(6)
  })

  test('are no matter of a meeting, of anything else, of games or of a banquet', () => {
    const kinds: readonly LayoutKind[] = ['meeting', 'other', 'games', 'banquet']
    for (const kind of kinds) expect({ kind, tasks: rowTasks(set(kind, 60)) }).toEqual({ kind, tasks: 0 })
  })

  test('are marked for a meeting whose plan shows them, and not where it shows a circle', () => {
    expect(rowTasks(set('meeting', 20, inRows))).toBeGreaterThan(0)
    expect(rowTasks(set('other', 20, inRows))).toBeGreaterThan(0)
    expect(rowTasks(set('meeting', 20, inACircle))).toBe(0)
    expect(rowTasks(set('games', 20, inRows))).toBe(0)
  })

  test('are as many as the plan has, whichever way its chairs are drawn', () => {
    const marks = (placements: Placement[]) =>
      set('worship', 20, placements)
        .tasks.filter(({ key }) => key.startsWith('mark-out/'))
        .reduce((sum, { count }) => sum + (count ?? 0), 0)
    expect(marks(inRows)).toBe(4)
    expect(marks(inRows.map((place) => ({ ...place, rotationDegrees: 90 })))).toBe(4)
    // Across the hall: five to a row along y, four rows along x.
    expect(marks(inRows.map((place) => ({ ...place, xMetres: place.yMetres, yMetres: place.xMetres })))).toBe(
      4,
    )
  })

  test('are lined up where they are set; those that stay stand in line already', () => {
    const from = aLayout('worship', { furnishings: [pieces(chair, 15)], placements: inRows.slice(0, 15) })
    const to = aLayout('overflow', { furnishings: [pieces(chair, 20)], placements: inRows })
    const network = taskNetwork(aTurn(from, to, { room, placementsFrom: from.placements }))
    const ofKey = (start: string) =>
      network.tasks
        .filter(({ key }) => key.startsWith(start))
        .reduce((sum, { count }) => sum + (count ?? 0), 0)
    expect([ofKey('mark-out/'), ofKey('set/align-rows/')]).toEqual([1, 5])
  })

  test('of one chair are spoken of as one chair', () => {
    const network = set('worship', 1)
    expect(keyed(network, 'mark-out/zone-1').text).toMatch(/^Mark with tape where the chair goes in zone 1,/)
    expect(keyed(network, 'set/align-rows/zone-1').text).toMatch(
      /^Put the chair in zone 1 in line with its row\./,
    )
  })
})
