/** What can be wrong with a rate set beyond its shape. */
import { RATE_OF_ZERO, type RateSet } from '../../domain/rate-set.ts'
import type { TaskMode } from '../../domain/task-mode.ts'
import { ratePaths } from '../../scheduler/network/index.ts'
import { bodyFault, type Fault } from '../problems.ts'

export const rateSetFaults = (rateSet: RateSet): Fault[] => [
  ...modesFaults('/rates/walkthroughModes', rateSet.rates.walkthroughModes),
  ...modesFaults('/rates/signOffModes', rateSet.rates.signOffModes),
  ...markFaults(rateSet),
]

/** Fewest hands first; more hands take no longer; nothing is done by nobody or in no time. */
function modesFaults(at: string, modes: readonly TaskMode[]): Fault[] {
  return modes.flatMap(({ hands, seconds }, index) => {
    const before = modes[index - 1]
    if (hands === 0) return [bodyFault(`${at}/${index}/hands`, 'somebody has to do it: at least 1 hand')]
    if (seconds === 0) return [bodyFault(`${at}/${index}/seconds`, RATE_OF_ZERO)]
    if (!before) return []
    if (hands <= before.hands)
      return [bodyFault(`${at}/${index}/hands`, `list hands in rising order, after ${before.hands} more`)]
    return seconds > before.seconds
      ? [bodyFault(`${at}/${index}/seconds`, `${hands} hands cannot take longer than ${before.hands}`)]
      : []
  })
}

function markFaults({ rates, marks }: RateSet): Fault[] {
  const paths = new Set(ratePaths(rates))
  return Object.keys(marks)
    .filter((path) => !paths.has(path))
    .map((path) => bodyFault(`/marks/${path}`, `${path} is none of the rates`))
}
