/** What the solver is asked for beside the instance, and what it answers. */
import type { Schedule } from './instance.ts'

export interface SolveOptions {
  /**
   * Schedules to generate at most, forward and backward ones alike. With the same seed more never finds a
   * worse plan where there are lanes; without any, the search is laid out for so many, and now and then does.
   */
  readonly workMost: number
  readonly seed: number
  /** By turn: the first plan in which every turn is ready by then is taken. Left out: nothing short of proof is. */
  readonly acceptableReadyTicks?: readonly number[]
  /** Asked after each schedule whether to go on; left out: until the work is done. Whoever looks at a clock does so here. */
  readonly goOn?: () => boolean
}

/** A plan without what is known of how good it is. */
export interface PlanSearched {
  /** null when none was found; it may be late, but never ends after the horizon. */
  readonly schedule: Schedule | null
  readonly workDone: number
  /** It stopped because the effort was used up. */
  readonly exhausted: boolean
}

export interface SolveResult extends PlanSearched {
  /**
   * By turn: no plan is ready earlier; null: no plan is possible. Looked into closely where the plan is not one that was
   * acceptable, and there no further than the plan found.
   */
  readonly boundTicks: readonly (number | null)[]
  /**
   * `bound`: every turn is ready at its bound; or there is no plan, or a late one, and the bounds show that there is
   * none in which every turn is ready by due. `none-found`: nothing is proven.
   */
  readonly proof: 'bound' | 'none-found'
}
