/** Of a group no more help than the crew on duty when it begins can lead: six for each. */
import { leftAt } from '../../../domain/booking.ts'
import { HELPERS_PER_LEAD } from '../../../domain/booking-terms.ts'
import { instantPlusSeconds } from '../../../domain/instant.ts'
import { lanesOnDuty } from '../../timeline/lanes-on-duty.ts'
import type { WholeSite } from './whole-site.ts'

export function helpersLed({ world, toCome }: WholeSite): string[] {
  return toCome.flatMap((turn) =>
    world.bookings
      .filter(({ id, ownHelp }) => ownHelp !== null && turn.predecessorBookingIds.includes(id))
      .flatMap((group) => {
        const lanes = (turn.plan?.tasks ?? []).flatMap(({ laneIds }) => laneIds)
        const helping = new Set(lanes.filter((laneId) => laneId.startsWith(`${group.id}#`))).size
        if (helping === 0) return []
        const atAt = leftAt(group)
        const there = lanesOnDuty(world.setup, { fromAt: atAt, toAt: instantPlusSeconds(atAt, 1) })
        const leads = there.filter(({ onDuty }) =>
          onDuty.some(({ fromAt, toAt }) => fromAt <= atAt && atAt < toAt),
        ).length
        return helping > leads * HELPERS_PER_LEAD
          ? [`${turn.id}: ${leads} of the crew lead ${helping} of ${group.id}`]
          : []
      }),
  )
}
