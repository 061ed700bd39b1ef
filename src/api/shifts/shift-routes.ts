import { z } from 'zod'
import { Shift, ShiftCrew, ShiftTimes } from '../../domain/shift.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { InstantText } from '../instant-text.ts'
import { strictly } from '../setup/body-schemas.ts'
import { momentFields } from '../setup/moment-fields.ts'
import { setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { setupRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const [OnceTimes, WeeklyTimes] = ShiftTimes.options
const [PersonCrew, HandsCrew] = ShiftCrew.options

const ShiftBody = strictly(
  Shift.omit({ id: true, siteId: true }).extend({
    crew: z.discriminatedUnion('kind', [
      PersonCrew,
      HandsCrew.extend({ skills: HandsCrew.shape.skills.default([]) }),
    ]),
    times: z.discriminatedUnion('kind', [
      OnceTimes.extend({ startsAt: InstantText, endsAt: InstantText }),
      WeeklyTimes.extend({ lastDate: WeeklyTimes.shape.lastDate.default(null) }),
    ]),
  }),
)

const shiftBodies = setupBodies(ShiftBody, (body, reader) => {
  const { times } = body
  return times?.kind === 'once'
    ? { ...body, times: { ...times, ...momentFields(reader, times, ['startsAt', 'endsAt'], '/times') } }
    : body
})

export const shiftRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'shifts',
    kind: 'shift',
    noun: 'shift',
    prefix: 'shift',
    answerSchema: storedSchema(Shift, 'Shift'),
    bodies: shiftBodies,
    additionTouchesTurns: true,
  })
