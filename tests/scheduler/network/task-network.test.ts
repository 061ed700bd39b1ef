import { describe, expect, test } from 'vitest'
import type { Task, TaskNetwork } from '../../../src/domain/task.ts'
import { reckonedNetwork, StateUnreachable, taskNetwork } from '../../../src/scheduler/network/index.ts'
import {
  aFurnishing,
  aLayout,
  aNetworkInput,
  aPolicy,
  aTurn,
  banquet,
  chair,
  foldingWall,
  furnishings,
  games,
  hall,
  houseLights,
  inState,
  northStore,
  overflow,
  pieces,
  postPair,
  roundTable,
  screen,
  stageDeck,
  videoFeed,
  worship,
} from './a-network-input.ts'
import { keyed, mustPrecede, ofKind, piecesIn } from './a-network-question.ts'

const clearing: readonly Task['kind'][] = ['bus', 'linen-off', 'strike', 'park']
const setting: readonly Task['kind'][] = ['set', 'linen-on', 'settings']
const clearingTasks = ({ tasks }: TaskNetwork) => tasks.filter((task) => clearing.includes(task.kind))
const settingTasks = ({ tasks }: TaskNetwork) => tasks.filter((task) => setting.includes(task.kind))
/** Everything that is done with pieces of one furnishing before the floor is clean, or after. */
const ofPieces = (network: TaskNetwork, side: 'strike' | 'set', furnishingId: string) =>
  (side === 'strike' ? clearingTasks(network) : settingTasks(network)).filter(
    (task) => task.furnishingId === furnishingId,
  )

describe('a turn', () => {
  const network = taskNetwork(aTurn(games, banquet))

  test('begins with a briefing by one, then a walkthrough, and everything else waits for it', () => {
    expect(network.tasks[0]!).toMatchObject({
      key: 'briefing',
      modes: [{ hands: 1, seconds: 300 }],
      after: [],
    })
    expect(network.tasks[1]!).toMatchObject({ key: 'walkthrough', after: ['briefing'] })
    for (const task of network.tasks.slice(2)) expect(mustPrecede(network, task.key)).toContain('walkthrough')
  })

  test('has no briefing where the policy gives it no time', () => {
    const { tasks } = taskNetwork(aTurn(games, banquet, { policy: aPolicy({ briefingSeconds: 0 }) }))
    expect(tasks[0]!).toMatchObject({ key: 'walkthrough', after: [] })
  })

  test('ends with a sign-off that waits for everything', () => {
    const last = network.tasks.at(-1)!
    expect(last.key).toBe('sign-off')
    expect(mustPrecede(network, last.key).size).toBe(network.tasks.length - 1)
    expect(last.text).toMatch(/exits and aisles clear, 120 seats counted/)
  })

  test('cleans a zone when it is struck, and sets it when it is clean', () => {
    for (const zone of [1, 2, 3]) {
      const inZone = network.tasks.filter((task) => task.zone === zone)
      const struck = inZone.filter((task) => clearing.includes(task.kind)).map((task) => task.key)
      const clean = inZone.find((task) => task.kind === 'clean')!
      expect(struck.length).toBeGreaterThan(0)
      for (const key of struck) expect(mustPrecede(network, clean.key)).toContain(key)
      for (const set of inZone.filter((task) => setting.includes(task.kind))) {
        expect(mustPrecede(network, set.key)).toContain(clean.key)
      }
    }
  })

  test('sets one zone without waiting for another', () => {
    const otherZones = [...mustPrecede(network, 'set/furnishing_round-table/zone-1/1')].filter((key) =>
      /zone-[23]/.test(key),
    )
    expect(otherZones).toEqual([])
  })
})

