/** How much of a span somebody is on duty, and how many at most. A gap of 14 h at night is not 14 h of work. */
import { type HalfOpenInterval, unionOf } from '../../domain/half-open-interval.ts'
import { earlierOf, laterOf, secondsBetween } from '../../domain/instant.ts'
import type { LaneOnDuty } from './lanes-on-duty.ts'

/** @returns whole seconds of the span with at least one hand on duty; 0 for an empty span */
export function staffedSeconds(lanes: readonly LaneOnDuty[], span: HalfOpenInterval): number {
  let seconds = 0
  for (const stretch of unionOf(lanes.flatMap((lane) => lane.onDuty))) {
    const fromAt = laterOf(stretch.fromAt, span.fromAt)
    const toAt = earlierOf(stretch.toAt, span.toAt)
    if (fromAt < toAt) seconds += secondsBetween(fromAt, toAt)
  }
  return seconds
}

/** @returns the most hands on duty at one moment of the span */
export function handsMost(lanes: readonly LaneOnDuty[], span: HalfOpenInterval): number {
  const steps: { at: number; change: 1 | -1 }[] = []
  for (const lane of lanes) {
    for (const duty of lane.onDuty) {
      const fromAt = laterOf(duty.fromAt, span.fromAt)
      const toAt = earlierOf(duty.toAt, span.toAt)
      if (fromAt < toAt) steps.push({ at: fromAt, change: 1 }, { at: toAt, change: -1 })
    }
  }
  steps.sort((a, b) => a.at - b.at || a.change - b.change)
  let hands = 0
  let most = 0
  for (const step of steps) {
    hands += step.change
    most = Math.max(most, hands)
  }
  return most
}
