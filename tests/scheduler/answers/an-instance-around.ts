/** Small instances of one turn, asked about as if their lanes were the crew of a hall. */
import type fc from 'fast-check'
import { LaneId } from '../../../src/domain/ids.ts'
import { Instant } from '../../../src/domain/instant.ts'
import type { InstanceAround } from '../../../src/scheduler/answers/instance-around.ts'
import { type Solver, searchWith } from '../../../src/scheduler/answers/search.ts'
import { solve, type TurnInstance } from '../../../src/scheduler/turn/index.ts'
import { smallInstance } from '../turn/a-turn.ts'

/** The first turn has all the work. */
export const oneTurn = (activitiesMost: number, horizonTick = 14): fc.Arbitrary<TurnInstance> =>
  smallInstance(activitiesMost, horizonTick).map((instance) => ({
    ...instance,
    turns: instance.turns.slice(0, 1),
    activities: instance.activities.map((activity) => ({ ...activity, turn: 0 })),
  }))

export const aroundOf = (instance: TurnInstance): InstanceAround => ({
  built: {
    instance,
    originAt: Instant.parse(Date.UTC(2026, 5, 5)),
    skills: ['lift', 'sound', 'adult'],
    lanes: instance.lanes.map((_, index) => ({ laneId: LaneId.parse(`person_p${index}`), crew: true })),
  },
  part: { turn: 0, milestones: [], input: { asks: { helpers: [] } } },
})

export const search = (workMost = 200, solver: Solver = solve) => searchWith(solver, workMost)
