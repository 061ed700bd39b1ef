/**
 * A dozen projects of 30 tasks and 4 resources from a public library, with their optimal lengths. One for each combination
 * of how densely tasks wait for each other (three) and how many resources a task needs (1 to 4), by turns with resources
 * that are very scarce and less so. None is as short as its critical path.
 * Source: R. Kolisch and A. Sprecher, PSPLIB - a project scheduling problem library, European Journal of Operational
 * Research 96 (1996) 205-216, set j30; optima of E. Demeulemeester and W. Herroelen (1995), as listed there.
 */
import { readFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { instanceOfBenchmark } from '../../bench/rcpsp/instance-of-benchmark.ts'
import { scheduleFaults, solve } from '../../src/scheduler/turn/index.ts'
import { root } from '../a-started-service.ts'

const Fixture = z.object({
  projects: z.array(
    z.object({
      name: z.string(),
      optimum: z.int(),
      capacities: z.array(z.int()),
      tasks: z.array(z.string()),
    }),
  ),
})
const text = readFileSync(path.join(root, 'tests', 'published', 'library-projects.json'), 'utf8')
const { projects } = Fixture.parse(JSON.parse(text))

const numbersIn = (words = ''): number[] => words.split(' ').filter(Boolean).map(Number)

function instanceOf({ name, capacities, tasks }: (typeof projects)[number]) {
  return instanceOfBenchmark({
    name,
    resources: capacities,
    nonrenewable: [],
    tasks: tasks.map((task) => {
      const [duration, uses, successors] = task.split('|')
      return {
        modes: [{ duration: Number(duration), uses: numbersIn(uses), consumes: [] }],
        successors: numbersIn(successors),
      }
    }),
    bestKnown: null,
    optimum: null,
    cpLowerBound: null,
  })
}

test('there are twelve, of 30 tasks each', () => {
  expect(projects.map(({ tasks }) => tasks.length)).toEqual(Array.from({ length: 12 }, () => 30))
})

describe.each(projects)('the published project $name', (project) => {
  test(`is planned in its published optimum of ${project.optimum} with 20,000 schedules at most`, () => {
    const instance = instanceOf(project)
    const { schedule, boundTicks } = solve(instance, { workMost: 20_000, seed: 1 })
    expect(schedule?.readyTicks).toEqual([project.optimum])
    expect(schedule && scheduleFaults(instance, schedule)).toEqual([])
    expect(boundTicks[0]).toBeLessThanOrEqual(project.optimum)
  })
})
