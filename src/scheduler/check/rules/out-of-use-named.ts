/** Taking something out of use leaves rows behind that still name it. What merely lists it, as a route does, is no harm. */
import type { Finding } from '../../../domain/finding.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import type { SetupToCheck } from '../setup-to-check.ts'

interface Named {
  /** A word for the row that names. */
  readonly word: string
  readonly about: Finding['about']
  readonly field: string
  readonly id: string
}

export function outOfUseNamed({ setup }: SetupReading): Found[] {
  const { sections, rooms, storagePlaces, furnishings, equipment, layouts, people } = setup
  const inForce = new Set<string>(
    [sections, rooms, storagePlaces, furnishings, equipment, layouts, people].flatMap((rows) =>
      rows.map(({ id }) => id),
    ),
  )
  const { retired } = setup
  const names = new Map<string, string>(
    [retired.sections, retired.rooms, retired.storagePlaces, retired.furnishings]
      .flatMap((rows) => rows.map(({ id, name }): [string, string] => [id, name]))
      .concat([retired.equipment, retired.layouts].flatMap((rows) => rows.map(({ id, name }) => [id, name]))),
  )
  return namedIn(setup)
    .filter(({ id }) => !inForce.has(id))
    .map(({ word, about, field, id }) => ({
      code: 'out-of-use-named',
      about,
      message: `${word} ${about.name} names ${names.get(id) ?? id}, which is out of use`,
      fix: 'name another one in its place, or take this out of use as well',
      field,
    }))
}

const namedIn = ({ exits, rooms, furnishings, equipment, layouts, shifts }: SetupToCheck): Named[] => [
  ...exits.map(
    (exit): Named => ({
      word: 'exit',
      about: aboutRow('exit', exit),
      field: '/sectionId',
      id: exit.sectionId,
    }),
  ),
  ...rooms.flatMap((room): Named[] => {
    const row = { word: 'room', about: aboutRow('room', room) }
    const home = room.homeLayoutId
    return [
      ...room.sectionIds.map((id, index) => ({ ...row, field: `/sectionIds/${index}`, id })),
      ...(home === null ? [] : [{ ...row, field: '/homeLayoutId', id: home }]),
    ]
  }),
  ...furnishings.map(
    (furnishing): Named => ({
      word: 'furnishing',
      about: aboutRow('furnishing', furnishing),
      field: '/storagePlaceId',
      id: furnishing.storagePlaceId,
    }),
  ),
  ...equipment.flatMap((device): Named[] => {
    const row = { word: 'device', about: aboutRow('equipment', device) }
    return [
      ...device.sectionIds.map((id, index) => ({ ...row, field: `/sectionIds/${index}`, id })),
      ...device.standInIds.map((id, index) => ({ ...row, field: `/standInIds/${index}`, id })),
    ]
  }),
  ...layouts.flatMap((layout): Named[] => {
    const row = { word: 'layout', about: aboutRow('layout', layout) }
    return [
      { ...row, field: '/roomId', id: layout.roomId },
      ...layout.furnishings.map(({ furnishingId }, index) => ({
        ...row,
        field: `/furnishings/${index}/furnishingId`,
        id: furnishingId,
      })),
      ...layout.equipment.map(({ equipmentId }, index) => ({
        ...row,
        field: `/equipment/${index}/equipmentId`,
        id: equipmentId,
      })),
    ]
  }),
  ...shifts.flatMap((shift): Named[] =>
    shift.crew.kind === 'person'
      ? [
          {
            word: 'shift',
            about: aboutRow('shift', shift),
            field: '/crew/personId',
            id: shift.crew.personId,
          },
        ]
      : [],
  ),
]
