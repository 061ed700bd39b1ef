/** A turn as its row has it: with the columns that queries need beside its judgement and its plan. */
import { type Instant, laterOf } from '../domain/instant.ts'
import type { Turn } from '../domain/turn.ts'

/** The plan itself stands in a table of its own. */
export function turnRow({ plan, ...alone }: Turn) {
  const { warnedSince, polishedAt } = alone.judgement
  return {
    ...alone,
    planStartsAt: plan?.startsAt ?? null,
    planReadyAt: plan?.readyAt ?? null,
    heldUntilAt: heldUntilAt(plan?.tasks ?? [], alone.dueAt),
    warnedSince,
    polishedAt,
  }
}

/** null: it holds nothing once it is due. */
function heldUntilAt(tasks: readonly { readonly endsAt: Instant }[], dueAt: Instant): Instant | null {
  const lastEndsAt = tasks.reduce((last, { endsAt }) => laterOf(last, endsAt), dueAt)
  return lastEndsAt > dueAt ? lastEndsAt : null
}
