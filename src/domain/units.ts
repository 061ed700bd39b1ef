/** Numbers with a unit and a bound. The bounds are wide for any hall and narrow for a slip of the keyboard. */
import { z } from 'zod'

/** How long one step of work may take at most: a day. */
export const WorkSeconds = z.int().min(0).max(86_400)
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
export const Name = z.string().trim().min(1).max(120)
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
