/** Moments as ticks: counted from a moment on the grid that all turns of all sites share. */
import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import type { Instant } from '../../../domain/instant.ts'
import { TICK_SECONDS } from '../../turn/index.ts'

export const TICK_MS = TICK_SECONDS * 1000

export interface TickGrid {
  readonly originAt: Instant
  floorTick(at: number): number
  ceilTick(at: number): number
  clip(from: number, to: number): { from: number; to: number }
}

export function gridOf(span: HalfOpenInterval): TickGrid {
  const originAt = (Math.floor(span.fromAt / TICK_MS) * TICK_MS) as Instant
  const floorTick = (at: number) => Math.floor((at - originAt) / TICK_MS)
  const horizonTick = floorTick(span.toAt)
  return {
    originAt,
    floorTick,
    ceilTick: (at) => Math.ceil((at - originAt) / TICK_MS),
    clip: (from, to) => ({ from: Math.max(0, from), to: Math.min(horizonTick, to) }),
  }
}
