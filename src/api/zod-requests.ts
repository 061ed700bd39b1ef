/** Requests are checked by the zod schemas of their route; answers are not put through a schema again. */
import type {
  FastifyBaseLogger,
  FastifyInstance,
  FastifySchemaCompiler,
  FastifyTypeProvider,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from 'fastify'
import type { z } from 'zod'
import { type Fault, invalidInput, unknownResource } from './problems.ts'

/** Types of params, query, headers and body follow from the schemas of the route. */
export interface ZodRequests extends FastifyTypeProvider {
  validator: this['schema'] extends z.ZodType ? z.output<this['schema']> : unknown
  serializer: unknown
}

export type Api = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodRequests
>

/** The first so many faults are told; a body with thousands needs no longer list. */
const FAULTS_MOST = 20

/** A path that cannot be an id names nothing that exists; every other fault is told with its place. */
export const zodValidator: FastifySchemaCompiler<z.ZodType> =
  ({ schema, httpPart }) =>
  (data: unknown) => {
    const parsed = schema.safeParse(data)
    if (parsed.success) return { value: parsed.data }
    if (httpPart === 'params') {
      const name = String(parsed.error.issues[0]?.path[0] ?? 'thing')
      return { error: unknownResource(name, String(new Map(Object.entries(Object(data))).get(name))) }
    }
    const place = httpPart === 'querystring' ? 'query' : httpPart === 'headers' ? 'header' : 'body'
    return { error: invalidInput(faultsFrom(parsed.error, place, data).slice(0, FAULTS_MOST)) }
  }

/** RFC 6901. */
export const jsonPointer = (path: readonly PropertyKey[]): string =>
  path.map((step) => `/${String(step).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('')

/** @param data  what was parsed: only that tells what is missing from what is wrong */
export function faultsFrom(error: z.core.$ZodError, place: Fault['in'], data: unknown): Fault[] {
  return error.issues.flatMap((issue) =>
    issue.code === 'unrecognized_keys'
      ? issue.keys.map((key) => ({
          at: jsonPointer([...issue.path, key]),
          in: place,
          message: 'no such field here',
        }))
      : [{ at: jsonPointer(issue.path), in: place, message: messageOf(issue, data) }],
  )
}

/** What zod says of a wrong value; of one that is not there it would only say that it is undefined. */
function messageOf(issue: z.core.$ZodIssue, data: unknown): string {
  const isOfKind =
    issue.code === 'invalid_type' || issue.code === 'invalid_value' || issue.code === 'invalid_union'
  if (!isOfKind || valueAt(data, issue.path) !== undefined) return issue.message
  const expected = /expected .*/i.exec(issue.message)?.[0].replace(/, received undefined$/, '')
  const what = issue.path.length === 0 ? 'the whole is missing' : 'is missing'
  return expected === undefined ? what : `${what}; e${expected.slice(1)}`
}

const valueAt = (data: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (value, step) =>
      typeof value === 'object' && value !== null
        ? Object.getOwnPropertyDescriptor(value, step)?.value
        : undefined,
    data,
  )
