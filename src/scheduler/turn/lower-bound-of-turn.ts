/** What is proven of when a turn can be ready. */
import type { Impossible } from './impossible.ts'

export interface LowerBound {
  /** No plan is ready earlier; null: no plan ends before the horizon at all. */
  readonly readyTick: number | null
  readonly kind: 'critical-path' | 'energy' | 'impossible'
  /** Set when `readyTick` is null. */
  readonly impossible: Impossible | null
}
