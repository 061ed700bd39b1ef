/** `npm run bench:rcpsp`, on projects small enough to be solved by hand. */
import { spawnSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { benchmarkArguments } from '../../bench/rcpsp/benchmark-arguments.ts'
import { benchmarkFile } from '../../bench/rcpsp/benchmark-file.ts'
import { benchmarkLine } from '../../bench/rcpsp/benchmark-line.ts'
import { benchmarkMeans } from '../../bench/rcpsp/benchmark-means.ts'
import { InputFault } from '../../src/plan-file/input-fault.ts'
import { root } from '../a-started-service.ts'
import { aFolder } from '../store/a-database-file.ts'

/** Three tasks of 4, two at a time: 8. By chains and by work alone it would be 4 and 6. */
const single = {
  name: 'three_1',
  parameterSet: 1,
  resources: [2],
  tasks: [0, 1, 2].map(() => ({ modes: [{ duration: 4, uses: [1] }], successors: [] })),
  optimum: 8,
  bestKnown: 8,
  cpLowerBound: 4,
}

/** One after the other, each quick for 3 of the budget or slow for 1: of 4 one is quick, that of 2 instead of 9. 2 + 5. */
const multi = {
  name: 'two_1',
  resources: [1],
  nonrenewable: [4],
  tasks: [
    {
      modes: [
        { duration: 9, uses: [1], consumes: [1] },
        { duration: 2, uses: [1], consumes: [3] },
      ],
      successors: [1],
    },
    {
      modes: [
        { duration: 5, uses: [1], consumes: [1] },
        { duration: 3, uses: [1], consumes: [3] },
      ],
      successors: [],
    },
  ],
  bestKnown: 8,
  optimum: null,
}

/** Nothing can be done: each takes more of the budget than there is. */
const impossible = { ...multi, name: 'none_1', nonrenewable: [1] }

function fileOf(benchmarks: unknown): string {
  const file = path.join(aFolder(), 'benchmarks.json')
  writeFileSync(file, JSON.stringify(benchmarks))
  return file
}

const run = (...args: readonly string[]) => runProgram('run.ts', args)

function runProgram(name: string, args: readonly string[]) {
  const program = path.join(root, 'bench', 'rcpsp', name)
  const { status, stdout, stderr } = spawnSync(process.execPath, ['--import', 'tsx', program, ...args], {
    cwd: root,
    encoding: 'utf8',
  })
  const lines: unknown[] = stdout
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line))
  return { status, lines, stderr }
}

const milliseconds = expect.any(Number)

