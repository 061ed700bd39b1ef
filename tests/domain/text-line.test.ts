import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { Name, TextLine } from '../../src/domain/units.ts'

const faultOf = (text: string): string | undefined => Name.safeParse(text).error?.issues[0]?.message

describe('a name', () => {
  test.each([
    'Harvest supper',
    'Ä',
    '7',
    '–',
    'שלום',
    'سلام',
    'می‌خواهم',
    '宴会',
    '👩‍👩‍👧',
    '2 × 2',
    'e\u0301',
  ])('may be %s', (text) => {
    expect(Name.parse(text)).toBe(text)
  })

  test('may hold the marks of direction that ordinary right-to-left text needs', () => {
    expect(Name.parse('שלום (ABC)\u200f!')).toBe('שלום (ABC)\u200f!')
  })

  test('is kept without the blanks around it', () => {
    expect(Name.parse(' \tSupper\u00a0\n')).toBe('Supper')
  })

  test.each([
    ['Supper \ud800', 'has half of a character (U+D800 alone); send whole characters'],
    ['\udc00Supper', 'has half of a character (U+DC00 alone); send whole characters'],
    ['\0', 'has a control character (U+0000); write one line without it'],
    ['a\u007fb', 'has a control character (U+007F); write one line without it'],
    ['a\u2028b', 'has a control character (U+2028); write one line without it'],
    ['\u202eyraM', 'has a character that turns the text around (U+202E); leave it out'],
    ['a\u2067b\u2069', 'has a character that turns the text around (U+2067); leave it out'],
    ['\u200b', 'expected at least one character that can be seen'],
    ['\u200e\u200f\u061c', 'expected at least one character that can be seen'],
    ['\u3164', 'expected at least one character that can be seen'],
    ['\u2800', 'expected at least one character that can be seen'],
    ['\u00ad\ufe0f', 'expected at least one character that can be seen'],
  ])('is not %j', (text, fault) => {
    expect(faultOf(text)).toBe(fault)
  })

  test('that is taken comes back from UTF-8 as it went, whatever it is made of', () => {
    const codeUnit = fc.oneof(
      fc.integer({ min: 0x20, max: 0xffff }),
      fc.integer({ min: 0xd800, max: 0xdfff }),
    )
    let taken = 0
    fc.assert(
      fc.property(fc.array(codeUnit, { minLength: 1, maxLength: 3 }), (codeUnits) => {
        const name = Name.safeParse(String.fromCharCode(...codeUnits)).data
        if (name === undefined) return
        taken += 1
        expect(Buffer.from(name, 'utf8').toString('utf8')).toBe(name)
      }),
      { seed: 20261125, numRuns: 500 },
    )
    expect(taken).toBeGreaterThan(50)
  })
})

describe('a line of text', () => {
  test('is as long as it may be, and no longer', () => {
    expect(TextLine(5).safeParse('chair').success).toBe(true)
    expect(TextLine(5).safeParse('chairs').success).toBe(false)
  })
})
