/** What a booking is asked for with. */
import { z } from 'zod'
import { Booking } from '../../domain/booking.ts'
import { AcceptedRisk, BookingMilestone, CrewDemand, OwnHelp } from '../../domain/booking-terms.ts'
import { InstantText } from '../instant-text.ts'
import { strictly } from '../setup/body-schemas.ts'

const { title, roomId, layoutId, headcount, foodServed, floorWet, priority, quietNeeded } = Booking.shape
const crewDemands = strictly(CrewDemand.extend({ fromAt: InstantText, toAt: InstantText }))
const milestones = strictly(BookingMilestone.extend({ byAt: InstantText }))

const byPolicy = (what: string) =>
  InstantText.nullable()
    .optional()
    .meta({ description: `${what}; null or left out: by the policy of the site for this kind of layout` })

const hold = z.strictObject({ expiresAt: InstantText.meta({ description: 'At or before doors' }) })

export const BookingBody = z.strictObject({
  title,
  roomId,
  layoutId,
  headcount,
  startsAt: InstantText,
  endsAt: InstantText,
  doorsAt: byPolicy('When guests may come in'),
  clearAt: byPolicy('When the last guest is out'),
  foodServed: foodServed.optional().meta({ description: 'Left out: true for a banquet, false otherwise' }),
  floorWet: floorWet.optional().meta({ description: 'Left out: false' }),
  priority: priority.unwrap().optional().meta({
    description: 'Among bookings with the same doors, the higher one has the crew first; left out: 0',
  }),
  quietNeeded: quietNeeded.unwrap().optional().meta({
    description:
      'From start to end no noisy work in rooms that it hears; left out: true for worship, false otherwise',
  }),
  crewDemands: z.array(crewDemands).max(20).optional().meta({
    description:
      'Crew that the event itself takes, each at most 24 h, from 48 h before doors until 24 h after clear',
  }),
  milestones: z.array(milestones).max(10).optional().meta({
    description:
      'What must be reached before doors (by the turn that prepares it) or after clear (by the next one), at most 48 h away',
  }),
  ownHelp: strictly(OwnHelp).nullable().optional().meta({
    description: 'Hands of the group itself right after clear, for chairs and tables; null or left out: none',
  }),
  hold: hold.optional().meta({
    description: 'A hold, which lapses by itself unless it is confirmed by then; left out: firm',
  }),
  takeRisk: z
    .strictObject({ why: AcceptedRisk.shape.why })
    .optional()
    .meta({
      description:
        'Take it even if it does not fit, as far as every reason may be decided otherwise: whoever asks answers for it. ' +
        'Where it fits, nothing is noted',
    }),
})
export type BookingBody = z.infer<typeof BookingBody>

const kept = (what: string, anchor: string) =>
  InstantText.nullable()
    .optional()
    .meta({
      description:
        `${what}; left out: moves with the ${anchor} and keeps its distance to it; ` +
        'null: by the policy of the site for this kind of layout',
    })

const alongWithTheBooking =
  'left out: what lies before the end moves with the start, what lies after it with the end'

/**
 * What is left out stays as it is; doors go with the start and clear with the end unless they are named, and so do
 * demands and milestones.
 */
export const BookingPatch = BookingBody.extend({
  doorsAt: kept('When guests may come in', 'start'),
  clearAt: kept('When the last guest is out', 'end'),
  crewDemands: BookingBody.shape.crewDemands.meta({
    description: `Crew that the event itself takes; ${alongWithTheBooking}`,
  }),
  milestones: BookingBody.shape.milestones.meta({
    description: `What must be reached before doors or after clear; ${alongWithTheBooking}`,
  }),
  hold: hold.optional().meta({ description: 'Another end of a hold; a firm booking stays firm' }),
  takeRisk: BookingBody.shape.takeRisk.meta({
    description:
      'Take it even if it does not fit; left out: a risk that was taken holds as long as nothing but the title or the ' +
      'end of a hold changes',
  }),
}).partial()
export type BookingPatch = z.infer<typeof BookingPatch>
