import { describe, expect, test } from 'vitest'
import { planReport, reportText } from '../../src/plan-file/plan-report.ts'
import { readInstance } from '../../src/plan-file/read-instance.ts'
import { solve } from '../../src/scheduler/turn/index.ts'
import { aDocument } from './a-document.ts'

function reportOn(parts: Parameters<typeof aDocument>[0], workMost = 200) {
  const read = readInstance(JSON.stringify(aDocument(parts)))
  return planReport(read, solve(read.instance, { workMost, seed: 1 }))
}

const crew = (...keys: string[]) => keys.map((key) => ({ key, available: [{ fromTick: 0, toTick: 100 }] }))
const job = (key: string, durationTicks: number, count = 1) => ({
  key,
  modes: [{ durationTicks, hands: [{ count }] }],
})

describe('what is said of a plan', () => {
  test('names who does what and when, and that no plan is ready earlier', () => {
    expect(reportOn({})).toEqual({
      turns: [{ key: 'hall', readyTick: 10, boundTick: 10, impossible: null }],
      proof: 'best',
      workDone: 1,
      activities: [{ key: 'sweep', mode: 0, startTick: 0, endTick: 10, lanes: ['Ada'] }],
    })
  })

  test('is not that it is the best where only its being late is proven', () => {
    // Five ticks are too short; 7, 5, 5 and 5 take two people 12, and by work alone 11.
    const activities = [job('a', 7), job('b', 5), job('c', 5), job('d', 5)]
    expect(
      reportOn({ turns: [{ key: 'hall', dueTick: 5 }], activities, lanes: crew('Ada', 'Ben') }),
    ).toMatchObject({ turns: [{ key: 'hall', readyTick: 12, boundTick: 11 }], proof: 'late-anyway' })
  })

  test('is nothing of proof where nothing is proven', () => {
    const activities = [job('a', 7), job('b', 5), job('c', 5), job('d', 5)]
    expect(reportOn({ activities, lanes: crew('Ada', 'Ben') })).toMatchObject({
      turns: [{ key: 'hall', readyTick: 12, boundTick: 11 }],
      proof: 'none-found',
    })
  })

  test('is that there is none where nobody can do it', () => {
    const report = reportOn({ activities: [job('lift', 4, 2)] })
    expect(report).toEqual({
      turns: [
        {
          key: 'hall',
          readyTick: null,
          boundTick: null,
          impossible: { activity: 'lift', kind: 'hands', skills: [], handsNeeded: 2, handsMost: 1 },
        },
      ],
      proof: 'impossible',
      workDone: 0,
      activities: null,
    })
  })

  test('names the skill that nobody has', () => {
    const skilled = { key: 'fly', modes: [{ durationTicks: 4, hands: [{ count: 1, skills: ['rigging'] }] }] }
    expect(reportOn({ activities: [skilled] }).turns[0]?.impossible).toEqual({
      activity: 'fly',
      kind: 'skill',
      skills: ['rigging'],
      handsNeeded: 1,
      handsMost: 0,
    })
  })

  test('is JSON, a turn and an activity a line', () => {
    const report = reportOn({ activities: [job('sweep', 3), job('mop', 4)] })
    const text = reportText(report, 12.6)
    expect(JSON.parse(text)).toEqual({ ...report, milliseconds: 13 })
    expect(text.split('\n').filter((line) => line.includes('"startTick"'))).toHaveLength(2)
    for (const parts of [{ activities: [] }, { activities: [job('lift', 4, 2)] }]) {
      const other = reportOn(parts)
      expect(JSON.parse(reportText(other, 0))).toEqual({ ...other, milliseconds: 0 })
    }
  })
})
