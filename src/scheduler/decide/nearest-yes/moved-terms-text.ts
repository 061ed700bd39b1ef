/** What a booking asks for by a time of its own moves along when it is moved: whoever takes it must hear that. */
import type { Booking } from '../../../domain/booking.ts'
import type { Instant } from '../../../domain/instant.ts'
import type { Milestone } from '../../../domain/task.ts'
import { dayAndTimeOf, localDateOf, localTimeOf } from '../../timeline/wall-time.ts'
import { someText } from '../../wording/list-text.ts'

const milestoneTexts: Readonly<Record<Milestone, string>> = {
  'floor-clear': 'the floor clear',
  'tables-up': 'tables up',
  'seats-up': 'seats up',
  'devices-ready': 'devices ready',
  'sound-checked': 'the sound checked',
}

/**
 * ` With it: tables up by 14:30 instead of 15:00, ushers from 15:30 to 17:00 instead of 18:00 to 19:30.`
 * @param moved  the same booking at other doors
 * @returns empty where it asks for nothing of the kind
 */
export function movedTermsText(asked: Booking, moved: Booking, zone: string): string {
  // On the day of the doors the clock is enough.
  const time = ({ doorsAt }: Booking, at: Instant) =>
    localDateOf(at, zone) === localDateOf(doorsAt, zone) &&
    localDateOf(asked.doorsAt, zone) === localDateOf(moved.doorsAt, zone)
      ? localTimeOf(at, zone)
      : dayAndTimeOf(at, zone)
  const milestones = moved.milestones.map(({ milestone, byAt }, index) => {
    const before = time(asked, asked.milestones[index]!.byAt)
    return `${milestoneTexts[milestone]} by ${time(moved, byAt)} instead of ${before}`
  })
  const crews = moved.crewDemands.map(({ what, fromAt, toAt }, index) => {
    const before = asked.crewDemands[index]!
    const span = `from ${time(moved, fromAt)} to ${time(moved, toAt)}`
    return `${what} ${span} instead of ${time(asked, before.fromAt)} to ${time(asked, before.toAt)}`
  })
  const all = [...milestones, ...crews]
  return all.length === 0 ? '' : ` With it: ${someText(all, 6)}.`
}
