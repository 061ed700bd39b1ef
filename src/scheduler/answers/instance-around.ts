/** What questions of hands need of a turn: its instance, whose lanes those are, and which turns of it are this one. */
import type { BuiltInstance, BuiltPart } from '../decide/plan/built-instance.ts'
import type { LaneOnDuty } from '../timeline/lanes-on-duty.ts'
import type { TurnAsks } from '../timeline/turn-asks.ts'

export interface InstanceAround {
  readonly built: Pick<BuiltInstance, 'instance' | 'originAt' | 'skills'> & {
    readonly lanes: readonly Pick<LaneOnDuty, 'laneId' | 'crew'>[]
  }
  readonly part: Pick<BuiltPart, 'turn'> & {
    readonly milestones: readonly { readonly turn: number }[]
    readonly input: { readonly asks: Pick<TurnAsks, 'helpers'> }
  }
}
