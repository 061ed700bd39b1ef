/** What is wrong with a value, in the words of the hall: zod's own would speak of ints, and of expected and received. */
import { z } from 'zod'

/** Checks a value of a request, or a part of one. Messages that a schema brings itself stay as they are. */
export const checkedBy = <Schema extends z.ZodType>(schema: Schema, value: unknown) =>
  schema.safeParse(value, { error: faultWords })

/** undefined: for this there are no better words than zod's. */
const faultWords: z.core.$ZodErrorMap = (issue) => {
  switch (issue.code) {
    case 'invalid_type':
      return wrongKind(issue)
    case 'too_small':
      return tooSmall(issue)
    case 'too_big':
      return tooBig(issue)
    case 'invalid_value':
      return oneOf(issue.values, issue.input === undefined)
    case 'invalid_union':
      return typeof issue.discriminator === 'string' && Array.isArray(issue.options)
        ? oneOf(issue.options, fieldOf(issue.input, issue.discriminator) === undefined)
        : undefined
    case 'invalid_format':
      return issue.format === 'email' ? 'must be an e-mail address' : undefined
    case 'invalid_key':
      return 'is no name that is taken here'
    default:
      return undefined
  }
}

const kindWords: ReadonlyMap<string, string> = new Map([
  ['string', 'text'],
  ['number', 'a number'],
  ['int', 'a whole number'],
  ['boolean', 'true or false'],
  ['array', 'a list'],
  ['tuple', 'a list'],
  ['object', 'an object'],
  ['record', 'an object'],
])

type Issue<Code> = Extract<z.core.$ZodRawIssue, { readonly code?: Code }>

function wrongKind({ expected, input, inst }: Issue<'invalid_type'>): string {
  // 1e999 is a number to JSON, and endless to the program.
  if (typeof input === 'number' && !Number.isFinite(input))
    return input > 0 ? 'is too large a number' : 'is too small a number'
  const kind = inst instanceof z.ZodNumberFormat ? 'int' : String(expected)
  return `must be ${kindWords.get(kind) ?? kind}`
}

function tooSmall({ origin, minimum, inclusive }: Issue<'too_small'>): string {
  if (origin === 'string')
    return minimum === 1 ? 'must not be empty' : `must have at least ${minimum} characters`
  if (origin === 'array') return `list at least ${minimum}`
  if (minimum === Number.MIN_SAFE_INTEGER) return 'is too small for a count'
  return inclusive === false ? `must be more than ${minimum}` : `must be ${minimum} or more`
}

function tooBig({ origin, maximum, inclusive }: Issue<'too_big'>): string {
  if (origin === 'string') return `must have at most ${maximum} characters`
  if (origin === 'array') return `list at most ${maximum}`
  if (maximum === Number.MAX_SAFE_INTEGER) return 'is too large for a count'
  return inclusive === false ? `must be less than ${maximum}` : `must be at most ${maximum}`
}

function oneOf(values: readonly unknown[], isMissing: boolean): string {
  const listed = values.map((value) => JSON.stringify(value)).join(', ')
  if (values.length === 1) return `must be ${listed}`
  return isMissing ? `must be one of ${listed}` : `is not one of ${listed}`
}

const fieldOf = (value: unknown, name: string): unknown =>
  typeof value === 'object' && value !== null
    ? Object.getOwnPropertyDescriptor(value, name)?.value
    : undefined
