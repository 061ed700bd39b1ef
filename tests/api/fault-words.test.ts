import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { checkedBy } from '../../src/api/fault-words.ts'
import { faultsFrom } from '../../src/api/zod-requests.ts'
import { TextLine, WorkSeconds } from '../../src/domain/units.ts'

const told = (schema: z.ZodType, value: unknown): string[] => {
  const { error } = checkedBy(schema, value)
  return error ? faultsFrom(error, 'body', value).map(({ at, message }) => `${at}: ${message}`) : []
}

const choice = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('off') }),
  z.object({ kind: z.literal('level'), levelPercent: z.number().positive().lt(100) }),
])

describe('what is wrong with a value is said in plain words:', () => {
  const cases: [what: string, schema: z.ZodType, value: unknown, message: string][] = [
    ['a number too small', z.int().min(0), -1, 'must be 0 or more'],
    ['a number that must be above', z.number().positive(), 0, 'must be more than 0'],
    ['a number too large', z.int().max(5_000), 5_001, 'must be at most 5000'],
    ['a number that must be below', z.number().lt(360), 360, 'must be less than 360'],
    ['half of a whole', z.int().min(1), 1.5, 'must be a whole number'],
    ['text for a whole number', z.int().min(1), '100', 'must be a whole number'],
    ['text for a number', z.number(), '1', 'must be a number'],
    ['a number for text', z.string(), 7, 'must be text'],
    ['text for a yes or no', z.boolean(), 'yes', 'must be true or false'],
    ['an object for a list', z.array(z.string()), {}, 'must be a list'],
    ['a list for an object', z.strictObject({}), [], 'must be an object'],
    ['null for a choice of objects', choice, null, 'must be an object'],
    ['a list too long', z.array(z.int()).max(1), [1, 2], 'list at most 1'],
    ['a list too short', z.array(z.int()).min(3), [1], 'list at least 3'],
    ['text that is empty', TextLine(40), '  ', 'must not be empty'],
    ['text that is too short', z.string().min(2), 'a', 'must have at least 2 characters'],
    ['text that is too long', TextLine(3), 'long', 'must have at most 3 characters'],
    ['another choice', z.enum(['carry', 'roll']), 'throw', 'is not one of "carry", "roll"'],
    ['another constant', z.literal('turnwright-site'), 'x', 'must be "turnwright-site"'],
    ['a misspelt address', z.email(), 'reed at home', 'must be an e-mail address'],
    ['more than can be counted', z.int(), 1e300, 'is too large for a count'],
    ['less than can be counted', z.int(), -1e300, 'is too small for a count'],
    ['a number without end', z.number().max(5), JSON.parse('1e999'), 'is too large a number'],
    ['a number without end downwards', z.number(), JSON.parse('-1e999'), 'is too small a number'],
  ]
  test.each(cases)('%s', (_what, schema, value, message) => {
    expect(told(schema, value)).toEqual([`: ${message}`])
  })

  test('a number beyond counting is told its own bound, and that alone', () => {
    expect(told(z.int().min(1).max(5_000), 1e300)).toEqual([': must be at most 5000'])
    expect(told(z.int().min(1), -1e300)).toEqual([': must be 1 or more'])
  })

  test('what is missing, and what it must be', () => {
    const body = z.strictObject({
      name: z.string(),
      count: z.int().min(1),
      kind: z.enum(['roll', 'carry']),
      format: z.literal('one'),
      setting: choice,
    })
    expect(told(body, { setting: {} })).toEqual([
      '/name: is missing; it must be text',
      '/count: is missing; it must be a whole number',
      '/kind: is missing; it must be one of "roll", "carry"',
      '/format: is missing; it must be "one"',
      '/setting/kind: is missing; it must be one of "off", "level"',
    ])
    expect(told(body, undefined)).toEqual([': the whole is missing; it must be an object'])
  })

  test('a choice of objects that is none of them', () => {
    expect(told(choice, { kind: 'dim' })).toEqual(['/kind: is not one of "off", "level"'])
  })

  test('a name that is none of a record', () => {
    const byPath = z.record(z.string().regex(/^[a-z]+$/), z.int())
    expect(told(byPath, { A: 1 })).toEqual(['/A: is no name that is taken here'])
    expect(told(z.strictObject({}), { A: 1 })).toEqual(['/A: no such field here'])
  })

  test('in the words of the schema where it has its own', () => {
    expect(told(WorkSeconds, 86_401)).toEqual([
      ': expected at most 86400 seconds: one step of work takes a day at most',
    ])
    const day = z.iso.date({ error: 'expected a day' })
    expect(told(z.strictObject({ day }), {})).toEqual(['/day: is missing; expected a day'])
  })
})
