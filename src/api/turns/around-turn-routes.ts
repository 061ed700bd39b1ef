/** Questions around the plan of a turn to come: by how many hands it is ready when, and what would have it ready sooner. */
import { z } from 'zod'
import { CURVE_HANDS_MOST, CURVE_HANDS_USUAL, HandsCurve } from '../../domain/hands-curve.ts'
import { TurnId } from '../../domain/ids.ts'
import { type Instant, instantPlusSeconds } from '../../domain/instant.ts'
import type { Site } from '../../domain/site.ts'
import { TURN_LATE_MOST_SECONDS, type Turn } from '../../domain/turn.ts'
import { WhatWouldHelp } from '../../domain/what-would-help.ts'
import type { AroundTurnReply, AroundTurnRequest } from '../../worker/around-turn.ts'
import type { Actor } from '../actor.ts'
import { jsonAnswer, send } from '../answer.ts'
import { CAUTION } from '../caution.ts'
import { type ApiContext, siteFor } from '../context.ts'
import { InstantReader } from '../instant-text.ts'
import { type Fault, Problem, refuseFaults, unknownResource } from '../problems.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'

const TurnParams = SiteParams.extend({ id: z.string() })

const handsMessage = `expected a whole number from 1 to ${CURVE_HANDS_MOST}`

const CurveQuery = z.strictObject({
  hands: z
    .string()
    .regex(/^[0-9]{1,2}$/, { error: handsMessage })
    .transform(Number)
    .refine((hands) => hands >= 1 && hands <= CURVE_HANDS_MOST, { error: handsMessage })
    .default(CURVE_HANDS_USUAL)
    .meta({
      description: `The most hands to look at: 1 to ${CURVE_HANDS_MOST}, ${CURVE_HANDS_USUAL} when left out`,
    }),
  doorsAt: z
    .string()
    .max(40)
    // A plus sign that was not percent-encoded arrives as a space.
    .transform((text) => text.replace(' ', '+'))
    .optional()
    .meta({
      description:
        'Ready by then: date and time, by the clock of the site or with offset; left out: doors of the turn',
    }),
})

const WithCaution = { caution: z.string() }

export function aroundTurnRoutes(api: Api, context: ApiContext): void {
  api.get(
    '/v1/sites/:site/turns/:id/hands-curve',
    {
      schema: {
        tags: ['turns'],
        summary: 'By how many hands a turn to come is ready when, and the fewest for given doors',
        description:
          'Planned anew as things stand now, with what other plans hold taken off: three choices of people are ' +
          'tried for each number: who of the crew has skills that are asked for and most time; the same without who comes ' +
          'late, and adults added who are there whenever the crew is; and who works most in the best plan of more. Whoever works is counted, ' +
          'those too who come after doors. The stored plan is one of those known. More hands are never ready later.',
        params: TurnParams,
        querystring: CurveQuery,
        response: { 200: HandsCurve.extend(WithCaution), ...problemResponses },
      },
    },
    async (request, reply) => {
      const { site, turn } = await turnFor(context, request.actor, request.params)
      const { hands: handsMost, doorsAt: text } = request.query
      const doorsAt = text === undefined ? null : doorsFrom(text, turn, site.zone)
      const answer = await asked(context, turn, { kind: 'hands-curve', handsMost, doorsAt })
      if (answer.kind !== 'hands-curve') throw new Error(`answered ${answer.kind} to a question for a curve`)
      return send(reply, jsonAnswer(200, { ...answer.curve, caution: CAUTION }, site.zone))
    },
  )

  api.get(
    '/v1/sites/:site/turns/:id/what-would-help',
    {
      schema: {
        tags: ['turns'],
        summary: 'What would have a turn to come ready sooner, and by how much, most first',
        description:
          'Each is found by planning the turn with it and everything else as it stands now, with the same effort: more ' +
          'hands, one more trolley or tool, a skill in one more of the crew, pieces staged at the door, the outgoing group ' +
          'striking its own chairs and tables, parking instead of the store, another layout, no optional tasks.',
        params: TurnParams,
        response: { 200: WhatWouldHelp.extend(WithCaution), ...problemResponses },
      },
    },
    async (request, reply) => {
      const { site, turn } = await turnFor(context, request.actor, request.params)
      const answer = await asked(context, turn, { kind: 'what-would-help' })
      if (answer.kind !== 'what-would-help') throw new Error(`answered ${answer.kind} to what would help`)
      return send(reply, jsonAnswer(200, { ...answer.help, caution: CAUTION }, site.zone))
    },
  )
}

/** @throws Problem unknown-resource */
async function turnFor(
  context: ApiContext,
  actor: Actor,
  { site: siteId, id }: z.output<typeof TurnParams>,
): Promise<{ readonly site: Site; readonly turn: Turn }> {
  const site = await siteFor(context, actor, siteId)
  const turnId = TurnId.safeParse(id)
  const turn = turnId.success ? await context.store.turn(site.id, turnId.data) : null
  if (!turn) throw unknownResource('turn', id)
  return { site, turn }
}

/** @throws Problem where the turn is not to come */
async function asked(
  { batchDecider: decider, clock }: ApiContext,
  { siteId, id: turnId }: Turn,
  question: AroundTurnRequest['asked'],
): Promise<Exclude<AroundTurnReply, { kind: 'no-turn' | 'turn-is-over' | 'turn-has-begun' }>> {
  const answer = await decider.aroundTurn({ siteId, turnId, now: clock(), asked: question })
  switch (answer.kind) {
    case 'no-turn':
      throw unknownResource('turn', turnId)
    case 'turn-is-over':
      throw new Problem('turn-is-over', 'The turn was given up, or its doors are past.')
    case 'turn-has-begun':
      throw new Problem('turn-has-begun', 'The turn is under way by its plan.')
    default:
      return answer
  }
}

/** @throws Problem invalid-input */
function doorsFrom(text: string, { releaseAt, dueAt }: Turn, zone: string): Instant | null {
  const reader = new InstantReader(zone, 'query')
  const doorsAt = reader.read('/doorsAt', text)
  refuseFaults(reader.faults)
  if (doorsAt === null) return null
  const fault = (message: string): Fault[] => [{ at: '/doorsAt', in: 'query', message }]
  if (doorsAt <= releaseAt) refuseFaults(fault('must be after the last of those before are out'))
  if (doorsAt > instantPlusSeconds(dueAt, TURN_LATE_MOST_SECONDS))
    refuseFaults(fault('must be within a day after doors of the turn: later is not looked at'))
  return doorsAt
}
