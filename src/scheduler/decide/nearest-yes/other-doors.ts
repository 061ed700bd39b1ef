/** The nearest earlier and the nearest later doors at which the same booking, moved as a whole, is accepted. */
import type { Alternative } from '../../../domain/alternative.ts'
import { type Reason, type ReasonCode, speaksAgainst } from '../../../domain/reason.ts'
import { dayAndTimeOf } from '../../timeline/wall-time.ts'
import { aroundAsked } from './around-asked.ts'
import type { AskedFor } from './asked-for.ts'
import { CannotBeTurned } from './cannot-be-turned.ts'
import { earlierDoors } from './earlier-doors.ts'
import { fitsText } from './fits-text.ts'
import { laterDoors } from './later-doors.ts'
import { movedTermsText } from './moved-terms-text.ts'
import { type NearestDoors, nearestDoors } from './nearest-doors.ts'

/** Another time cannot help against these. */
const timeless: ReadonlySet<ReasonCode> = new Set([
  'headcount-over-posted-limit',
  'headcount-over-computed-load',
  'headcount-over-seats',
])

/** @returns one each way at most; none where time is not what is in the way */
export function otherDoors(asked: AskedFor, reasons: readonly Reason[]): Alternative[] {
  if (reasons.filter(speaksAgainst).some(({ code }) => timeless.has(code))) return []
  const around = aroundAsked(asked)
  const cannot = new CannotBeTurned(around.duties)
  return [earlierDoors, laterDoors].flatMap((way) => {
    const found = nearestDoors(asked, around, cannot, way(around, asked.booking))
    return found === null ? [] : [alternative(asked, found)]
  })
}

function alternative(
  { world, booking: asked }: AskedFor,
  { booking, verdict, allUpToAt }: NearestDoors,
): Alternative {
  const { zone } = world.setup.site
  const { doorsAt, startsAt, endsAt, clearAt } = booking
  const offered = `With doors at ${dayAndTimeOf(doorsAt, zone)} ${fitsText(verdict)}`
  const searched =
    allUpToAt === null
      ? ''
      : ` All times were searched up to ${dayAndTimeOf(allUpToAt, zone)}, beyond that only some.`
  const message = `${offered}${movedTermsText(asked, booking, zone)}${searched}`
  return { kind: 'other-doors', certainty: 'yes', doorsAt, startsAt, endsAt, clearAt, verdict, message }
}
