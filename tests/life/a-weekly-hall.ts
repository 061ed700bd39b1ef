/**
 * A small hall in whatever zone: two halves that are let as one too, and a side room that hears them; a crew by the week,
 * one of whom alone knows the sound desk, and a shift through the night from Saturday to Sunday, when clocks change.
 */
import type { LocalDate } from '../../src/domain/units.ts'
import { dateAfter } from '../../src/scheduler/timeline/wall-time.ts'
import { idOf, type ServiceOverWeeks } from './a-service-over-weeks.ts'

export interface WeeklyHall {
  readonly siteId: string
  /** Of the site, to put the rest of a path behind. */
  readonly path: string
  readonly sectionIds: readonly string[]
  readonly exitIds: readonly string[]
  readonly passageId: string
  readonly storagePlaceId: string
  readonly chairId: string
  readonly tableId: string
  readonly soundId: string
  readonly personId: string
  /** By the week. */
  readonly shifts: readonly { readonly id: string; readonly weekdays: readonly number[] }[]
  /** Each with its room; the first two are of the whole hall. */
  readonly layouts: readonly { readonly roomId: string; readonly layoutId: string; readonly seats: number }[]
}

const everyDay = [1, 2, 3, 4, 5, 6, 7]
const kinds = ['worship', 'overflow', 'banquet', 'games', 'meeting', 'other']
const ofEachKind = (value: unknown) => Object.fromEntries(kinds.map((kind) => [kind, value]))

/** @param firstDate  its crew has been there for a week by then */
export async function aWeeklyHall(
  service: ServiceOverWeeks,
  zone: string,
  firstDate: LocalDate,
): Promise<WeeklyHall> {
  const siteId = idOf(await service.post('/v1/sites', { name: 'Linden Cross', zone }))
  const path = `/v1/sites/${siteId}`
  const add = async (segment: string, body: object) => idOf(await service.post(`${path}/${segment}`, body))
  await add('policies', {
    boundaries: ofEachKind({ doorsBeforeStartSeconds: 900, clearAfterEndSeconds: 900 }),
    cleaning: ofEachKind(['dust-mop']),
    briefingSeconds: 120,
    slackWantedSeconds: 300,
    workMost: 6,
  })
  const section = (name: string) => add('sections', { name, areaSquareMetres: 60, floorKind: 'sealed-wood' })
  const sectionIds = [await section('North'), await section('South'), await section('Side')]
  const [northId = '', southId = '', sideId = ''] = sectionIds
  const exit = (name: string, sectionId: string) => add('exits', { name, sectionId, clearWidthMetres: 1.6 })
  const exitIds = [
    await exit('North door', northId),
    await exit('South door', southId),
    await exit('Yard door', southId),
    await exit('Side door', sideId),
    await exit('Side porch', sideId),
  ]
  const room = (name: string, ids: readonly string[], more: object = {}) =>
    add('rooms', { name, sectionIds: ids, occupantLimitPosted: 90, ...more })
  const wholeId = await room('Whole Hall', [northId, southId])
  const halfId = await room('South Half', [southId])
  const sideRoomId = await room('Side Room', [sideId], { acousticallyJoinedRoomIds: [halfId] })
  const passageId = await add('passages', { name: 'Cellar steps door', kind: 'doorway' })
  const routes = [wholeId, halfId, sideRoomId].map((roomId) => ({
    roomId,
    distanceMetres: 20,
    passageIds: roomId === wholeId ? [passageId] : [],
  }))
  const storagePlaceId = await add('storage-places', { name: 'Cellar', routes })
  const piece = (body: object) => add('furnishings', { storagePlaceId, ...body })
  const chairId = await piece({
    name: 'chair',
    namePlural: 'chairs',
    kind: 'stacking-chair',
    countOwned: 80,
    massKilograms: 5,
    method: 'trolley',
    handsPerPiece: 1,
    trolley: { capacityPieces: 20, countOwned: 2 },
  })
  const tableId = await piece({
    name: 'table',
    namePlural: 'tables',
    kind: 'round-table',
    countOwned: 8,
    massKilograms: 25,
    method: 'carry',
    handsPerPiece: 2,
  })
  const soundId = await add('equipment', {
    name: 'sound desk',
    kind: 'sound',
    sectionIds: [northId, southId],
    control: {
      kind: 'states',
      states: ['off', 'speech'],
      homeState: 'off',
      transitions: [
        { from: 'off', to: 'speech', seconds: 300, hands: 1, skill: 'sound', needsFloorClear: false },
        { from: 'speech', to: 'off', seconds: 60, hands: 1, skill: null, needsFloorClear: false },
      ],
    },
  })
  const speech = [{ equipmentId: soundId, setting: { kind: 'state', state: 'speech' } }]
  const layout = async (
    roomId: string,
    name: string,
    kind: string,
    [chairs, tables]: readonly [number, number],
    equipment: readonly object[] = [],
  ) => {
    const furnishings = [
      { furnishingId: chairId, count: chairs },
      ...(tables > 0 ? [{ furnishingId: tableId, count: tables }] : []),
    ]
    const layoutId = await add('layouts', { roomId, name, kind, seats: chairs, furnishings, equipment })
    return { roomId, layoutId, seats: chairs }
  }
  const layouts = [
    await layout(wholeId, 'rows', 'worship', [48, 0], speech),
    await layout(wholeId, 'supper', 'banquet', [36, 6]),
    await layout(wholeId, 'games', 'games', [8, 0]),
    await layout(halfId, 'circle', 'meeting', [14, 0]),
    await layout(halfId, 'workshop', 'other', [16, 4]),
    await layout(sideRoomId, 'board', 'meeting', [10, 2]),
    await layout(sideRoomId, 'talk', 'meeting', [24, 0]),
  ]
  const home = (roomId: string, index: number) =>
    service.patch(`${path}/rooms/${roomId}`, { homeLayoutId: layouts[index]?.layoutId }).expect(200)
  await home(wholeId, 2)
  await home(sideRoomId, 5)
  const personId = await add('people', { name: 'Ottoline Reed', adult: true, skills: ['sound'] })
  const weekly = async (
    name: string,
    crew: object,
    weekdays: readonly number[],
    [startsLocal, endsLocal]: readonly [string, string],
    paid = false,
  ) => {
    const times = { kind: 'weekly', weekdays, startsLocal, endsLocal, firstDate: dateAfter(firstDate, -7) }
    return { id: await add('shifts', { name, crew, times, paid }), weekdays }
  }
  const hands = (count: number) => ({ kind: 'hands', hands: count, adults: true })
  const shifts = [
    await weekly('Days', hands(2), everyDay, ['07:00', '22:00']),
    await weekly('Late', hands(1), [4, 5, 6], ['17:00', '01:30'], true),
    await weekly('Night', hands(2), [6], ['22:00', '06:00']),
    await weekly('Desk', { kind: 'person', personId }, [3, 5, 6, 7], ['09:00', '21:00']),
  ]
  return {
    siteId,
    path,
    sectionIds,
    exitIds,
    passageId,
    storagePlaceId,
    chairId,
    tableId,
    soundId,
    personId,
    shifts,
    layouts,
  }
}
