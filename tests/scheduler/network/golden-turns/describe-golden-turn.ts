/** What is true of every turn that was worked out by hand. */
import { describe, expect, test } from 'vitest'
import type { TaskNetwork } from '../../../../src/domain/task.ts'
import { taskNetwork } from '../../../../src/scheduler/network/index.ts'
import type { GoldenTurn } from './golden-turn.ts'
import { plannedMinutes } from './planned-minutes.ts'

/** Pace 1.5 × (1 + allowance of 0.15). */
const CREW_FACTOR = 1.725

export function describeGoldenTurn(turn: GoldenTurn): void {
  const network = taskNetwork(turn.input)
  const tasksOf = (keys: RegExp) => network.tasks.filter((task) => keys.test(task.key))
  const workOf = (keys: RegExp) => tasksOf(keys).reduce((sum, task) => sum + task.workPersonSeconds, 0)

  describe(`the turn from ${turn.name.toLowerCase()}`, () => {
    for (const { work, keys, crewPersonSeconds } of turn.lines) {
      test(`takes the person-seconds of the worked sheet within 5 %: ${work}`, () => {
        expect(workOf(keys)).toBeGreaterThanOrEqual(crewPersonSeconds * 0.95)
        expect(workOf(keys)).toBeLessThanOrEqual(crewPersonSeconds * 1.05)
      })
    }

    for (const { work, keys, personSeconds } of turn.fixed) {
      test(`takes the fixed time of the worked sheet: ${work}`, () => {
        expect(tasksOf(keys).length).toBeGreaterThan(0)
        expect(workOf(keys)).toBe(personSeconds)
      })
    }

    test('has no other work than that of the sheet', () => {
      const sheet = [...turn.lines, ...turn.fixed]
      const others = network.tasks.filter((task) => !sheet.some(({ keys }) => keys.test(task.key)))
      expect(others.map((task) => task.key)).toEqual([])
    })

    test('has a sheet that adds up', () => {
      for (const { work, practisedPersonSeconds, crewPersonSeconds } of turn.lines) {
        expect({ work, off: Math.abs(practisedPersonSeconds * CREW_FACTOR - crewPersonSeconds) > 1 }).toEqual(
          {
            work,
            off: false,
          },
        )
      }
      const sum = (of: (line: GoldenTurn['lines'][number]) => number) =>
        turn.lines.reduce((total, line) => total + of(line), 0)
      expect(sum((line) => line.practisedPersonSeconds)).toBe(turn.practisedPersonSeconds)
      expect(sum((line) => line.crewPersonSeconds)).toBe(turn.crewPersonSeconds)
    })

    for (const [factor, said] of [
      [0.9, 'a tenth less'],
      [1.1, 'a tenth more'],
    ] as const) {
      test(`would not pass for one whose tasks all take ${said}`, () => {
        const other = withTaskTimes(network, factor)
        for (const { keys, crewPersonSeconds } of turn.lines) {
          const work = other.tasks
            .filter((task) => keys.test(task.key))
            .reduce((sum, task) => sum + task.workPersonSeconds, 0)
          expect(Math.abs(work / crewPersonSeconds - 1)).toBeGreaterThan(0.05)
        }
        if (!turn.readyByHand) return
        for (const { hands, minutesLeast, minutesMost } of turn.ready) {
          const minutes = plannedMinutes(other, hands)
          const isNoticed = minutes < minutesLeast || minutes > minutesMost
          expect({ hands, minutes, isNoticed }).toEqual({ hands, minutes, isNoticed: true })
        }
      })
    }

    for (const { hands, minutesLeast, minutesMost } of turn.ready) {
      test(`is ready after ${minutesLeast} to ${minutesMost} min with ${hands} hands`, () => {
        const minutes = plannedMinutes(network, hands)
        expect(minutes).toBeGreaterThanOrEqual(minutesLeast)
        expect(minutes).toBeLessThanOrEqual(minutesMost)
      })
    }
  })
}

const withTaskTimes = ({ tasks, ...network }: TaskNetwork, factor: number): TaskNetwork => ({
  ...network,
  tasks: tasks.map((task) => ({
    ...task,
    workPersonSeconds: task.workPersonSeconds * factor,
    modes: task.modes.map(({ hands, seconds }) => ({ hands, seconds: seconds * factor })),
  })),
})