describe('games to banquet', () => {
  const network = taskNetwork(aTurn(games, banquet))

  test('takes both post pairs to the store, and 20 chairs to the side', () => {
    const posts = ofPieces(network, 'strike', postPair.id)
    expect(piecesIn(posts)).toBe(2)
    expect(posts.every((task) => task.toPlace === 'North store')).toBe(true)
    const chairs = ofPieces(network, 'strike', chair.id)
    expect(piecesIn(chairs)).toBe(20)
    expect(chairs.every((task) => task.toPlace === 'Garden Hall: the side of the room')).toBe(true)
  })

  test('brings 100 chairs from the store and 20 back from the side', () => {
    const chairs = ofPieces(network, 'set', chair.id)
    expect(piecesIn(chairs.filter((task) => task.fromPlace === 'North store'))).toBe(100)
    expect(piecesIn(chairs.filter((task) => task.fromPlace === 'Garden Hall: the side of the room'))).toBe(20)
  })

  test('sets tables, then cloths, then chairs, in each zone', () => {
    const cloth = keyed(network, 'linen-on/furnishing_table-cloth/zone-1/1')
    expect(cloth.after).toEqual([
      'set/furnishing_round-table/zone-1/1',
      'set/furnishing_round-table/zone-1/2',
    ])
    const chairs = ofPieces(network, 'set', chair.id).filter((task) => task.zone === 1)
    for (const task of chairs) expect(task.after).toEqual([cloth.key])
  })

  test('holds one trolley for each lot that goes to the store, and none for what stays in the room', () => {
    for (const task of ofPieces(network, 'set', chair.id)) {
      const fromStore = task.fromPlace === 'North store'
      expect(task.uses).toEqual(fromStore ? [{ resource: `trolley:${chair.id}`, amount: 1 }] : [])
    }
    expect(network.resources).toEqual([
      { key: `trolley:${roundTable.id}`, label: 'Trolley for round tables', capacity: 2 },
      { key: `trolley:${chair.id}`, label: 'Trolley for stacking chairs', capacity: 4 },
    ])
  })

  test('pays for every trip its lots make: two trolleys of chairs in each zone, one of tables', () => {
    const reckoned = reckonedNetwork(aTurn(games, banquet))
    const loadsOf = (id: string) =>
      reckoned.network.tasks
        .filter((task) => task.furnishingId === id && task.kind === 'set')
        .flatMap(({ key }) => reckoned.reckonings.get(key)!.terms.filter(({ what }) => what === 'trolley'))
        .map((term) => term.times.find(({ name }) => name === 'loads')!.value)
    expect(loadsOf(chair.id)).toEqual([1, 1, 1, 1, 1, 1])
    expect(loadsOf(roundTable.id)).toEqual([0.6, 0.4, 0.6, 0.4, 0.6, 0.4])
  })

  test('puts two people, or two pairs, to round tables', () => {
    const tables = keyed(network, 'set/furnishing_round-table/zone-1/1')
    expect(tables.modes.map((mode) => mode.hands)).toEqual([2, 4])
  })

  test('says in a sentence what, how many, from where, with what, to where and how many people', () => {
    expect(keyed(network, 'set/furnishing_round-table/zone-1/1').text).toBe(
      'Bring 3 round tables from the North store (25 m), on one trolley with 2 more, and set them up in zone 1. For 2 or 4 people, 2 to each piece.',
    )
    expect(keyed(network, 'set/furnishing_stacking-chair/zone-1/1').text).toBe(
      'Bring 17 stacking chairs from the North store (25 m) with a trolley, and put them in place in zone 1. For 1 to 4 people.',
    )
    expect(keyed(network, 'strike/furnishing_post-pair/room/1').text).toBe(
      'Take down 1 post pair in Garden Hall and take it to the North store (25 m). For 2 people.',
    )
    expect(keyed(network, 'set/furnishing_stacking-chair/zone-1/from-side-1').text).toBe(
      'Fetch 6 stacking chairs that were put aside (the side of the room) and put them in place in zone 1. For 1 to 4 people.',
    )
  })

  test('prints the usual cautions', () => {
    const notes = (key: string) => keyed(network, key).safetyNotes.join(' ')
    expect(notes('set/furnishing_round-table/zone-1/1')).toMatch(/Legs locked before letting go/)
    expect(notes('set/furnishing_round-table/zone-1/1')).toMatch(/whole path before you push a trolley/)
    expect(notes('park/furnishing_stacking-chair/zone-1/1')).toMatch(/no higher than the maker allows/)
    expect(notes('briefing')).toMatch(/ladders.*qualified people/)
    expect(notes('sign-off')).toMatch(/exit.*clear/)
  })
})

describe('banquet back to games', () => {
  const network = taskNetwork(aTurn(banquet, games))

  test('takes off cloths, then chairs, then tables, in each zone', () => {
    const order = network.tasks
      .filter((task) => clearing.includes(task.kind) && task.zone === 2)
      .map((task) => task.furnishingId)
    expect([...new Set(order)]).toEqual(['furnishing_table-cloth', chair.id, roundTable.id])
    const table = keyed(network, `strike/${roundTable.id}/zone-2/1`)
    for (const task of ofPieces(network, 'strike', chair.id).filter((task) => task.zone === 2)) {
      expect(table.after).toContain(task.key)
    }
  })

  test('puts away 100 chairs and 15 tables and keeps 20 chairs', () => {
    const chairs = ofPieces(network, 'strike', chair.id)
    expect(piecesIn(chairs.filter((task) => task.toPlace === 'North store'))).toBe(100)
    expect(piecesIn(chairs.filter((task) => task.toPlace !== 'North store'))).toBe(20)
    expect(piecesIn(ofPieces(network, 'strike', roundTable.id))).toBe(15)
  })

  test('puts the posts up before the chairs in the middle of the room, where posts stand', () => {
    const chairs = ofPieces(network, 'set', chair.id).filter((task) => task.zone === 2)
    expect(chairs.length).toBeGreaterThan(0)
    for (const task of chairs) {
      expect(task.after).toEqual([`set/${postPair.id}/room/1`, `set/${postPair.id}/room/2`])
    }
  })
})

