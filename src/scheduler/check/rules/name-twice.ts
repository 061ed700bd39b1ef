import type { SetupKind } from '../../../domain/setup.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

interface Named {
  readonly kind: Extract<SetupKind, 'room' | 'layout'>
  readonly row: { readonly id: string; readonly name: string }
  /** Names must differ within a group. */
  readonly group: string
  readonly among: string
}

/** Rooms of the site, and layouts of one room, that nobody can tell apart by their name. Capitals tell nothing apart. */
export function nameTwice({ setup, rooms, layouts }: SetupReading): Found[] {
  const seen = new Set<string>()
  const named: Named[] = [
    ...setup.rooms.map((row): Named => ({ kind: 'room', row, group: 'rooms', among: 'two rooms' })),
    ...[...layouts.values()].map(
      (row): Named => ({
        kind: 'layout',
        row,
        group: row.roomId,
        among: `two layouts of ${rooms.get(row.roomId)?.name ?? row.roomId}`,
      }),
    ),
  ]
  return named.flatMap(({ kind, row, group, among }): Found[] => {
    const key = `${group} ${row.name.toLowerCase()}`
    if (!seen.has(key)) {
      seen.add(key)
      return []
    }
    return [
      {
        code: 'name-twice',
        about: aboutRow(kind, row),
        message: `${among} are called ${row.name}`,
        fix: 'give one of them another name, or take it out of use if it was entered twice',
        field: '/name',
      },
    ]
  })
}
