/** Whether the work of a turn has begun by its plan. What stands then is neither the layout before nor the one after. */
import type { Instant } from '../../../domain/instant.ts'
import type { Turn } from '../../../domain/turn.ts'

/** @returns when it began; null: it has not, or has no plan */
export const underWaySince = ({ plan }: Turn, now: Instant): Instant | null =>
  plan !== null && plan.startsAt <= now ? plan.startsAt : null
