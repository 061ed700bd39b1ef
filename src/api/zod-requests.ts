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
import { checkedBy } from './fault-words.ts'
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
    const parsed = checkedBy(schema, data)
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

/**
 * @param error  of `checkedBy`
 * @param data   what was parsed: only that tells what is missing from what is wrong
 */
export function faultsFrom(error: z.core.$ZodError, place: Fault['in'], data: unknown): Fault[] {
  return error.issues.flatMap((issue) => {
    if (issue.code === 'unrecognized_keys') {
      return issue.keys.map((key) => ({
        at: jsonPointer([...issue.path, key]),
        in: place,
        message: place === 'query' ? 'no such parameter here; leave it out' : 'no such field here',
      }))
    }
    if (isBeyondCounting(issue) && error.issues.some((other) => saysMore(other, issue))) return []
    return [{ at: jsonPointer(issue.path), in: place, message: messageOf(issue, data) }]
  })
}

/** Every whole number is held against what can be counted exactly, besides its own bounds. */
const isBeyondCounting = (issue: z.core.$ZodIssue): boolean =>
  (issue.code === 'too_big' && issue.maximum === Number.MAX_SAFE_INTEGER) ||
  (issue.code === 'too_small' && issue.minimum === Number.MIN_SAFE_INTEGER)

const saysMore = (other: z.core.$ZodIssue, issue: z.core.$ZodIssue): boolean =>
  other !== issue && other.code === issue.code && jsonPointer(other.path) === jsonPointer(issue.path)

/** Of a value that is not there it is said that it is missing, and what it must be. */
function messageOf(issue: z.core.$ZodIssue, data: unknown): string {
  const isOfKind =
    issue.code === 'invalid_type' || issue.code === 'invalid_value' || issue.code === 'invalid_union'
  if (!isOfKind || valueAt(data, issue.path) !== undefined) return issue.message
  const isMissing = issue.path.length === 0 ? 'the whole is missing' : 'is missing'
  return /^must be /.test(issue.message)
    ? `${isMissing}; it ${issue.message}`
    : `${isMissing}; ${issue.message}`
}

const valueAt = (data: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (value, step) =>
      typeof value === 'object' && value !== null
        ? Object.getOwnPropertyDescriptor(value, step)?.value
        : undefined,
    data,
  )
