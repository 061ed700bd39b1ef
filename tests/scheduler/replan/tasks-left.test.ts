/** What is left of a list of tasks. */
import { describe, expect, test } from 'vitest'
import type { TaskNetwork } from '../../../src/domain/task.ts'
import { withoutTasks } from '../../../src/scheduler/network/without-tasks.ts'
import { withRunning } from '../../../src/scheduler/replan/tasks-running.ts'
import { plannedTask } from './a-part-done-turn.ts'

/** Old chairs go, the floor is cleaned, it dries, new chairs come. */
const chairs: TaskNetwork = {
  tasks: [
    ['out', []],
    ['clean', ['out']],
    ['dry', ['clean']],
    ['in', ['dry', 'clean']],
  ].map(([key, after]) =>
    plannedTask({
      key: String(key),
      hands: [1, 2],
      startsAt: '21:00',
      minutes: 5,
      after: [after ?? []].flat(),
    }),
  ),
  resources: [],
  milestones: [
    { milestone: 'floor-clear', taskKeys: ['out'] },
    { milestone: 'seats-up', taskKeys: ['in'] },
  ],
}

const waits = ({ tasks }: TaskNetwork) => Object.fromEntries(tasks.map(({ key, after }) => [key, after]))

describe('what is left of a list of tasks', () => {
  test('may begin when what it waited for is done', () => {
    expect(waits(withoutTasks(chairs, new Set(['out', 'clean'])))).toEqual({ dry: [], in: ['dry'] })
  })

  test('still waits for what should have come before that, where it is not done', () => {
    expect(waits(withoutTasks(chairs, new Set(['clean', 'dry'])))).toEqual({ out: [], in: ['out'] })
  })

  test('reaches no milestone again that is reached', () => {
    const left = withoutTasks(chairs, new Set(['out']))
    expect(left.milestones).toEqual([{ milestone: 'seats-up', taskKeys: ['in'] }])
  })

  test('reaches a milestone, of which the last part is left out, with what that would have waited for', () => {
    const left = withoutTasks(chairs, new Set(['in']))
    expect(left.milestones).toEqual([
      { milestone: 'floor-clear', taskKeys: ['out'] },
      { milestone: 'seats-up', taskKeys: ['dry', 'clean'] },
    ])
  })

  test('is the list itself where nothing is done', () => {
    expect(withoutTasks(chairs, new Set())).toBe(chairs)
    expect(withRunning(chairs, new Map())).toBe(chairs)
  })

  test('waits for what is running as long as that still takes, and for what should have come before it', () => {
    const left = withRunning(chairs, new Map([['dry', 90]]))
    expect(waits(left)).toEqual({ out: [], clean: ['out'], dry: [], in: ['dry', 'clean'] })
    const dry = left.tasks.find(({ key }) => key === 'dry')
    expect(dry).toMatchObject({ modes: [{ hands: 0, seconds: 90 }], uses: [] })
    const cleanRuns = withRunning(chairs, new Map([['clean', 90]]))
    expect(waits(cleanRuns).in).toEqual(['dry', 'clean', 'out'])
  })
})
