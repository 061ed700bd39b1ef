/** A turn of which there can be no list of tasks: a device cannot get to how the layout needs it. */
import type { Reason, TurnSide } from '../../../domain/reason.ts'
import type { Turn } from '../../../domain/turn.ts'
import type { StateUnreachable } from '../../network/index.ts'
import { lanesOnDuty } from '../../timeline/lanes-on-duty.ts'
import { handsMost } from '../../timeline/staffed-time.ts'
import type { TurnInput } from '../../timeline/turn-input.ts'
import type { World } from '../../timeline/world.ts'
import { workFromAt } from '../plan/built-instance.ts'
import type { JudgedTurn } from './judged-turn.ts'
import { seenFromBefore } from './seen-from-before.ts'
import { staffedWindowSeconds } from './staffed-window.ts'

export function unreachableTurn(
  world: World,
  input: TurnInput,
  before: Turn | null,
  side: TurnSide | null,
  { equipmentId, from, to }: StateUnreachable,
): JudgedTurn {
  const { turnId, dueAt } = input
  const own: Reason = { code: 'state-unreachable', turnId, side: 'before', equipmentId, from, to }
  const window = { fromAt: workFromAt(world, input), toAt: dueAt }
  const lanes = lanesOnDuty(world.setup, window)
  const broken: Reason = {
    code: 'another-turn-broken',
    turnId,
    bookingId: input.booking.id,
    doorsAt: dueAt,
    readyAt: null,
    proof: 'bound',
    lacks: null,
  }
  return {
    input,
    before,
    side,
    wasSearched: false,
    reasons: [side === 'before' ? own : side === 'after' ? seenFromBefore(own) : broken],
    after: {
      ...turnRow(input),
      status: 'failing',
      plan: null,
      judgement: {
        verdict: 'does-not-fit',
        reasons: [own],
        judgedAt: world.now,
        policyId: world.setup.policy.id,
        rateSetId: world.setup.rateSet?.id ?? null,
        staffedWindowSeconds: staffedWindowSeconds(world, input, lanes),
        neededSeconds: null,
        lowerBoundSeconds: null,
        proof: 'bound',
        readyAt: null,
        slackSeconds: null,
        hands: { needed: 0, onDuty: handsMost(lanes, window), assumed: 0 },
        warnedSince: before?.judgement.warnedSince ?? world.now,
        polishedAt: null,
        waysOut: [],
      },
    },
  }
}

/** What a turn is, before anything is said of how it stands. */
export const turnRow = (input: TurnInput) => ({
  id: input.turnId,
  siteId: input.booking.siteId,
  bookingId: input.booking.id,
  purpose: input.purpose,
  roomId: input.room.id,
  predecessorBookingIds: [...input.predecessorBookingIds],
  fromLayoutIds: [...input.fromLayoutIds],
  toLayoutId: input.toLayoutId,
  releaseAt: input.releaseAt,
  dueAt: input.dueAt,
  inputHash: input.inputHash,
})
