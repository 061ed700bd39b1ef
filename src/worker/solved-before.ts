/**
 * What was solved before is not solved again: answers by the hash of the instance, the options and the solver's version.
 * The solver gives the same answer to the same question, so a hit never changes one; only how soon it comes.
 */
import { createHash } from 'node:crypto'
import type { Solver } from '../scheduler/answers/index.ts'
import { SOLVER_VERSION, solve } from '../scheduler/turn/index.ts'

/** Some tens of kilobytes each. */
const KEPT_MOST = 400

/** @param keptMost  1 or more; of more, what was asked for longest ago is forgotten */
export function solvedBefore(solver: Solver = solve, keptMost = KEPT_MOST): Solver {
  const kept = new Map<string, ReturnType<Solver>>()
  return (instance, options) => {
    const key = keyOf([SOLVER_VERSION, instance, options])
    const known = kept.get(key)
    const result = known ?? solver(instance, options)
    // A map keeps the order in which things were put in: the first is the one asked for longest ago.
    kept.delete(key)
    kept.set(key, result)
    if (kept.size > keptMost) kept.delete(kept.keys().next().value ?? '')
    return result
  }
}

/** SHA-256: two questions never share one. */
const keyOf = (question: unknown): string =>
  createHash('sha256').update(canonicalText(question)).digest('hex')

/** As JSON, fields in order of their names: equal questions have equal texts, however they were put together. */
export function canonicalText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalText).join(',')}]`
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null'
  const fields = Object.entries(value)
    .filter(([, field]) => field !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1))
  return `{${fields.map(([name, field]) => `${JSON.stringify(name)}:${canonicalText(field)}`).join(',')}}`
}