describe('banquet to worship', () => {
  const network = taskNetwork(aTurn(banquet, worship))

  test('builds the stage before the chairs, by adults only', () => {
    const decks = ofPieces(network, 'set', stageDeck.id)
    expect(piecesIn(decks)).toBe(6)
    expect(decks.every((task) => task.adultsOnly)).toBe(true)
    expect(decks[0]!.safetyNotes.join()).toMatch(/pinned and rails on/)
    const chairs = ofPieces(network, 'set', chair.id)
    const inFrontOfIt = chairs.filter((task) => task.zone === 3)
    expect(inFrontOfIt.length).toBeGreaterThan(0)
    for (const task of inFrontOfIt) {
      expect(task.after.every((key) => key.startsWith(`set/${stageDeck.id}/`))).toBe(true)
    }
    for (const task of chairs) expect(task.adultsOnly).toBe(false)
  })

  test('is begun and signed off by adults: who says what is safe answers for it', () => {
    const led = network.tasks.filter(({ kind }) => kind === 'briefing' || kind === 'sign-off')
    expect(led.map(({ kind, adultsOnly }) => [kind, adultsOnly])).toEqual([
      ['briefing', true],
      ['sign-off', true],
    ])
  })

  test('sets rows of chairs where they are marked, and lines them up, where there are neither tables nor decks', () => {
    const rows = taskNetwork(aTurn(games, aLayout('worship', { furnishings: [pieces(chair, 80)] })))
    for (const task of ofPieces(rows, 'set', chair.id)) {
      expect(task.after).toEqual([`mark-out/zone-${task.zone}`])
      expect(mustPrecede(rows, `set/align-rows/zone-${task.zone}`)).toContain(task.key)
    }
    expect(keyed(rows, 'mark-out/zone-1').after).toEqual(['clean/dust-mop/zone-1/1'])
  })
})

describe('worship to overflow', () => {
  const network = taskNetwork(
    aTurn(worship, overflow, { equipmentFrom: [inState(videoFeed, 'off'), inState(screen, 'up')] }),
  )

  test('lets the screen down by itself, after the chairs are set', () => {
    const down = keyed(network, 'switch/equipment_screen/up/down')
    expect(down).toMatchObject({ modes: [{ hands: 0, seconds: 40 }], workPersonSeconds: 0, skill: null })
    expect(down.after).toEqual([1, 2, 3].map((zone) => `set/align-rows/zone-${zone}`))
  })

  test('brings the feed up step by step, the last by somebody with the skill', () => {
    const standby = keyed(network, 'switch/equipment_video-feed/off/standby')
    const live = keyed(network, 'switch/equipment_video-feed/standby/live')
    expect(standby.modes).toEqual([{ hands: 0, seconds: 90 }])
    expect(live).toMatchObject({ modes: [{ hands: 1, seconds: 120 }], skill: 'video', after: [standby.key] })
    expect(live.text).toMatch(/It takes the skill video/)
  })

  test('takes the stage down and sets 20 chairs more', () => {
    expect(piecesIn(ofPieces(network, 'strike', stageDeck.id))).toBe(6)
    const chairs = ofPieces(network, 'set', chair.id)
    expect(piecesIn(chairs.filter((task) => task.fromPlace === 'North store'))).toBe(20)
  })

  test('brings the devices home when the next layout does not name them', () => {
    const home = taskNetwork(
      aTurn(overflow, worship, { equipmentFrom: [inState(videoFeed, 'live'), inState(screen, 'down')] }),
    )
    expect(ofKind(home, 'switch').map((task) => task.key)).toEqual([
      'switch/equipment_screen/down/up',
      'switch/equipment_video-feed/live/off',
    ])
  })
})

