/** Faults of lists of ids that refer to other things of the same site. */
import { bodyFault, type Fault } from './problems.ts'

/** One fault for each id that is not among the known ones. */
export const unknownIds = (
  at: (index: number) => string,
  ids: readonly string[],
  known: readonly { readonly id: string }[],
  noun: string,
): Fault[] =>
  ids.flatMap((id, index) =>
    known.some((row) => row.id === id)
      ? []
      : [bodyFault(at(index), `there is no ${noun} ${id} in this site`)],
  )

/** One fault for each entry that repeats an earlier one. */
export const repeated = (at: (index: number) => string, names: readonly string[], what: string): Fault[] =>
  names.flatMap((name, index) =>
    names.indexOf(name) < index
      ? [bodyFault(at(index), `${what} ${name} is listed twice; list it once`)]
      : [],
  )
