/** What the search of plain work is measured against: serial passes over lists drawn beforehand, and nothing else. */
import type { PlainInstance } from '../../src/scheduler/turn/plain/plain-instance.ts'
import { fillTailTicks } from '../../src/scheduler/turn/plain/precedence.ts'
import { preparedProblem } from '../../src/scheduler/turn/plain/problem.ts'
import { seededRandom } from '../../src/scheduler/turn/plain/random.ts'
import { preparedSampler, sampleList } from '../../src/scheduler/turn/plain/sampled-list.ts'
import { serialPass } from '../../src/scheduler/turn/plain/serial-pass.ts'
import { preparedWork } from '../../src/scheduler/turn/plain/work.ts'

const LISTS = 50

/** @returns how long so many passes take */
export function millisecondsOfBarePasses(instance: PlainInstance, passes: number): number {
  const problem = preparedProblem(instance)
  if (!problem) throw new Error('nothing can be planned of it')
  const work = preparedWork(problem, seededRandom(1))
  const tails = new Int32Array(problem.taskCount)
  fillTailTicks(problem.forward, problem.leastDurationTicks, tails)
  const sampler = preparedSampler(problem.taskCount)
  const lists = Array.from({ length: LISTS }, () => {
    sampleList(work, problem.forward, tails, false, sampler)
    return { list: work.list.slice(), modes: work.modes.slice() }
  })
  const starts = new Int32Array(problem.taskCount)
  const begun = performance.now()
  for (let pass = 0; pass < passes; pass++) {
    const { list, modes } = lists[pass % LISTS]!
    work.list.set(list)
    work.modes.set(modes)
    serialPass(work, problem.forward, starts, 0, 0)
  }
  return performance.now() - begun
}
