/**
 * Projects with limited hands from the Patterson set, with their optimal lengths.
 * Source: public collection ptal/kobe-scheduling, commit a36af08, data/rcpsp/patterson.rcp and patterson.optimum.csv;
 * the optima were proved again by exhaustive search.
 */
import { describe, expect, test } from 'vitest'
import { scheduleFaults, solve } from '../../src/scheduler/turn/index.ts'
import type { Schedule, TurnInstance } from '../../src/scheduler/turn/instance.ts'
import { instanceProblems } from '../../src/scheduler/turn/instance-problems.ts'
import { shortestByExhaustion } from '../scheduler/turn/shortest-by-exhaustion.ts'

interface Project {
  readonly capacities: readonly number[]
  /** Of activities 1 to n; the first and the last are dummies without length. */
  readonly durations: readonly number[]
  /** By resource, then activity. */
  readonly needs: readonly (readonly number[])[]
  /** Numbered from 1. */
  readonly successors: Readonly<Record<number, readonly number[]>>
}

const horizonTick = 60

function instanceOf(project: Project, what: 'hands' | 'resources'): TurnInstance {
  return {
    turns: [{ releaseTick: 0, dueTick: horizonTick, weight: 1 }],
    activities: project.durations.map((durationTicks, index) => {
      const needs = project.needs.map((row) => row[index] ?? 0)
      const needed = needs.flatMap((amount, resource) => (amount > 0 ? [{ resource, amount }] : []))
      return {
        key: `${index + 1}`,
        turn: 0,
        place: 0,
        modes: [
          {
            durationTicks,
            hands:
              what === 'hands'
                ? needed.map((need) => ({ count: need.amount, skillMask: 1 << need.resource }))
                : [],
            uses: what === 'resources' ? needed : [],
          },
        ],
        after: project.durations.flatMap((_, before) =>
          project.successors[before + 1]?.includes(index + 1) ? [before] : [],
        ),
      }
    }),
    resources:
      what === 'resources'
        ? project.capacities.map((amount, index) => ({
            key: `R${index + 1}`,
            capacity: [{ fromTick: 0, amount }],
          }))
        : [],
    lanes:
      what === 'hands'
        ? project.capacities.flatMap((count, resource) =>
            Array.from({ length: count }, (_, index) => ({
              key: `R${resource + 1} hand ${index + 1}`,
              skillMask: 1 << resource,
              available: [{ from: 0, to: horizonTick }],
              busy: [],
            })),
          )
        : [],
    walkTicks: [[0]],
    horizonTick,
  }
}

function scheduleAt(instance: TurnInstance, starts: readonly number[]): Schedule {
  const activities = instance.activities.map(({ modes }, activity) => {
    const startTick = starts[activity] ?? 0
    return { activity, mode: 0, startTick, endTick: startTick + (modes[0]?.durationTicks ?? 0), lanes: [] }
  })
  return { activities, readyTicks: [Math.max(...activities.map((planned) => planned.endTick))] }
}

const pat7: Project = {
  capacities: [5],
  durations: [0, 3, 3, 1, 2, 2, 3, 3, 0],
  needs: [[0, 2, 3, 2, 3, 4, 2, 1, 0]],
  successors: { 1: [2, 3, 8], 2: [5], 3: [4, 6], 4: [5], 5: [9], 6: [7], 7: [9], 8: [9] },
}
const pat8: Project = { ...pat7, capacities: [4] }
const pat1: Project = {
  capacities: [2, 1, 2],
  durations: [0, 6, 4, 3, 1, 6, 2, 1, 4, 3, 2, 3, 5, 0],
  needs: [
    [0, 1, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0, 0, 0],
    [0, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 1, 0, 0],
    [0, 0, 0, 0, 0, 1, 0, 0, 1, 1, 1, 0, 0, 0],
  ],
  successors: {
    1: [2, 3, 4],
    2: [9, 10],
    3: [5, 6, 7],
    4: [8, 11],
    5: [10],
    6: [12],
    7: [8, 11],
    8: [13],
    9: [14],
    10: [12],
    11: [12],
    12: [13],
    13: [14],
  },
}

describe.each([
  { id: 'pat7', project: pat7, optimum: 8, starts: [0, 0, 0, 5, 6, 3, 5, 3, 8] },
  { id: 'pat8', project: pat8, optimum: 11, starts: [0, 6, 0, 3, 9, 4, 6, 0, 11] },
  { id: 'pat1', project: pat1, optimum: 19, starts: [0, 0, 0, 0, 4, 4, 6, 8, 14, 6, 9, 11, 14, 19] },
])('the published project $id', ({ project, optimum, starts }) => {
  test('allows the published plan', () => {
    const instance = instanceOf(project, 'resources')
    expect(instanceProblems(instance)).toEqual([])
    expect(scheduleFaults(instance, scheduleAt(instance, starts))).toEqual([])
    expect(scheduleAt(instance, starts).readyTicks).toEqual([optimum])
  })

  test.each(['hands', 'resources'] as const)(
    'is solved to its published optimum when %s limit it',
    (what) => {
      const instance = instanceOf(project, what)
      const { schedule } = solve(instance, { workMost: 200, seed: 1 })
      expect(schedule?.readyTicks).toEqual([optimum])
      expect(schedule && scheduleFaults(instance, schedule)).toEqual([])
    },
  )

  test('has no shorter plan: all of them were tried', () => {
    const { best } = shortestByExhaustion(instanceOf(project, 'resources'))
    expect(best?.weightedReadyTicks).toBe(optimum)
  })
})

test('one hand fewer makes the same project three days longer (pat7 against pat8)', () => {
  const days = [pat7, pat8].map(
    (project) => solve(instanceOf(project, 'hands'), { workMost: 200, seed: 1 }).schedule?.readyTicks[0],
  )
  expect(days).toEqual([8, 11])
})