describe('the very layout that stands already', () => {
  test('needs a walkthrough, cleaning after its use, and a sign-off', () => {
    const network = taskNetwork(aTurn(worship, worship))
    expect([...new Set(network.tasks.map((task) => task.kind))]).toEqual(['walkthrough', 'clean', 'sign-off'])
    expect(keyed(network, 'clean/dust-mop/zone-1/1').text).toMatch(/around what stands/)
  })

  test('needs only the walkthrough and the sign-off when nobody used it', () => {
    const network = taskNetwork(aTurn(worship, worship, { outgoing: null }))
    expect(network.tasks.map((task) => task.key)).toEqual(['walkthrough', 'sign-off'])
  })

  test('still has its devices put right', () => {
    const network = taskNetwork(aTurn(worship, worship, { equipmentFrom: [inState(screen, 'down')] }))
    expect(ofKind(network, 'switch').map((task) => task.key)).toEqual(['switch/equipment_screen/down/up'])
  })

  test('is struck and set again when a device needs the floor clear', () => {
    const network = taskNetwork(aTurn(worship, worship, { equipmentFrom: [inState(foldingWall, 'closed')] }))
    expect(piecesIn(ofPieces(network, 'strike', chair.id))).toBe(160)
    expect(piecesIn(ofPieces(network, 'set', chair.id))).toBe(160)
  })
})

describe('another layout of the same kind', () => {
  const closer = aLayout('worship', { furnishings: [pieces(chair, 150), pieces(stageDeck, 6)] })
  const network = taskNetwork(aTurn(worship, closer, { sameLayout: false }))

  test('has a tenth of the pieces that stay moved, rounded up, and the rest left standing', () => {
    expect(piecesIn(ofPieces(network, 'set', chair.id))).toBe(15)
    expect(piecesIn(ofPieces(network, 'strike', chair.id))).toBe(15 + 10)
    expect(piecesIn(ofPieces(network, 'set', stageDeck.id))).toBe(1)
  })
})

describe('a bare hall', () => {
  test('is set without striking anything, and cleaned only if somebody was there', () => {
    const network = taskNetwork(aNetworkInput({ toLayout: banquet }))
    expect(ofKind(network, 'strike')).toEqual([])
    expect(ofKind(network, 'clean')).toEqual([])
    expect(piecesIn(ofPieces(network, 'set', chair.id))).toBe(120)
    expect(keyed(network, 'mark-out/zone-1').after).toEqual(['walkthrough'])
    expect(keyed(network, `set/${roundTable.id}/zone-1/1`).after).toEqual(['mark-out/zone-1'])
  })

  test('that stays bare has a list all the same', () => {
    expect(taskNetwork(aNetworkInput()).tasks.map((task) => task.key)).toEqual([
      'briefing',
      'walkthrough',
      'sign-off',
    ])
  })

  test('of less than one zone is called by its name', () => {
    const { tasks } = taskNetwork(aNetworkInput({ toLayout: games, areaSquareMetres: 60 }))
    const posts = tasks.find((task) => task.furnishingId === postPair.id)!
    expect(posts).toMatchObject({ zone: 1, toPlace: 'Garden Hall' })
    expect(posts.text).toMatch(/put it up in Garden Hall/)
  })
})

describe('a device', () => {
  test('that is right already has no task', () => {
    const network = taskNetwork(aTurn(games, banquet, { equipmentFrom: [inState(screen, 'up')] }))
    expect(ofKind(network, 'switch')).toEqual([])
  })

  test('that needs the floor clear waits for every zone to be struck, and every zone waits for it', () => {
    const divided = aLayout('meeting', {
      furnishings: [pieces(chair, 60)],
      equipment: [{ equipmentId: foldingWall.id, setting: { kind: 'state', state: 'closed' } }],
    })
    const network = taskNetwork(aTurn(games, divided, { equipmentFrom: [inState(foldingWall, 'stacked')] }))
    const wall = keyed(network, 'switch/equipment_folding-wall/stacked/closed')
    for (const task of clearingTasks(network)) expect(mustPrecede(network, wall.key)).toContain(task.key)
    for (const task of settingTasks(network)) expect(mustPrecede(network, task.key)).toContain(wall.key)
    expect(wall).toMatchObject({ modes: [{ hands: 2, seconds: 300 }], workPersonSeconds: 600 })
  })

  test('with a level is set in one task', () => {
    const dim = aLayout('other', {
      equipment: [{ equipmentId: houseLights.id, setting: { kind: 'level', levelPercent: 30 } }],
    })
    const network = taskNetwork(
      aNetworkInput({ toLayout: dim, equipmentFrom: [{ equipment: houseLights, setting: { kind: 'off' } }] }),
    )
    expect(ofKind(network, 'switch')).toMatchObject([
      { key: 'switch/equipment_house-lights/30-percent', modes: [{ hands: 1, seconds: 20 }] },
    ])
    expect(ofKind(network, 'switch')[0]!.text).toMatch(/from off to 30 %/)
  })

  test('that cannot be brought where it is wanted is an error that names it and both states', () => {
    const live = aLayout('other', {
      equipment: [{ equipmentId: screen.id, setting: { kind: 'state', state: 'sideways' } }],
    })
    const attempt = () =>
      taskNetwork(aNetworkInput({ toLayout: live, equipmentFrom: [inState(screen, 'up')] }))
    expect(attempt).toThrow(StateUnreachable)
    expect(attempt).toThrow('Screen cannot be brought from up to sideways')
  })

  test('that cannot hold the level that is wanted is such an error too', () => {
    const tooDim = aLayout('other', {
      equipment: [{ equipmentId: houseLights.id, setting: { kind: 'level', levelPercent: 3 } }],
    })
    expect(() =>
      taskNetwork(
        aNetworkInput({
          toLayout: tooDim,
          equipmentFrom: [{ equipment: houseLights, setting: { kind: 'off' } }],
        }),
      ),
    ).toThrow('House lights cannot be brought from off to 3 %')
  })

  test('that the layout names and the room does not have is a mistake in the input', () => {
    expect(() => taskNetwork(aTurn(worship, overflow))).toThrow(/equipment_screen is named by the layout/)
  })
})

