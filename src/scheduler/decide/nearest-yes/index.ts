/** What would be accepted instead of what was refused. */
import type { Alternative } from '../../../domain/alternative.ts'
import type { Operation } from '../../../domain/operation.ts'
import { type Reason, speaksAgainst } from '../../../domain/reason.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import { answered } from './answer-to.ts'
import { askedFor } from './asked-for.ts'
import { moreHands } from './more-hands.ts'
import { otherDoors } from './other-doors.ts'
import { otherLayout } from './other-layout.ts'
import { otherRoom } from './other-room.ts'
import { ranked } from './ranked.ts'

/**
 * An earlier and a later time, a layout, a room, and more hands: five at most, least disturbing first. Each, taken on the
 * same snapshot, is accepted; so many hands, once their shifts are entered. Each kind has a bound of trials.
 * @param snapshot  complete for `windowWithAlternatives(operations)`; where it is not, less is offered
 * @param reasons   of the refusal; left out: they are found again
 */
export function nearestYeses(
  snapshot: SiteSnapshot,
  operations: readonly Operation[],
  reasons: readonly Reason[] = reasonsAgainst(snapshot, operations),
): Alternative[] {
  if (!reasons.some(speaksAgainst)) return []
  const asked = askedFor(snapshot, operations)
  const taken = asked ? [...otherDoors(asked, reasons), ...otherLayout(asked), ...otherRoom(asked)] : []
  const agreed = moreHands(snapshot, operations, reasons)
  return ranked([...taken, ...agreed], asked?.booking.doorsAt ?? null)
}

/** A booking that stands and is asked for as it is: nothing is judged anew, so what stands against its turn is. */
function reasonsAgainst(snapshot: SiteSnapshot, operations: readonly Operation[]): readonly Reason[] {
  const { verdict, reasons } = answered(snapshot, operations)
  const turnIds = operations.flatMap((one) => ('booking' in one ? one.booking.turnId : []))
  const stored = snapshot.turns.find(({ id, status }) => status === 'failing' && turnIds.includes(id))
  return verdict === 'does-not-fit' || !stored ? reasons : stored.judgement.reasons
}