describe('a file of benchmark projects', () => {
  test('with one mode and several is planned project by project, and ends with what they come to', () => {
    expect(run(fileOf([single, multi, impossible]), '--schedules', '300')).toEqual({
      status: 0,
      stderr: '',
      lines: [
        { name: 'three_1', makespan: 8, lowerBound: 8, proven: true, schedules: 300, milliseconds },
        expect.objectContaining({ name: 'two_1', makespan: 7 }),
        { name: 'none_1', makespan: null, lowerBound: null, proven: true, schedules: 0, milliseconds },
        expect.objectContaining({ instances: 3, planned: 2, makespan: 7.5, optimumShare: 1 }),
      ],
    })
  })

  test('is planned beside an instance that is wrong, which has its fault in its line and ends it with 2', () => {
    const wrong = { ...single, name: 'wrong_1', tasks: [{ ...single.tasks[0], successors: [5] }] }
    const malformed = { name: 'half_1', resources: [-1], tasks: [] }
    expect(run(fileOf([malformed, wrong, single]), '--schedules', '5')).toEqual({
      status: 2,
      stderr: '',
      lines: [
        { name: 'half_1', fault: expect.stringContaining('half_1 is no benchmark instance') },
        { name: 'wrong_1', fault: 'wrong_1: task 0 has a successor 5 that is not there.' },
        expect.objectContaining({ name: 'three_1', makespan: 8 }),
        expect.objectContaining({ instances: 1, planned: 1 }),
      ],
    })
  })

  test('may have tasks of no time that hold nothing, whatever they name', () => {
    const start = { modes: [{ duration: 0, uses: [0] }], successors: [1] }
    const end = { modes: [{ duration: 0, uses: [2] }], successors: [] }
    const dated = {
      ...single,
      tasks: [start, ...single.tasks.map((task) => ({ ...task, successors: [4] })), end],
    }
    expect(run(fileOf([dated]), '--schedules', '5').lines[0]).toMatchObject({ makespan: 8 })
  })

  test('says how to call it', () => {
    const { status, stderr } = spawnSync(
      process.execPath,
      ['--import', 'tsx', path.join(root, 'bench', 'rcpsp', 'run.ts'), '--help'],
      { cwd: root, encoding: 'utf8' },
    )
    expect([status, stderr]).toEqual([0, ''])
  })

  test('is planned as far as its limit, by seed and schedules', () => {
    const file = fileOf([single, multi])
    expect(run(file, '--limit', '1', '--schedules', '3', '--seed', '9').lines).toEqual([
      expect.objectContaining({ name: 'three_1', schedules: 3 }),
      expect.objectContaining({ instances: 1, schedules: 3 }),
    ])
  })

  test('takes some times as long as bare passes over as many lists', () => {
    const file = fileOf([multi])
    const { status, lines } = runProgram('over-bare.ts', [file, '--schedules', '40'])
    expect({ status, lines }).toEqual({
      status: 0,
      lines: [
        {
          schedules: 40,
          searchMilliseconds: milliseconds,
          bareMilliseconds: milliseconds,
          times: milliseconds,
        },
      ],
    })
  })

  test('is left when the seconds are over', () => {
    const options = { workMost: 1_000_000_000, secondsMost: 0.01, seed: 1 }
    const line = benchmarkLine(
      { ...single, nonrenewable: [], tasks: withoutConsuming(single.tasks) },
      options,
    )
    // However little time there is, one schedule is made.
    expect(line.makespan).toBeGreaterThanOrEqual(8)
    expect(line.schedules).toBeGreaterThan(0)
    expect(line.schedules).toBeLessThan(1_000_000_000)
  })

  test.each<[string, unknown, string]>([
    ['that is no list', { single }, 'is no list of benchmark instances.'],
    [
      'with a task without modes',
      [{ ...single, tasks: [{ modes: [], successors: [] }] }],
      'at tasks[0].modes',
    ],
    [
      'with a successor that is not there',
      [{ ...single, tasks: [{ ...single.tasks[0], successors: [5] }] }],
      'three_1: task 0 has a successor 5 that is not there.',
    ],
    [
      'with tasks that wait for each other',
      [{ ...single, tasks: [{ ...single.tasks[0], successors: [0] }] }],
      'three_1: activities wait for each other: 0 → 0.',
    ],
    [
      'with more uses than resources',
      [{ ...single, resources: [] }],
      'three_1: activity 0, mode 0: there is no resource 0',
    ],
  ])('%s is refused, with where', (_, benchmarks, message) => {
    const plan = () => {
      for (const benchmark of benchmarkFile(fileOf(benchmarks))) {
        if ('fault' in benchmark) throw new InputFault(benchmark.fault)
        benchmarkLine(benchmark, { workMost: 1, secondsMost: null, seed: 1 })
      }
    }
    expect(plan).toThrow(InputFault)
    expect(plan).toThrow(message)
  })

  test('that is not there ends the command with 2', () => {
    expect(run('nowhere.json')).toEqual({
      status: 2,
      lines: [],
      stderr: expect.stringMatching(/^nowhere\.json cannot be read: ENOENT/),
    })
  })
})

const withoutConsuming = (tasks: typeof single.tasks) =>
  tasks.map((task) => ({ ...task, modes: task.modes.map((mode) => ({ ...mode, consumes: [] })) }))

test('the means count what is known, and only what was planned', () => {
  const read = (benchmark: Partial<typeof single>) => ({
    ...single,
    nonrenewable: [],
    ...benchmark,
    tasks: [],
  })
  const line = (makespan: number | null, schedules: number) => ({
    name: '',
    makespan,
    lowerBound: 8,
    proven: makespan === 8,
    schedules,
    milliseconds: 10,
  })
  expect(
    benchmarkMeans([
      { benchmark: read({}), line: line(8, 1) },
      { benchmark: { ...read({}), optimum: null, cpLowerBound: null, bestKnown: 9 }, line: line(12, 100) },
      { benchmark: read({}), line: line(null, 100) },
    ]),
  ).toEqual({
    instances: 3,
    planned: 2,
    makespan: 10,
    // Without tasks there is no chain of them.
    percentOverCriticalPath: null,
    percentOverCpLowerBound: 100,
    percentOverOptimum: 0,
    percentOverBestKnown: 16.6667,
    provenShare: 0.3333,
    optimumShare: 0.5,
    schedules: 67,
    milliseconds: 10,
  })
})

describe('the command is called', () => {
  test('with a file, and ends by schedules, by seconds or by both', () => {
    const without = { file: 'set.json', limit: null, seed: 1 }
    expect(benchmarkArguments(['set.json'])).toEqual({ ...without, workMost: 5_000, secondsMost: null })
    expect(benchmarkArguments(['set.json', '--seconds', '2'])).toEqual({
      ...without,
      workMost: 4_294_967_295,
      secondsMost: 2,
    })
    expect(benchmarkArguments(['--schedules', '7', '--seconds', '2', 'set.json'])).toEqual({
      ...without,
      workMost: 7,
      secondsMost: 2,
    })
  })

  test('wrongly without a file', () => {
    expect(() => benchmarkArguments([])).toThrow(
      /^The file is missing\. Call it so: npm run bench:rcpsp -- FILE/,
    )
  })
})
