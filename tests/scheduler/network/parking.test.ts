import { describe, expect, test } from 'vitest'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import { aLayout, aTurn, banquet, chair, hall, northStore, pieces, worship } from './a-network-input.ts'
import { keyed, ofKind, piecesIn } from './a-network-question.ts'

/** A stacked chair takes 0.035 m²: 28 to a square metre. */
const withParking = (...parking: (typeof hall)['parking']) => ({ room: { ...hall, parking } })

describe('pieces that are in the way and wanted again', () => {
  test('are parked at the side of the room where no parking place is named, and fetched from there', () => {
    const network = taskNetwork(aTurn(banquet, worship))
    expect(piecesIn(ofKind(network, 'park'))).toBe(120)
    expect(keyed(network, `park/${chair.id}/zone-1/1`)).toMatchObject({
      toPlace: 'Garden Hall: the side of the room',
      uses: [],
    })
    expect(keyed(network, `set/${chair.id}/zone-1/from-side-1`).text).toMatch(
      /^Fetch \d+ stacking chairs that were put aside \(the side of the room\)/,
    )
  })

  test('are parked in named places up to what goes there, and the rest is carried out and back', () => {
    const network = taskNetwork(
      aTurn(
        banquet,
        worship,
        withParking({ name: 'West wall', areaSquareMetres: 1 }, { name: 'Foyer', areaSquareMetres: 2 }),
      ),
    )
    expect(piecesIn(ofKind(network, 'park'))).toBe(28 + 57)
    expect(ofKind(network, 'park')[0]!.toPlace).toBe('Garden Hall: West wall (28) and Foyer (57)')
    const chairsOut = ofKind(network, 'strike').filter((task) => task.furnishingId === chair.id)
    expect(piecesIn(chairsOut)).toBe(120 - 85)
    const chairsIn = network.tasks.filter(
      (task) => task.furnishingId === chair.id && task.fromPlace === northStore.name,
    )
    expect(piecesIn(chairsIn)).toBe(40 + 35)
  })

  test('are put clear of every exit', () => {
    for (const task of ofKind(taskNetwork(aTurn(banquet, worship)), 'park')) {
      expect(task.text).toMatch(/clear of every exit/)
    }
  })

  test('go to the store where that costs no way at all', () => {
    const posts = aLayout('games', { furnishings: [pieces(chair, 10)] })
    const other = aLayout('meeting', { furnishings: [pieces(chair, 10)] })
    const next = {
      ...northStore,
      routes: [{ roomId: hall.id, distanceMetres: 3, passageIds: [], doorAt: null }],
    }
    const network = taskNetwork(
      aTurn(posts, other, { storagePlaces: [next], furnishings: [{ ...chair, trolley: null }] }),
    )
    expect(ofKind(network, 'park')).toEqual([])
    expect(piecesIn(ofKind(network, 'strike'))).toBe(10)
  })

  test('take the floor that their furnishing says', () => {
    const bulky = { ...chair, storedAreaSquareMetres: 0.5 }
    const network = taskNetwork(
      aTurn(banquet, aLayout('worship', { furnishings: [pieces(chair, 120)] }), {
        ...withParking({ name: 'West wall', areaSquareMetres: 10 }),
        furnishings: aTurn(banquet, worship).furnishings.map((one) => (one.id === chair.id ? bulky : one)),
      }),
    )
    expect(piecesIn(ofKind(network, 'park'))).toBe(20)
  })
})
