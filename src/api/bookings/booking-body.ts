/** What a booking is asked for with. */
import { z } from 'zod'
import { Booking } from '../../domain/booking.ts'
import { InstantText } from '../instant-text.ts'

const { title, roomId, layoutId, headcount, foodServed, floorWet } = Booking.shape

const byPolicy = (what: string) =>
  InstantText.nullable()
    .optional()
    .meta({ description: `${what}; null or left out: by the policy of the site for this kind of layout` })

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

/** What is left out stays as it is; doors go with the start and clear with the end unless they are named. */
export const BookingPatch = BookingBody.extend({
  doorsAt: kept('When guests may come in', 'start'),
  clearAt: kept('When the last guest is out', 'end'),
}).partial()
export type BookingPatch = z.infer<typeof BookingPatch>
