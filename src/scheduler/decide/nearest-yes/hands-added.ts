/** More hands on duty, as whoever found them would enter them. */
import { ShiftId } from '../../../domain/ids.ts'
import type { Operation } from '../../../domain/operation.ts'
import type { SetupWrite } from '../../../domain/setup.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import type { HandsWanted } from './hands-wanted.ts'

/** They are adults, and nobody pays them by the hour. */
export function handsAdded(
  { site, shifts, retired }: SiteSnapshot,
  { fromAt, toAt, hands, handsWithSkills, skills }: HandsWanted,
): Extract<Operation, { kind: 'set-up' }> {
  const known = new Set([...shifts, ...retired.shifts].map(({ id }) => id))
  const crews = [
    { hands: handsWithSkills, skills: [...skills] },
    { hands: hands - handsWithSkills, skills: [] },
  ].filter((crew) => crew.hands > 0)
  const writes = crews.map((crew): SetupWrite => {
    const id = freeId(known)
    known.add(id)
    return {
      kind: 'shift',
      before: null,
      after: {
        id,
        siteId: site.id,
        name: 'More hands',
        crew: { kind: 'hands', adults: true, ...crew },
        times: { kind: 'once', startsAt: fromAt, endsAt: toAt },
        paid: false,
      },
      retire: false,
    }
  })
  return { kind: 'set-up', writes, span: { fromAt, toAt }, restFromAt: null }
}

function freeId(known: ReadonlySet<ShiftId>): ShiftId {
  for (let number = 1; ; number += 1) {
    const id = ShiftId.parse(`shift_more-hands-${number}`)
    if (!known.has(id)) return id
  }
}
