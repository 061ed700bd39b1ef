import { Room } from '../../domain/room.ts'
import { dayAndTimeOf } from '../../scheduler/timeline/wall-time.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { bodyFault, type Fault } from '../problems.ts'
import { strictly } from '../setup/body-schemas.ts'
import { type SetupRowChange, setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { setupRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const { occupantLimitPosted, homeLayoutId, openingHours } = Room.shape

const RoomBody = strictly(
  Room.omit({ id: true, siteId: true }).extend({
    occupantLimitPosted: occupantLimitPosted.default(null),
    homeLayoutId: homeLayoutId.default(null),
    openingHours: openingHours.default(null),
  }),
)

export const roomRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'rooms',
    kind: 'room',
    noun: 'room',
    prefix: 'room',
    answerSchema: storedSchema(Room, 'Room'),
    bodies: setupBodies(RoomBody),
    additionTouchesTurns: false,
    changeFaults: sectionsFaults,
  })

/** A booking holds the sections that its room had when it was made. */
async function sectionsFaults({ before, after, setup, context }: SetupRowChange<'room'>): Promise<Fault[]> {
  const isSame =
    before.sectionIds.length === after.sectionIds.length &&
    after.sectionIds.every((id) => before.sectionIds.includes(id))
  if (isSame) return []
  const use = { roomIds: [after.id], layoutIds: [] }
  const [next] = await context.store.comingBookings(setup.site.id, context.clock(), use, 1)
  if (!next) return []
  const when = dayAndTimeOf(next.doorsAt, setup.site.zone)
  const message = `the sections of ${before.name} stay while bookings are to come, the next one ${next.title} with doors on ${when}; add another room over the sections that are wanted`
  return [bodyFault('/sectionIds', message)]
}
