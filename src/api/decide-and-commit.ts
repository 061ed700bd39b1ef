/** The one way of everything that is decided: load and decide in a worker, commit, and again when somebody was faster. */
import type { Changes, Decision, DecisionAnswer } from '../domain/decision.ts'
import type { ActorId, PersonId } from '../domain/ids.ts'
import type { Instant } from '../domain/instant.ts'
import type { Operation } from '../domain/operation.ts'
import type { PersonDetails } from '../domain/person.ts'
import type { SetupWrite } from '../domain/setup.ts'
import type { Site } from '../domain/site.ts'
import { type Commit, Conflict } from '../store/store.ts'
import { type Answer, jsonAnswer } from './answer.ts'
import type { ApiContext } from './context.ts'
import { doesNotFit, operationProblem } from './decision-problems.ts'
import type { AnswerKeeper } from './idempotency.ts'
import { HOLDS_LAPSED_MOST, lapseExpired } from './lapse-holds.ts'
import { Problem, unknownResource } from './problems.ts'

/** So many times somebody else may be faster before the sender is asked to try again. */
const ROUNDS_MOST = 5

/** What is asked, made from what is there now; `settled`: there is nothing to do, and that is the answer. */
export type Prepared =
  | {
      readonly operations: readonly Operation[]
      readonly personDetails?: readonly PersonDetails[]
      readonly answer: (decision: DecisionAnswer, changes: Changes) => Answer
    }
  | { readonly settled: Answer }

interface Write {
  readonly site: Site
  readonly actorId: ActorId
  /** For the audit. */
  readonly action: string
  /** Where a repeated request finds its answer; null: such requests are not kept. */
  readonly keeper: AnswerKeeper | null
}

export interface DecidedWrite extends Write {
  /** Only the decision is wanted; nothing is written. */
  readonly dryRun: boolean
  /** Called anew in each round, when it is this writer's turn. @throws Problem */
  readonly prepare: () => Promise<Prepared>
}

/** A write that touches no turn, so that there is nothing to decide. */
export interface CheckedWrite extends Write {
  /** Called anew in each round, when it is this writer's turn. @throws Problem */
  readonly prepare: () => Promise<
    | {
        readonly site?: Site
        readonly setup?: readonly SetupWrite[]
        readonly personDetails?: readonly PersonDetails[]
        readonly personDetailsErased?: readonly PersonId[]
        /** For the audit. */
        readonly reason?: string
        readonly answer: Answer
      }
    | { readonly settled: Answer }
  >
}

/** @throws Problem does-not-fit with the decision, conflict, and what the decider finds wrong with the operations */
export const decideAndCommit = (context: ApiContext, write: DecidedWrite): Promise<Answer> =>
  inRounds(context, write.site, () => decidedRound(context, write))

/** @throws Problem conflict */
export const commitChecked = (context: ApiContext, write: CheckedWrite): Promise<Answer> =>
  inRounds(context, write.site, () => checkedRound(context, write))

/** @param round  null: somebody was faster */
function inRounds(context: ApiContext, site: Site, round: () => Promise<Answer | null>): Promise<Answer> {
  return context.queue.run(site.id, async () => {
    for (let count = 1; count <= ROUNDS_MOST; count++) {
      const answer = await round()
      if (answer) return answer
    }
    throw new Problem(
      'conflict',
      `Others changed the site ${ROUNDS_MOST} times while this was being decided.`,
    )
  })
}

async function decidedRound(context: ApiContext, write: DecidedWrite): Promise<Answer | null> {
  const { site } = write
  const now = context.clock()
  if (!(await holdsAreOut(context, site, now))) return null
  const preparedAt = await context.store.planningVersion(site.id)
  const prepared = await write.prepare()
  if ('settled' in prepared) return prepared.settled
  const { operations, personDetails = [] } = prepared
  const decided = await context.decider.decide({ siteId: site.id, operations, now })
  if (decided.kind === 'no-site') throw unknownResource('site', site.id)
  if (decided.kind === 'problems') {
    // Whoever was faster may have made it one: what was checked while preparing says better what has become of it.
    if ((await context.store.planningVersion(site.id)) !== preparedAt) return null
    throw operationProblem(decided.problems)
  }
  // What was checked while preparing must still be so: the decider has read the site for itself.
  if (decided.planningVersion !== preparedAt) return null
  const decision = decisionAnswer(decided.decision)
  if (write.dryRun) return jsonAnswer(200, { decision }, site.zone)
  const { changes } = decided.decision
  if (!changes) throw doesNotFit(decision, operations, site.zone)
  const answer = prepared.answer(decision, changes)
  return committed(context, write, decided.planningVersion, now, answer, { changes, personDetails })
}

/**
 * Holds whose time is over are nobody's reason for a "no". A dry run gives them up too: that is not what is asked, but
 * what time has done.
 * @returns false: somebody was faster, or there are more
 */
async function holdsAreOut({ store, decider }: ApiContext, site: Site, now: Instant): Promise<boolean> {
  try {
    return (await lapseExpired({ store, decider, clock: () => now }, site.id)) < HOLDS_LAPSED_MOST
  } catch (fault) {
    if (fault instanceof Conflict) return false
    throw fault
  }
}

async function checkedRound(context: ApiContext, write: CheckedWrite): Promise<Answer | null> {
  const preparedAt = await context.store.planningVersion(write.site.id)
  if (preparedAt === null) throw unknownResource('site', write.site.id)
  const prepared = await write.prepare()
  if ('settled' in prepared) return prepared.settled
  const { answer, ...parts } = prepared
  return committed(context, write, preparedAt, context.clock(), answer, parts)
}

/** null: somebody was faster. */
async function committed(
  { store }: ApiContext,
  { site, actorId, action, keeper }: Write,
  planningVersionExpected: number,
  at: Instant,
  answer: Answer,
  parts: Partial<
    Pick<Commit, 'changes' | 'personDetails' | 'personDetailsErased' | 'reason' | 'setup' | 'site'>
  >,
): Promise<Answer | null> {
  const place = { siteId: site.id, planningVersionExpected, actorId, action, reason: null, at }
  try {
    await store.commit({ ...place, ...parts, ...keeper?.withEffect(answer) })
    return answer
  } catch (fault) {
    if (!(fault instanceof Conflict)) throw fault
    // The faster one may have been the same request, sent to another process.
    return (await keeper?.stored()) ?? null
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
