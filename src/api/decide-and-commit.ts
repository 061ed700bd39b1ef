/** The one way of everything that is decided: load and decide in a worker, commit, and again when somebody was faster. */
import type { Changes, Decision, DecisionAnswer } from '../domain/decision.ts'
import type { ActorId } from '../domain/ids.ts'
import type { Operation } from '../domain/operation.ts'
import type { Site } from '../domain/site.ts'
import { Conflict } from '../store/store.ts'
import type { OperationProblem } from '../worker/decider.ts'
import { type Answer, jsonAnswer } from './answer.ts'
import type { ApiContext } from './context.ts'
import type { AnswerKeeper } from './idempotency.ts'
import { bodyFault, invalidInput, Problem, unknownResource } from './problems.ts'
import { wire } from './wire.ts'

/** So many times somebody else may be faster before the sender is asked to try again. */
const ROUNDS_MOST = 5

/** What is asked, made from what is there now. */
export interface Prepared {
  readonly operations: readonly Operation[]
  readonly answer: (decision: DecisionAnswer, changes: Changes) => Answer
}

export interface DecidedWrite {
  readonly site: Site
  readonly actorId: ActorId
  /** For the audit. */
  readonly action: string
  /** Only the decision is wanted; nothing is written. */
  readonly dryRun: boolean
  /** Where a repeated request finds its answer; null: such requests are not kept. */
  readonly keeper: AnswerKeeper | null
  /** Called anew in each round, when it is this writer's turn. @throws Problem */
  readonly prepare: () => Promise<Prepared>
}

/** @throws Problem does-not-fit with the decision, conflict, and what the decider finds wrong with the operations */
export function decideAndCommit(context: ApiContext, write: DecidedWrite): Promise<Answer> {
  return context.queue.run(write.site.id, async () => {
    for (let round = 1; round <= ROUNDS_MOST; round++) {
      const answer = await oneRound(context, write)
      if (answer) return answer
    }
    throw new Problem(
      'conflict',
      `Others changed the site ${ROUNDS_MOST} times while this was being decided.`,
    )
  })
}

/** null: somebody was faster. */
async function oneRound(context: ApiContext, write: DecidedWrite): Promise<Answer | null> {
  const { site } = write
  const { operations, answer: answerTo } = await write.prepare()
  const now = context.clock()
  const decided = await context.decider.decide({ siteId: site.id, operations, now })
  if (decided.kind === 'no-site') throw unknownResource('site', site.id)
  if (decided.kind === 'problems') throw operationProblem(decided.problems)
  const decision = decisionAnswer(decided.decision)
  if (write.dryRun) return jsonAnswer(200, { decision }, site.zone)
  const { changes } = decided.decision
  if (!changes) throw doesNotFit(decision, site.zone)
  const answer = answerTo(decision, changes)
  try {
    await context.store.commit({
      siteId: site.id,
      planningVersionExpected: decided.planningVersion,
      actorId: write.actorId,
      action: write.action,
      reason: null,
      at: now,
      changes,
      ...write.keeper?.withEffect(answer),
    })
    return answer
  } catch (fault) {
    if (!(fault instanceof Conflict)) throw fault
    // The faster one may have been the same request, sent to another process.
    return (await write.keeper?.stored()) ?? null
  }
}

/** The decision as it is answered: what it would write is nobody's business. */
function decisionAnswer({
  verdict,
  reasons,
  before,
  after,
  affected,
  alternatives,
}: Decision): DecisionAnswer {
  return { verdict, reasons, before, after, affected, alternatives }
}

function doesNotFit(decision: DecisionAnswer, zone: string): Problem {
  const sentences = [...decision.reasons, ...decision.alternatives.slice(0, 1)].map(({ message }) => message)
  return new Problem('does-not-fit', sentences.join(' '), { decision: wire(decision, zone) })
}

function operationProblem(problems: readonly OperationProblem[]): Problem {
  for (const { code, message } of problems) {
    if (code === 'version-mismatch' || code === 'already-begun' || code === 'already-cancelled') {
      return new Problem(code, message)
    }
  }
  return invalidInput(problems.map(({ at, message }) => bodyFault(at, message)))
}
