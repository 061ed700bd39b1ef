/** What speaks against a turn as it was found, in numbers. */
import type { Closure } from '../../domain/closure.ts'
import { ToolId, type TurnId } from '../../domain/ids.ts'
import { secondsBetween } from '../../domain/instant.ts'
import type { Reason, TurnSide } from '../../domain/reason.ts'
import type { TaskNetwork } from '../../domain/task.ts'
import type { TurnInput } from '../timeline/turn-input.ts'
import type { World } from '../timeline/world.ts'
import { lowerBoundTicks } from '../turn/index.ts'
import { handsThatWouldDo } from './hands-that-would-do.ts'
import type { JudgeOptions } from './judged-turn.ts'
import { seenFromBefore } from './seen-from-before.ts'
import { type BuiltInstance, workFromAt } from './turn-instance.ts'
import { numbersOf } from './turn-judgement.ts'
import { type Findings, proofOf, readyAtOf, SEED } from './turn-search.ts'

/**
 * What speaks against the turn, told from the booking it prepares: so it is stored, whoever asked.
 * @param closedWay  of a store or passage, without which it would be ready; null: there is none
 */
export function ownReasons(
  world: World,
  input: TurnInput,
  findings: Findings,
  closedWay: Closure | null,
  options: JudgeOptions,
): Reason[] {
  const { built } = findings
  const { instance } = built
  const side: TurnSide = 'before'
  const turnId = input.booking.turnId
  const dueTick = instance.turns[0]!.dueTick
  const readyAt = readyAtOf(findings)
  const policy = world.setup.policy
  if (readyAt !== null && readyAt <= input.dueAt) {
    const slackSeconds = secondsBetween(readyAt, input.dueAt)
    const { slackWantedSeconds } = policy
    return slackSeconds >= slackWantedSeconds
      ? []
      : [{ code: 'slack-under-policy', turnId, side, slackSeconds, slackWantedSeconds }]
  }
  const proof = proofOf(findings)
  const numbers = numbersOf(world, input, findings)
  const window = { fromAt: workFromAt(world, input), toAt: input.dueAt }
  const reasons: Reason[] = [...wayReasons(closedWay, turnId), ...toolReasons(built.network, turnId)]
  // Somebody who hears that a store is closed must not be sent to find more hands.
  if (reasons.length > 0) return reasons
  // Whether a skill is missing is asked of the time before doors alone: somebody who comes later is no help.
  const byDoors = lowerBoundTicks({ ...instance, horizonTick: Math.max(0, dueTick) }, 0)
  if (byDoors.impossible?.kind === 'skill') {
    reasons.push({
      code: 'skill-missing',
      turnId,
      side,
      skill: skillNamed(built, byDoors.impossible.skillMask),
      ...window,
      proof: 'bound',
    })
  }
  const common = {
    turnId,
    side,
    toLayoutId: input.booking.layoutId,
    neededSeconds: numbers.neededSeconds,
    availableSeconds: numbers.staffedWindowSeconds,
    shortSeconds: readyAt === null ? null : secondsBetween(input.dueAt, readyAt),
    readyAt,
    doorsAt: input.dueAt,
    handsOnDuty: numbers.hands.onDuty,
  }
  const more = options.isTrial
    ? { handsNeeded: null, handsTried: numbers.hands.onDuty, proof }
    : handsThatWouldDo(built, numbers.hands.onDuty, policy.workMost, SEED)
  if (more.handsNeeded !== null) {
    reasons.push({ code: 'hands-short', ...common, proof, handsNeeded: more.handsNeeded })
  } else {
    const code = 'turn-before-too-long'
    reasons.push({ code, ...common, proof: more.proof, handsTried: more.handsTried })
  }
  return reasons
}

const wayReasons = (closure: Closure | null, turnId: TurnId): Reason[] =>
  closure === null
    ? []
    : [
        {
          code: 'way-closed',
          turnId,
          side: 'before',
          closureId: closure.id,
          storagePlaceIds: closure.storagePlaceIds,
          passageIds: closure.passageIds,
          fromAt: closure.fromAt,
          toAt: closure.toAt,
          why: closure.reason,
        },
      ]

/** A tool that tasks hold and of which there is none: no plan can be made. */
function toolReasons({ tasks, resources }: TaskNetwork, turnId: TurnId): Reason[] {
  const used = new Set(tasks.flatMap(({ uses }) => uses.map(({ resource }) => resource)))
  return resources
    .filter(({ key, capacity }) => capacity === 0 && used.has(key) && key.startsWith('tool:'))
    .map(({ key }) => ({
      code: 'tool-missing',
      turnId,
      side: 'before',
      toolId: ToolId.parse(key.slice('tool:'.length)),
    }))
}

/** The same, told from the request: its own turn, the one after it, or one that is neither. @param own  at least one */
export function reasonsSeenFrom(
  side: TurnSide | null,
  own: readonly Reason[],
  { booking, dueAt }: TurnInput,
  findings: Findings,
): Reason[] {
  if (side === 'before') return [...own]
  if (side === 'after') return own.map(seenFromBefore)
  if (own.every((reason) => reason.code === 'slack-under-policy')) return [...own]
  const readyAt = readyAtOf(findings)
  const code = 'another-turn-broken'
  const proof = proofOf(findings)
  return [{ code, turnId: booking.turnId, bookingId: booking.id, doorsAt: dueAt, readyAt, proof }]
}

/** The skill of the mask that is not just being an adult, if there is one. */
function skillNamed(built: BuiltInstance, mask: number): string {
  const names = built.skills.filter((_, bit) => (mask & (1 << bit)) !== 0)
  return names[0] ?? 'adult'
}
