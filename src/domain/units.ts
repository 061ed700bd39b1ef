/**
 * Numbers with a unit and a bound, and lines of text. The bounds are wide for any hall and narrow for a slip of the
 * keyboard.
 */
import { z } from 'zod'

/** How long one step of work may take at most: a day. */
export const WorkSeconds = z
  .int()
  .min(0)
  .max(86_400, { error: 'expected at most 86400 seconds: one step of work takes a day at most' })
/** A span that a policy speaks of: at most thirty days. */
export const SpanSeconds = z.int().min(0).max(2_592_000)
export const PersonSeconds = z.number().positive().max(36_000)
export const Metres = z.number().min(0).max(2_000)
export const SquareMetres = z.number().positive().max(100_000)
export const Kilograms = z.number().positive().max(2_000)
/** How many pieces of one kind. */
export const PieceCount = z.int().min(1).max(5_000)
export const Hands = z.int().min(1).max(100)
/** Guests expected: at least one, at most as many as the largest hall could hold. */
export const Headcount = z.int().min(1).max(20_000)

/**
 * One line of text for people to read, in any script, without blanks around it. Refused are halves of characters,
 * control characters, embeddings, overrides and isolates of direction (Unicode UAX 9), and text that shows nothing.
 * @param charactersMost  UTF-16 code units
 */
export const TextLine = (charactersMost: number) =>
  z
    .string()
    .trim()
    .min(1)
    .max(charactersMost)
    .superRefine((text, context) => {
      const fault = text === '' ? null : lineFault(text)
      if (fault !== null) context.addIssue({ code: 'custom', message: fault })
    })
export const Name = TextLine(120)

/** What is wrong with a line of text, or null. Half a character could not be stored, the rest could not be seen. */
function lineFault(text: string): string | null {
  const half = /\p{Cs}/u.exec(text)
  if (half) return `has half of a character (${codePoint(half[0])} alone); send whole characters`
  const control = /[\p{Cc}\p{Zl}\p{Zp}]/u.exec(text)
  if (control) return `has a control character (${codePoint(control[0])}); write one line without it`
  const turning = /[\u202A-\u202E\u2066-\u2069]/.exec(text)
  if (turning) return `has a character that turns the text around (${codePoint(turning[0])}); leave it out`
  // A blank braille cell is a symbol to Unicode and nothing to the eye.
  const visible = /[^\p{White_Space}\p{Default_Ignorable_Code_Point}\p{Cf}\u2800]/u
  return visible.test(text) ? null : 'expected at least one character that can be seen'
}

const codePoint = (character: string): string =>
  `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`

/** What only some may do, as the site calls it: `sound`, `lift-operator`. */
export const Skill = z
  .string()
  .regex(/^[a-z][a-z0-9-]{0,39}$/, { error: 'expected lower-case letters, digits and hyphens' })
export type Skill = z.infer<typeof Skill>
/** A wall-clock time of day, 00:00 to 23:59. */
export const LocalTime = z
  .string()
  .regex(/^([01][0-9]|2[0-3]):[0-5][0-9]$/, { error: 'expected HH:MM, 00:00 to 23:59' })
export type LocalTime = z.infer<typeof LocalTime>
/** A calendar day without a zone. */
export const LocalDate = z.iso.date({ error: 'expected a day that exists, as YYYY-MM-DD' })
export type LocalDate = z.infer<typeof LocalDate>
/** ISO 8601: 1 is Monday, 7 is Sunday. */
export const Weekday = z.int().min(1).max(7)
