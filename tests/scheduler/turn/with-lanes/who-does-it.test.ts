/**
 * Small turns in which who is taken by the order of lanes can never be the best, however often the work is reordered:
 * people walk between places, or only some can be paid. Their best is known from trying everything.
 */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readInstance } from '../../../../src/plan-file/read-instance.ts'
import { scheduleFaults, solve } from '../../../../src/scheduler/turn/index.ts'

const cases: Readonly<Record<string, unknown>> = JSON.parse(
  readFileSync(new URL('./who-does-it.json', import.meta.url), 'utf8'),
)

test.each([
  ['walks', 11],
  ['wages', 10],
])('the best is found where %s decide who does what', (name, readyTick) => {
  const { instance } = readInstance(JSON.stringify(cases[name]))
  for (const seed of [1, 2, 3]) {
    const { schedule } = solve(instance, { workMost: 2000, seed })
    expect(schedule?.readyTicks[0]).toBe(readyTick)
    expect(schedule && scheduleFaults(instance, schedule)).toEqual([])
  }
})
