/** The timing of DMX512-A, the line that most stage lights listen to. */
import { numberInRange } from '../work-measurement/number-in-range.ts'

export const DMX_SLOTS_MOST = 512
export const DMX_BREAK_MICROSECONDS_LEAST = 88
export const DMX_MARK_MICROSECONDS_LEAST = 8
/** Eleven bits at 250 kbit/s. */
export const DMX_SLOT_MICROSECONDS = 44
export const DMX_TIMING_SOURCE =
  'ANSI E1.11-2008 (DMX512-A), as given by isquint.net and a fixture maker; second-hand'

/** Slower than this a receiver takes the signal as lost; what a fixture does then is not laid down. */
export const DMX_LOST_BELOW_HERTZ = 1
export const DMX_LOST_SOURCE = 'manuals of DMX testers; read'

export const DMX_SAFETY_NOTE = {
  text: 'DMX512 has no error checking: nothing that can hurt hangs on it, no pyrotechnics, no moving scenery.',
  source: "a fixture maker's guide to DMX, p. 17; second-hand",
} as const

export interface DmxFrame {
  /** Data slots, 0 to 512; the start code comes on top. */
  readonly slots: number
  readonly breakMicroseconds: number
  readonly markMicroseconds: number
}

/** Every slot there is, with the shortest break and mark. */
export const DMX_FULL_UNIVERSE: DmxFrame = {
  slots: DMX_SLOTS_MOST,
  breakMicroseconds: DMX_BREAK_MICROSECONDS_LEAST,
  markMicroseconds: DMX_MARK_MICROSECONDS_LEAST,
}

/**
 * The time to send everything once: break, mark, start code, slots.
 * @throws RangeError for a frame the standard does not allow
 */
export function dmxRefreshMicroseconds({ slots, breakMicroseconds, markMicroseconds }: DmxFrame): number {
  numberInRange('slots', slots, 0, DMX_SLOTS_MOST)
  numberInRange('breakMicroseconds', breakMicroseconds, DMX_BREAK_MICROSECONDS_LEAST)
  numberInRange('markMicroseconds', markMicroseconds, DMX_MARK_MICROSECONDS_LEAST)
  return breakMicroseconds + markMicroseconds + (slots + 1) * DMX_SLOT_MICROSECONDS
}

/** How often a second that is; above 0. */
export const dmxRefreshHertz = (frame: DmxFrame): number => 1_000_000 / dmxRefreshMicroseconds(frame)

/**
 * @param refreshHertz  0 or more
 * @throws RangeError for what is negative or no number
 */
export const dmxSignalIsLost = (refreshHertz: number): boolean =>
  numberInRange('refreshHertz', refreshHertz, 0) < DMX_LOST_BELOW_HERTZ
