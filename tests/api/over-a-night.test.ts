/** A turn that goes on after a night, by others than those who began it: what its sheet and its answer say. */
import { describe, expect, test } from 'vitest'
import { turnPage } from '../../src/api/page/turn-page.ts'
import { lanesOf } from '../../src/api/turns/lanes-of.ts'
import { notBriefed, notBriefedSentence } from '../../src/api/turns/not-briefed.ts'
import { turnAnswer } from '../../src/api/turns/turn-answer.ts'
import { LaneId } from '../../src/domain/ids.ts'
import type { Turn } from '../../src/domain/turn.ts'
import { aCrew, aUse, planOf, turnOf, withBookings } from '../scheduler/decide/a-crew.ts'
import { aShift } from '../scheduler/decide/a-hall.ts'

const late = aShift('late', 2, '2026-06-05T18:30', '2026-06-05T21:30')
const early = (hands: number) => aShift('early', hands, '2026-06-06T07:00', '2026-06-06T12:00')
const label = (laneId: LaneId) => laneId.replace('shift_', '').replace('#', ' hand ')

/** Games until nine in the evening, a dinner at ten the next morning; the late crew leaves half an hour later. */
const overNight = (shifts: readonly unknown[], people: readonly unknown[] = []) =>
  withBookings(
    aCrew({ shifts, people, now: '2026-06-05T18:00' }),
    aUse('games', 'long-games', '19:30', '21:00'),
    aUse('dinner', 'long-banquet', '2026-06-06T10:00', '2026-06-06T12:00'),
  )

const pageOf = (setup: ReturnType<typeof overNight>, turn: Turn): string =>
  turnPage({ setup, turn, booking: null, label, named: [], around: null }).text

const timesIn = (page: string): string[] =>
  [...page.matchAll(/data-label="Time">([^<]*)</g)].map(([, time]) => time!)

describe('a turn that goes on after a night', () => {
  test('says who was not at the briefing, on its sheet and in its answer', () => {
    const setup = overNight([late, early(2)])
    const { tasks } = planOf(setup, 'dinner')
    const absent = notBriefed(tasks, setup)
    expect([...absent].sort()).toEqual(['shift_early#1', 'shift_early#2'])
    const sentence = notBriefedSentence(absent, label)
    expect(sentence).toBe(
      `Not at the briefing: ${absent.map(label).join(' and ')}; whoever leads then tells them when they begin.`,
    )
    const turn = turnOf(setup, 'dinner')
    expect(pageOf(setup, turn)).toContain(`<p>${sentence}</p>`)
    expect(turnAnswer(turn, { setup, named: [] }, label, null, setup.now).notBriefedSentence).toBe(sentence)
  })

  test('names nobody who was on duty at the briefing', () => {
    const both = {
      ...late,
      times: { kind: 'once', startsAt: late.times.startsAt, endsAt: early(1).times.endsAt },
    }
    const setup = overNight([both])
    const { tasks } = planOf(setup, 'dinner')
    expect(notBriefed(tasks, setup)).toEqual([])
    expect(pageOf(setup, turnOf(setup, 'dinner'))).not.toContain('Not at the briefing')
  })

  test('knows of nobody whom nobody has promised whether they are there, and says nothing of them', () => {
    const setup = overNight([late, early(2)])
    const tasks = planOf(setup, 'dinner').tasks.map((task) => ({
      ...task,
      laneIds: task.laneIds.map((laneId) => LaneId.parse(laneId.replace('shift_early', 'assumed'))),
    }))
    expect(notBriefed(tasks, setup)).toEqual([])
    expect(notBriefedSentence([], label)).toBeNull()
  })

  test('has the day with each time, and a turn of one day has not', () => {
    const setup = overNight([late, early(2)])
    const times = timesIn(pageOf(setup, turnOf(setup, 'dinner')))
    expect(times.length).toBeGreaterThan(10)
    for (const time of times) expect(time).toMatch(/^(Fri 5|Sat 6) Jun \d\d:\d\d–\d\d:\d\d$/)
    expect(times[0]).toMatch(/^Fri 5 Jun 21:00–/)
    expect(times.at(-1)).toMatch(/^Sat 6 Jun /)
    for (const time of timesIn(pageOf(setup, turnOf(setup, 'games')))) {
      expect(time).toMatch(/^\d\d:\d\d–\d\d:\d\d$/)
    }
  })

  test('has no stint of anybody that lasts over hours in which they are off duty', () => {
    const people = ['ann', 'ben'].map((name) => ({ id: `person_${name}`, skills: [], adult: true }))
    const shifts = people.flatMap(({ id: personId }) =>
      [late, early(1)].map((shift) => ({
        ...shift,
        id: `${shift.id}-${personId.slice(-3)}`,
        crew: { kind: 'person', personId },
      })),
    )
    const setup = overNight(shifts, people)
    const lanes = lanesOf(planOf(setup, 'dinner').tasks, setup, label)
    const stints = lanes.flatMap((lane) => lane.stints)
    const duties = [late, early(1)].map(({ times }) => times)
    const within = duties.map(
      (duty) =>
        stints.filter(({ startsAt, endsAt }) => duty.startsAt <= startsAt && endsAt <= duty.endsAt).length,
    )
    for (const count of within) expect(count).toBeGreaterThan(2)
    expect(within[0]! + within[1]!).toBe(stints.length)
    // What was not done before the night is gone on with.
    expect(stints.filter(({ goesOn }) => goesOn).map(({ text }) => text)).toEqual([
      'Go on: clean the floor, zone 3',
      'Go on: clean the floor, zone 3',
    ])
  })
})
