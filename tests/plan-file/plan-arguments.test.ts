import { describe, expect, test } from 'vitest'
import { HelpAsked } from '../../src/plan-file/help-asked.ts'
import { InputFault } from '../../src/plan-file/input-fault.ts'
import { planArguments } from '../../src/plan-file/plan-arguments.ts'

const usage =
  'Call it so: npm run plan -- FILE.json [--work N] [--seed S]; left out, the work is 5000 schedules and the seed is 1.'

describe('the command is called', () => {
  test('with a file alone, or with effort and seed anywhere', () => {
    expect(planArguments(['hall.json'])).toEqual({ file: 'hall.json', workMost: 5000, seed: 1 })
    expect(planArguments(['--seed', '0', 'hall.json', '--work=12'])).toEqual({
      file: 'hall.json',
      workMost: 12,
      seed: 0,
    })
  })

  test.each<[string[], string]>([
    [[], `The file is missing. ${usage}`],
    [['a.json', 'b.json'], `One file at a time. ${usage}`],
    [['a.json', '--work', '0'], `--work 0 is no whole number from 1 to 4294967295. ${usage}`],
    [['a.json', '--work', '-5'], `--work -5 is no whole number from 1 to 4294967295. ${usage}`],
    [['a.json', '--seed', '1e3'], `--seed 1e3 is no whole number from 0 to 4294967295. ${usage}`],
    [
      ['a.json', '--seed', '4294967296'],
      `--seed 4294967296 is no whole number from 0 to 4294967295. ${usage}`,
    ],
  ])('wrongly: %j', (args, message) => {
    expect(() => planArguments(args)).toThrow(new InputFault(message))
  })

  test('for help, and says how to call it', () => {
    expect(() => planArguments(['--help'])).toThrow(new HelpAsked(usage))
  })

  test('wrongly, with an option there is not', () => {
    expect(() => planArguments(['a.json', '--speed', '1'])).toThrow(/--speed.*Call it so: npm run plan/s)
  })
})
