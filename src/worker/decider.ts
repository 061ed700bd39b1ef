/** Who decides: a worker thread in the running service, the same code in the same thread where a test wants that. */
import type { Decision } from '../domain/decision.ts'
import type { SiteId, TurnId } from '../domain/ids.ts'
import type { Instant } from '../domain/instant.ts'
import type { Operation } from '../domain/operation.ts'
import type { TaskNetwork } from '../domain/task.ts'
import type { TurnProgress } from '../domain/turn-progress.ts'
import type { TimeByHands } from '../scheduler/decide/index.ts'
import type { ReplanAnswer } from '../scheduler/replan/index.ts'
import type { AroundTurnReply, AroundTurnRequest } from './around-turn.ts'

export interface DecideRequest {
  readonly siteId: SiteId
  readonly operations: readonly Operation[]
  readonly now: Instant
}

/** What is wrong with a request that cannot even be judged. `at` is a JSON pointer into the body, or ''. */
export interface OperationProblem {
  readonly code:
    | 'unknown-id'
    | 'wrong-order'
    | 'too-long'
    | 'version-mismatch'
    | 'already-begun'
    | 'already-cancelled'
    | 'hold-is-over'
    | 'not-a-hold'
    | 'not-linked'
    | 'keeps-no-set'
    | 'not-allowed'
  readonly at: string
  readonly message: string
}

export type DecideAnswer =
  | { readonly kind: 'decided'; readonly decision: Decision; readonly planningVersion: number }
  | { readonly kind: 'problems'; readonly problems: readonly OperationProblem[] }
  | { readonly kind: 'no-site' }

/** How long a list of tasks takes, by the number of hands, with nobody else in the way. */
export interface EstimateRequest {
  readonly network: TaskNetwork
  /** Ascending. */
  readonly hands: readonly number[]
  readonly workMost: number
}

/** A turn that is part done, to be planned from a moment on. */
export interface ReplanRequest {
  readonly siteId: SiteId
  readonly turnId: TurnId
  readonly progress: TurnProgress
  readonly askedAt: Instant
}

export type ReplanReply = ReplanAnswer | { readonly kind: 'no-turn' }

/** The queue of the thread that decides is full: try again in a moment. */
export class DeciderBusy extends Error {
  override name = 'DeciderBusy'
}

export interface Decider {
  /** Loads the snapshot and decides on it; writes nothing. @throws DeciderBusy */
  decide(request: DecideRequest): Promise<DecideAnswer>
  /** @throws DeciderBusy */
  estimate(request: EstimateRequest): Promise<readonly TimeByHands[]>
  /** Plans what is left of a turn; writes nothing. @throws DeciderBusy */
  replan(request: ReplanRequest): Promise<ReplanReply>
  /** By solving it with something changed; writes nothing. @throws DeciderBusy */
  aroundTurn(request: AroundTurnRequest): Promise<AroundTurnReply>
  isReady(): boolean
  close(): Promise<void>
}
