/** What something would gain, in one sentence. */
import type { Instant } from '../../domain/instant.ts'
import { shownBeside, spanText } from '../wording/shown-minutes.ts'
import { momentText } from './moment-text.ts'

export interface HelpFound {
  /** Begins the sentence. */
  readonly what: string
  /** As things are; null: it cannot be done. */
  readonly before: Instant | null
  /** With it; null: it cannot be done even so. */
  readonly readyAt: Instant | null
  readonly doorsAt: Instant
}

/** Minutes are told from what is shown. */
export function helpSentence({ what, before, readyAt, doorsAt }: HelpFound, zone: string): string {
  if (readyAt === null) {
    return before === null ? `${what}: not ready even so.` : `${what}: no plan was found.`
  }
  const shown = shownBeside(readyAt, doorsAt)
  const text = momentText(shown.readyAt, doorsAt, zone)
  if (before === null) return `${what}: ready at ${text}; without it, not at all.`
  const minutes = shownBeside(before, doorsAt).lateMinutes - shown.lateMinutes
  if (minutes > 0) return `${what}: ready ${spanText(minutes)} sooner, at ${text}.`
  if (readyAt < before) return `${what}: gains less than a minute, ready at ${text}.`
  return readyAt > before ? `${what}: ready later, at ${text}.` : `${what}: gains nothing, ready at ${text}.`
}

export interface AnewFound {
  /** By the plan that stands; null: there is none that holds. */
  readonly plannedReadyAt: Instant | null
  readonly readyAt: Instant | null
  readonly doorsAt: Instant
}

/** @returns null: nothing is gained by planning anew */
export function anewSentence({ plannedReadyAt, readyAt, doorsAt }: AnewFound, zone: string): string | null {
  if (readyAt === null || (plannedReadyAt !== null && readyAt >= plannedReadyAt)) return null
  const shown = shownBeside(readyAt, doorsAt)
  const text = momentText(shown.readyAt, doorsAt, zone)
  if (plannedReadyAt === null) return `Planned anew, with nothing else changed: ready at ${text}.`
  const minutes = shownBeside(plannedReadyAt, doorsAt).lateMinutes - shown.lateMinutes
  const sooner = minutes > 0 ? spanText(minutes) : 'less than a minute'
  return `Planned anew, with nothing else changed: ready ${sooner} sooner, at ${text}. What is said to be gained comes on top.`
}
