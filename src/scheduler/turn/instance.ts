/**
 * What the solver solves: the work of one or several turns as a multi-mode resource-constrained project scheduling
 * problem. Everything is a whole number; time is counted in ticks from the start of the instance (tick 0).
 * Lists refer to each other by index.
 */

/** Seconds in a tick. Work is rounded up to ticks, time there is is rounded down. */
export const TICK_SECONDS = 30

/** Half open, in ticks. */
export interface TickSpan {
  readonly from: number
  readonly to: number
}

/** So many hands; each of them has at least the skills of the mask (bit k of the mask: skill k). */
export interface HandsNeed {
  readonly count: number
  readonly skillMask: number
}

export interface Mode {
  /** 1 or more; 0 only for a milestone without length. */
  readonly durationTicks: number
  /** Hands held from start to end, in groups; empty: it runs by itself. */
  readonly hands: readonly HandsNeed[]
  /** Renewable resources held from start to end. */
  readonly uses: readonly { readonly resource: number; readonly amount: number }[]
  /** What it takes of consumables, whenever it is done. Left out: nothing. */
  readonly consumes?: readonly { readonly consumable: number; readonly amount: number }[]
}

export interface Activity {
  /** For messages and for ordering; unique in the instance. */
  readonly key: string
  /** Index into `turns`. */
  readonly turn: number
  /** Index of the place where it happens, for `walkTicks`. */
  readonly place: number
  readonly modes: readonly Mode[]
  /** Indices of activities that must have ended. */
  readonly after: readonly number[]
  /** The same number: to who does it, the same work. Left out: like no other. */
  readonly group?: number
  /** Where in its place: going on with the same work in another zone is less than other work. Left out: all of it. */
  readonly zone?: number
  /**
   * It starts at the release of its turn, neither earlier nor later: an event's duty, a service that must not be
   * disturbed. Its turn has nothing else and is due when it ends; it has one mode, and neither waits nor is waited for.
   */
  readonly pinned?: boolean
}

export interface InstanceTurn {
  /** No task of it starts earlier. */
  readonly releaseTick: number
  /** Ready by. */
  readonly dueTick: number
  /** 1 or more; lateness counts this much. */
  readonly weight: number
}

export interface InstanceResource {
  readonly key: string
  /** What is there, as steps in order of time; before the first step there is none. Never negative. */
  readonly capacity: readonly { readonly fromTick: number; readonly amount: number }[]
}

export interface Lane {
  readonly key: string
  readonly skillMask: number
  /** On duty; disjoint, in order. */
  readonly available: readonly TickSpan[]
  /** Held by plans that stand, with the place; disjoint, in order. */
  readonly busy: readonly (TickSpan & { readonly place: number })[]
  /** Index of the budget that its working time is taken from. Left out: it costs nothing. */
  readonly budget?: number
}

/** Something that is used up: all its lanes together work no longer than this. */
export interface InstanceBudget {
  readonly key: string
  readonly laneTicksMost: number
}

/** Something that the chosen modes use up, together no more than this. */
export interface InstanceConsumable {
  readonly key: string
  readonly amountMost: number
}

export interface TurnInstance {
  readonly turns: readonly InstanceTurn[]
  readonly activities: readonly Activity[]
  readonly resources: readonly InstanceResource[]
  readonly lanes: readonly Lane[]
  /** Left out: none. */
  readonly budgets?: readonly InstanceBudget[]
  /** Left out: none. */
  readonly consumables?: readonly InstanceConsumable[]
  /** Ticks to walk from place to place, symmetric, 0 on the diagonal. */
  readonly walkTicks: readonly (readonly number[])[]
  /** Nothing ends later than this. */
  readonly horizonTick: number
}

/** One activity as planned. */
export interface ScheduledActivity {
  readonly activity: number
  readonly mode: number
  readonly startTick: number
  readonly endTick: number
  /** Lane indices, group after group of the mode's hands. */
  readonly lanes: readonly number[]
}

export interface Schedule {
  /** One per activity, in order of activity index. */
  readonly activities: readonly ScheduledActivity[]
  /** When each turn is ready, by index of turn: the latest end of its activities, or its release if it has none. */
  readonly readyTicks: readonly number[]
}
