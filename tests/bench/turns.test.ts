/** `npm run bench:turns`: what its figures mean, not how fast this machine is. */
import { spawnSync } from 'node:child_process'
import path from 'node:path'
import { expect, test } from 'vitest'
import { randomTurn } from '../../bench/turns/random-turn.ts'
import { turnsTable } from '../../bench/turns/turns-table.ts'
import { waysOfPlanning } from '../../bench/turns/ways-of-planning.ts'
import { root } from '../a-started-service.ts'

const run = (...args: readonly string[]) =>
  spawnSync(process.execPath, ['--import', 'tsx', path.join(root, 'bench', 'turns', 'run.ts'), ...args], {
    cwd: root,
    encoding: 'utf8',
  })

test('the table says how long it took, what was found and in time, and how far that is from the bound', () => {
  const plan = (readyTick: number | null, boundTick: number | null, isInTime: boolean) => ({
    readyTick,
    boundTick,
    isInTime,
  })
  const table = turnsTable([
    {
      name: 'quickly',
      results: [
        { milliseconds: 3, plans: [plan(10, 10, true)] },
        { milliseconds: 1, plans: [plan(12, 10, false)] },
        { milliseconds: 2, plans: [plan(null, null, false)] },
        { milliseconds: 40, plans: [plan(11, 10, true)] },
      ],
    },
    { name: 'never', results: [{ milliseconds: 7, plans: [plan(null, 5, false)] }] },
  ])
  expect(table.split('\n')).toEqual([
    'planned  p50 ms  p95 ms   found  in time  over bound  at bound',
    'quickly     2.0    40.0  75.0 %   50.0 %      10.0 %    33.3 %',
    'never       7.0     7.0   0.0 %    0.0 %           –         –',
  ])
})

test('each way of planning finds the same every time', () => {
  for (const { name, planned } of waysOfPlanning) {
    const { plans } = planned(randomTurn(4))
    expect(plans).toHaveLength(name.startsWith('times for 1 to 12 hands') ? 12 : 1)
    expect(plans.some(({ readyTick }) => readyTick !== null)).toBe(true)
    expect(planned(randomTurn(4)).plans).toEqual(plans)
  }
})

test('the command prints a line for each way of planning', () => {
  const { status, stdout } = run('--count', '1', '--seed', '3')
  expect(status).toBe(0)
  expect(
    stdout
      .trim()
      .split('\n')
      .map((line) => line.split(':')[0]),
  ).toEqual([
    expect.stringMatching(/^1 turns from seed 3, Node v/),
    expect.stringMatching(/^planned +p50 ms/),
    'first acceptable plan',
    'soonest plan',
    'polished plan',
    'times for 1 to 12 hands',
  ])
})

test('a file is refused: there is none to give', () => {
  const { status, stderr } = run('hall.json')
  expect(status).toBe(2)
  expect(stderr).toMatch(/^There is no file to give\. Call it so: npm run bench:turns/)
})