describe('a furnishing', () => {
  test('with its own times is planned with them', () => {
    const quick = { ...chair, setPersonSeconds: 1, strikePersonSeconds: 2 }
    const stock = furnishings.map((furnishing) => (furnishing.id === chair.id ? quick : furnishing))
    const network = taskNetwork(
      aTurn(games, banquet, {
        furnishings: stock,
        policy: aPolicy({ paceFactor: 1, allowanceShare: 0 }),
      }),
    )
    expect(keyed(network, `park/${chair.id}/zone-1/1`).workPersonSeconds).toBe(14)
    expect(keyed(network, `set/${chair.id}/zone-1/from-side-1`).workPersonSeconds).toBe(6)
  })

  test('that is not in the input is a mistake that names it', () => {
    expect(() => taskNetwork(aTurn(games, banquet, { furnishings: [chair] }))).toThrow(/furnishing_/)
    expect(() => taskNetwork(aTurn(games, banquet, { storagePlaces: [] }))).toThrow(/storage_north/)
  })
})

describe('a very large turn', () => {
  const ballroom = aLayout('banquet', {
    furnishings: [pieces(roundTable, 400), pieces(chair, 4000)],
  })

  test('is cut more coarsely rather than into more than 120 tasks', () => {
    const network = taskNetwork(aTurn(games, ballroom, { areaSquareMetres: 5000 }))
    expect(network.tasks.length).toBeLessThanOrEqual(120)
    expect(piecesIn(ofPieces(network, 'set', chair.id))).toBe(4000)
  })

  test('with forty kinds of pieces in many zones still is', () => {
    const many = Array.from({ length: 40 }, (_, index) => aFurnishing(`prop ${index}`, `props ${index}`))
    const stage = aLayout('other', { furnishings: many.map((furnishing) => pieces(furnishing, 100)) })
    const network = taskNetwork(
      aNetworkInput({ toLayout: stage, furnishings: many, areaSquareMetres: 3000, room: hall }),
    )
    expect(network.tasks.length).toBeLessThanOrEqual(120)
    expect(piecesIn(ofKind(network, 'set'))).toBe(4000)
  })

  test('has no task longer than a week, which no turn has', () => {
    const slow = aFurnishing('prop', 'props', { setPersonSeconds: 36_000, countOwned: 5000 })
    const stage = aLayout('other', { furnishings: [pieces(slow, 5000)] })
    const network = taskNetwork(aNetworkInput({ toLayout: stage, furnishings: [slow] }))
    expect(network.tasks.length).toBeLessThanOrEqual(120)
    const longest = Math.max(...network.tasks.flatMap((task) => task.modes.map((mode) => mode.seconds)))
    expect(longest).toBe(7 * 86_400)
  })

  test('with the longest names keeps its texts within bounds', () => {
    const long = 'x'.repeat(120)
    const piece = aFurnishing('prop', 'props', { name: long, namePlural: long })
    const network = taskNetwork(
      aNetworkInput({
        room: { ...hall, name: long },
        areaSquareMetres: 50,
        furnishings: [piece],
        storagePlaces: [{ ...northStore, name: long }],
        toLayout: aLayout('other', { name: long, furnishings: [pieces(piece, 30)] }),
      }),
    )
    for (const task of network.tasks) expect(task.text.length).toBeLessThanOrEqual(400)
  })
})
