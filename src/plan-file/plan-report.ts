/** What is printed: the plan with the names of the file, how good it is proven to be, and what it took. */
import { lowerBoundTicks, type solve, type TurnInstance } from '../scheduler/turn/index.ts'
import type { InstanceDocument } from './instance-document.ts'
import { skillNames } from './instance-of-document.ts'
import type { ReadInstance } from './read-instance.ts'

type SolveResult = ReturnType<typeof solve>

export interface ImpossibleTold {
  readonly activity: string
  /** What is missing: a skill, hands at once or time, a resource, or a budget. */
  readonly kind: 'skill' | 'hands' | 'resource' | 'budget'
  /** Needed and the most free at once, with the skills that are missing. */
  readonly skills: readonly string[]
  readonly handsNeeded: number
  readonly handsMost: number
}

export interface PlanReport {
  readonly turns: readonly {
    readonly key: string
    /** null: no plan was found. */
    readonly readyTick: number | null
    /** No plan is ready earlier; null: there is no plan at all. */
    readonly boundTick: number | null
    /** What of it can never be done, as far as one thing can be named; null: all of it can. */
    readonly impossible: ImpossibleTold | null
  }[]
  /**
   * `best`: no turn can be ready earlier; `late-anyway`: no plan has every turn in time, yet there may be a better one;
   * `impossible`: there is no plan; `none-found`: nothing is proven.
   */
  readonly proof: 'best' | 'late-anyway' | 'impossible' | 'none-found'
  /** Schedules generated. */
  readonly workDone: number
  /** null: no plan was found. */
  readonly activities:
    | readonly {
        readonly key: string
        /** Its place among the modes, from 0. */
        readonly mode: number
        readonly startTick: number
        readonly endTick: number
        readonly lanes: readonly string[]
      }[]
    | null
}

export function planReport({ document, instance }: ReadInstance, result: SolveResult): PlanReport {
  const { schedule, boundTicks, workDone } = result
  return {
    turns: document.turns.map(({ key }, index) => ({
      key,
      readyTick: schedule?.readyTicks[index] ?? null,
      boundTick: boundTicks[index] ?? null,
      impossible: boundTicks[index] === null ? impossibleIn(document, instance, index) : null,
    })),
    proof: proofIn(result),
    workDone,
    activities:
      schedule?.activities.map(({ activity, mode, startTick, endTick, lanes }) => ({
        key: document.activities[activity]!.key,
        mode,
        startTick,
        endTick,
        lanes: lanes.map((lane) => document.lanes[lane]!.key),
      })) ?? null,
  }
}

function impossibleIn(
  document: InstanceDocument,
  instance: TurnInstance,
  turn: number,
): ImpossibleTold | null {
  const { impossible } = lowerBoundTicks(instance, turn)
  if (impossible === null) return null
  const { kind, skillMask, handsNeeded, handsMost, activity } = impossible
  const skills = skillNames(document).filter((_, bit) => (skillMask & (1 << bit)) !== 0)
  return { activity: document.activities[activity]!.key, kind, skills, handsNeeded, handsMost }
}

function proofIn({ schedule, boundTicks, proof }: SolveResult): PlanReport['proof'] {
  if (schedule?.readyTicks.every((tick, turn) => tick === boundTicks[turn])) return 'best'
  if (proof === 'none-found') return 'none-found'
  return schedule === null && boundTicks.includes(null) ? 'impossible' : 'late-anyway'
}

/** JSON, a turn and an activity a line. */
export function reportText(report: PlanReport, milliseconds: number): string {
  const { turns, proof, workDone, activities } = report
  return `{
  "turns": ${linesOf(turns)},
  "proof": ${JSON.stringify(proof)},
  "workDone": ${workDone},
  "milliseconds": ${Math.round(milliseconds)},
  "activities": ${activities === null ? 'null' : linesOf(activities)}
}`
}

const linesOf = (rows: readonly unknown[]): string =>
  rows.length === 0 ? '[]' : `[\n${rows.map((row) => `    ${JSON.stringify(row)}`).join(',\n')}\n  ]`
