import type { PersonId } from '../../../domain/ids.ts'
import type { Shift } from '../../../domain/shift.ts'
import { lanesOnDuty } from '../../timeline/lanes-on-duty.ts'
import { dayAndTimeOf } from '../../timeline/wall-time.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

interface Stretch {
  readonly shift: Shift
  readonly fromAt: SetupReading['now']
  readonly toAt: SetupReading['now']
}

/** The first time it happens, for each person. They count once all the same; the entry is what is wrong. */
export function personTwiceOnDuty(reading: SetupReading): Found[] {
  const { setup, nameOf } = reading
  return setup.people.flatMap((person): Found[] => {
    const clash = firstClash(reading, person.id)
    if (!clash) return []
    const name = nameOf(person.id)
    const [a, b] = clash
    const when = dayAndTimeOf(b.fromAt, setup.site.zone)
    return [
      {
        code: 'person-twice-on-duty',
        about: aboutRow('shift', b.shift),
        message: `${name} is on two shifts at once, ${a.shift.name} and ${b.shift.name}, from ${when}`,
        fix: 'change the times of one of them, or give it to somebody else',
        field: '/times',
      },
    ]
  })
}

function firstClash(
  { setup, now, dutyUntilAt }: SetupReading,
  personId: PersonId,
): [Stretch, Stretch] | null {
  const shifts = setup.shifts.filter(({ crew }) => crew.kind === 'person' && crew.personId === personId)
  if (shifts.length < 2) return null
  const stretches = shifts
    .flatMap((shift): Stretch[] =>
      lanesOnDuty({ ...setup, shifts: [shift] }, { fromAt: now, toAt: dutyUntilAt }).flatMap(({ onDuty }) =>
        onDuty.map((times) => ({ shift, ...times })),
      ),
    )
    .sort((a, b) => a.fromAt - b.fromAt || (a.shift.id < b.shift.id ? -1 : 1))
  let open: Stretch | null = null
  for (const stretch of stretches) {
    if (open && stretch.fromAt < open.toAt) return [open, stretch]
    if (!open || stretch.toAt > open.toAt) open = stretch
  }
  return null
}
