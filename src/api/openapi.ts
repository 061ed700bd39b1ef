/** The OpenAPI 3.1 document, made from the schemas of the routes. */
import swagger from '@fastify/swagger'
import { createJsonSchemaTransform, createJsonSchemaTransformObject } from 'fastify-type-provider-zod'
import { z } from 'zod'
import type { Configuration } from '../configuration.ts'
import { Booking } from '../domain/booking.ts'
import { AnsweredReason, DecisionAnswer } from '../domain/decision.ts'
import { EARLIEST_AT, LATEST_AT } from '../domain/instant.ts'
import { Site } from '../domain/site.ts'
import { TurnBrief } from '../domain/turn.ts'
import { ProblemBody } from './problems.ts'
import type { Api } from './zod-requests.ts'

/** Schemas that are referred to by name; those of the set-up name themselves (`storedSchema`). */
const named = {
  Booking,
  Decision: DecisionAnswer,
  Problem: ProblemBody,
  Reason: AnsweredReason,
  Site,
  TurnBrief,
}
for (const [id, schema] of Object.entries(named)) {
  z.globalRegistry.add(schema, { ...z.globalRegistry.get(schema), id })
}

interface Shown {
  readonly zodSchema: z.core.$ZodType
  readonly jsonSchema: z.core.JSONSchema.BaseSchema
}

/** Moments travel as text, and an answer may gain fields that a reader does not know yet. */
function override({ zodSchema, jsonSchema }: Shown): void {
  if (jsonSchema.minimum === EARLIEST_AT && jsonSchema.maximum === LATEST_AT) {
    jsonSchema.type = 'string'
    jsonSchema.format = 'date-time'
    delete jsonSchema.minimum
    delete jsonSchema.maximum
  }
  const takesMore = zodSchema instanceof z.ZodObject && zodSchema.def.catchall === undefined
  if (takesMore) delete jsonSchema.additionalProperties
}

export async function openApi(api: Api, { host, port }: Configuration): Promise<void> {
  const toObject = createJsonSchemaTransformObject({ zodToJsonConfig: { override } })
  await api.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Turnwright',
        version: '1',
        description:
          'Books the rooms of a shared hall, computes the turn (changeover) between bookings, refuses what cannot be ' +
          'turned in the gap, and hands the crew its task list.',
      },
      servers: [{ url: `http://${host.includes(':') ? `[${host}]` : host}:${port}` }],
    },
    transform: createJsonSchemaTransform({ zodToJsonConfig: { override } }),
    transformObject: (document) => withoutSpareSchemas(toObject(document)),
  })
  api.get(
    '/openapi.json',
    {
      schema: {
        tags: ['documents'],
        summary: 'This document',
        response: { 200: z.looseObject({ openapi: z.string() }) },
      },
    },
    async () => api.swagger(),
  )
}

/** Each named schema is made for input and for output; those that nothing refers to are left out. */
function withoutSpareSchemas<Document extends object>(document: Document): Document {
  if (!('components' in document) || !isRecord(document.components)) return document
  const { schemas } = document.components
  if (!isRecord(schemas)) return document
  const { components, ...rest } = document
  let kept = Object.entries(schemas)
  for (let before = -1; before !== kept.length; ) {
    before = kept.length
    const text = JSON.stringify([rest, kept])
    kept = kept.filter(([name]) => text.includes(`"#/components/schemas/${name}"`))
  }
  return { ...document, components: { ...components, schemas: Object.fromEntries(kept) } }
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null
