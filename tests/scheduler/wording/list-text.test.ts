import { describe, expect, test } from 'vitest'
import { listText, someText } from '../../../src/scheduler/wording/list-text.ts'

describe('a list in words', () => {
  test('has commas, and a word before the last', () => {
    expect(listText(['chairs', 'tables', 'cloths'])).toBe('chairs, tables and cloths')
    expect(listText(['chairs', 'tables'])).toBe('chairs and tables')
    expect(listText(['up', 'down', 'half'], 'or')).toBe('up, down or half')
  })

  test('of one is that one, of none is empty', () => {
    expect(listText(['chairs'])).toBe('chairs')
    expect(listText([])).toBe('')
  })
})

describe('a list that may be long', () => {
  test('is told in full up to its bound', () => {
    expect(someText(['a', 'b', 'c'])).toBe('a, b and c')
    expect(someText([])).toBe('')
  })

  test('is told up to its bound, with how many there are more', () => {
    expect(someText(['a', 'b', 'c', 'd', 'e'])).toBe('a, b, c and 2 more')
    expect(someText(['a', 'b', 'c'], 1)).toBe('a and 2 more')
  })
})
