/** A hall where much can happen: aHall with a crew by the week, ways that can close, and rooms that hear each other. */
import { Exit } from '../../../../src/domain/exit.ts'
import { EARLIEST_AT, Instant, LATEST_AT } from '../../../../src/domain/instant.ts'
import { Shift } from '../../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../../src/domain/snapshot.ts'
import type { LocalDate } from '../../../../src/domain/units.ts'
import { dateAfter, instantOfLocal } from '../../../../src/scheduler/timeline/wall-time.ts'
import { aHall } from '../a-hall.ts'

export interface BusyHallWishes {
  readonly zone: string
  /** The first of the days on which something happens; it is 07:00. */
  readonly firstDate: LocalDate
}

export function aBusyHall({ zone, firstDate }: BusyHallWishes): SiteSnapshot {
  const hall = aHall({
    northRoom: true,
    movableWall: true,
    soundSkill: 'sound',
    homeLayouts: { long: 'games', side: 'meeting', south: 'meeting' },
    passages: [{ id: 'passage_door', name: 'store door', kind: 'doorway' }],
    storeRoutePassageIds: ['passage_door'],
    tools: [
      { id: 'tool_mop', name: 'mop', namePlural: 'mops', countOwned: 3, cleaningMethods: ['dust-mop'] },
    ],
    people: [
      { id: 'person_ada', adult: true, skills: ['sound'] },
      { id: 'person_ben', adult: false, skills: [] },
    ],
    policy: { workMost: 12 },
  })
  const siteId = hall.site.id
  const weekly = (weekdays: readonly number[], startsLocal: string, endsLocal: string) => ({
    kind: 'weekly',
    weekdays,
    startsLocal,
    endsLocal,
    firstDate: dateAfter(firstDate, -7),
    lastDate: null,
  })
  const hands = (count: number) => ({ kind: 'hands', hands: count, skills: [], adults: true })
  const person = (personId: string) => ({ kind: 'person', personId })
  const shifts = [
    {
      id: 'shift_crew',
      name: 'crew',
      crew: hands(2),
      times: weekly([1, 2, 3, 4, 5, 6, 7], '07:00', '23:00'),
    },
    {
      id: 'shift_late',
      name: 'late',
      crew: hands(2),
      times: weekly([5, 6, 7], '16:00', '02:30'),
      paid: true,
    },
    {
      id: 'shift_ada',
      name: 'ada',
      crew: person('person_ada'),
      times: weekly([3, 4, 5, 6, 7], '10:00', '22:00'),
    },
    { id: 'shift_ben', name: 'ben', crew: person('person_ben'), times: weekly([6, 7], '09:00', '18:00') },
  ]
  const exits = hall.sections.flatMap(({ id, name }) =>
    ['a', 'b'].map((which) => ({
      siteId,
      id: `exit_${id.slice('section_'.length)}-${which}`,
      name: `${name} ${which}`,
      sectionId: id,
      clearWidthMetres: 1.8,
    })),
  )
  return {
    ...hall,
    site: { ...hall.site, zone },
    now: instantOfLocal(zone, firstDate, '07:00'),
    window: { fromAt: Instant.parse(EARLIEST_AT), toAt: Instant.parse(LATEST_AT) },
    shifts: shifts.map((row) => Shift.parse({ ...row, siteId })),
    exits: exits.map((row) => Exit.parse(row)),
    rooms: hall.rooms.map((room) =>
      room.id === 'room_side'
        ? {
            ...room,
            acousticallyJoinedRoomIds: hall.rooms.flatMap(({ id }) => (id === 'room_south' ? id : [])),
          }
        : room,
    ),
    // Half of the pieces: the same kinds of work, and less of it to look through.
    layouts: hall.layouts.map((layout) => ({
      ...layout,
      furnishings: layout.furnishings.map(({ furnishingId, count }) => ({
        furnishingId,
        count: Math.ceil(count / 2),
      })),
    })),
  }
}
