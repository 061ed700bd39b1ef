/** Faults of lists of ids that refer to other things of the same site. */
import { bodyFault, type Fault } from './problems.ts'

interface Known {
  readonly id: string
  readonly name?: string
}

/**
 * One fault for each id that is not in force.
 * @param known    those in force
 * @param retired  those that are not any more, where they are known: the fault then says so
 */
export const unknownIds = (
  at: (index: number) => string,
  ids: readonly string[],
  known: readonly Known[],
  noun: string,
  retired: readonly Known[] = [],
): Fault[] =>
  ids.flatMap((id, index) => {
    if (known.some((row) => row.id === id)) return []
    const gone = retired.find((row) => row.id === id)
    return [
      bodyFault(
        at(index),
        gone
          ? `${noun} ${gone.name ?? id} is retired; take one that is in force`
          : `there is no ${noun} ${id} in this site`,
      ),
    ]
  })

/** One fault for each entry that repeats an earlier one. */
export const repeated = (at: (index: number) => string, names: readonly string[], what: string): Fault[] =>
  names.flatMap((name, index) =>
    names.indexOf(name) < index
      ? [bodyFault(at(index), `${what} ${name} is listed twice; list it once`)]
      : [],
  )
