/** Who decides: a worker thread in the running service, the same code in the same thread where a test wants that. */
import type { Decision } from '../domain/decision.ts'
import type { SiteId } from '../domain/ids.ts'
import type { Instant } from '../domain/instant.ts'
import type { Operation } from '../domain/operation.ts'
import type { TaskNetwork } from '../domain/task.ts'
import type { TimeByHands } from '../scheduler/decide/index.ts'

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

/** The queue of the thread that decides is full: try again in a moment. */
export class DeciderBusy extends Error {
  override name = 'DeciderBusy'
}

export interface Decider {
  /** Loads the snapshot and decides on it; writes nothing. @throws DeciderBusy */
  decide(request: DecideRequest): Promise<DecideAnswer>
  /** @throws DeciderBusy */
  estimate(request: EstimateRequest): Promise<readonly TimeByHands[]>
  isReady(): boolean
  close(): Promise<void>
}
