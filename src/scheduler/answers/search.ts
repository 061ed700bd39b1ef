/** Looking for plans with the same effort each time, and counting it. */
import type { AnswerWork } from '../../domain/hands-curve.ts'
import { SEED } from '../decide/plan/turn-search.ts'
import { SOLVER_VERSION, type solve, type TurnInstance } from '../turn/index.ts'

/** `solve`, or something that remembers what it answered. */
export type Solver = typeof solve

export interface Search {
  /** @param acceptableReadyTicks  by turn: soon enough; left out: as soon as can be found */
  find(instance: TurnInstance, acceptableReadyTicks?: readonly number[]): ReturnType<Solver>
  /** So far. */
  work(): AnswerWork
}

/** @param workMost  schedules tried at most in each search */
export function searchWith(solver: Solver, workMost: number): Search {
  let searches = 0
  let workDone = 0
  return {
    find(instance, acceptableReadyTicks) {
      const options = { workMost, seed: SEED }
      const result = solver(
        instance,
        acceptableReadyTicks === undefined ? options : { ...options, acceptableReadyTicks },
      )
      searches += 1
      workDone += result.workDone
      return result
    },
    work: () => ({ searches, workMost, workDone, solverVersion: SOLVER_VERSION }),
  }
}
