/**
 * Random days at a hall, told by the clock of one zone or another, with a change of the clocks in them. What happened in
 * lives that went wrong is kept in random-life/once-went-wrong.ts. For a long look:
 * `LIFE_RUNS=1000 LIFE_SEED=7 npx vitest run tests/scheduler/decide/random-life.test.ts`.
 */
import { spawn } from 'node:child_process'
import { text } from 'node:stream/consumers'
import { fileURLToPath } from 'node:url'
import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import type { Operation } from '../../../src/domain/operation.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide, operationProblems } from '../../../src/scheduler/decide/index.ts'
import { homeTurnInputOf, turnInputOf } from '../../../src/scheduler/timeline/turn-input.ts'
import { worldOf } from '../../../src/scheduler/timeline/world.ts'
import { aBusyHall } from './random-life/a-busy-hall.ts'
import { callOf, type Place } from './random-life/call-of.ts'
import { commandOf, type Hall, type Model } from './random-life/commands.ts'
import { type Happening, happening, happenings } from './random-life/happening.ts'
import { judgedAnew, workedOff } from './random-life/judged-anew.ts'
import { type LivedOptions, lived, type Outcome } from './random-life/lived.ts'
import { onceWentWrong } from './random-life/once-went-wrong.ts'

const chicago = { zone: 'America/Chicago', firstDate: '2026-03-05' }
const auckland = { zone: 'Pacific/Auckland', firstDate: '2026-04-01' }

const seed = Number(process.env.LIFE_SEED ?? 20261125)
const runs = (few: number): number => Number(process.env.LIFE_RUNS ?? few)
const PATIENCE_MILLISECONDS = 120_000 * Math.max(1, runs(0) / 20)

/** Some bookings first: an empty hall has little to lose. */
const life: fc.Arbitrary<Happening[]> = fc
  .tuple(
    fc.array(happenings[0]!.arbitrary, { minLength: 4, maxLength: 8, size: 'max' }),
    fc.array(happening, { minLength: 8, maxLength: 30, size: 'max' }),
  )
  .map(([bookings, others]) => [...bookings, ...others])

function lifeLived(
  place: Omit<Place, 'name'> & { readonly zone: string },
  happenings: readonly Happening[],
  options: LivedOptions = { alternatives: false },
): SiteSnapshot {
  return happenings.reduce(
    (snapshot, one, index) => lived(snapshot, one, { ...place, name: `n${index + 1}` }, options).snapshot,
    aBusyHall(place),
  )
}

describe('whatever happens at a hall, in whatever order', () => {
  test(
    'no promise is broken, a no changes nothing, and what is decided on the days around is decided on everything',
    () => {
      const outcomes = new Map<Outcome, number>()
      const commands = fc.commands(
        happenings.flatMap(({ arbitrary, weight }) =>
          Array.from({ length: weight }, () => arbitrary.map(commandOf)),
        ),
        { maxCommands: 40, size: 'max' },
      )
      fc.assert(
        fc.property(commands, fc.constantFrom(chicago, auckland), (happen, place) => {
          const hall: Hall = {
            place,
            options: { alternatives: true },
            outcomes,
            snapshot: aBusyHall(place),
          }
          const model: Model = { bookings: new Map(), count: 0 }
          fc.modelRun(() => ({ model, real: hall }), happen)
        }),
        { seed, numRuns: runs(30) },
      )
      // Worth something only if it met yes and no, often.
      expect(outcomes.get('taken') ?? 0).toBeGreaterThan(100)
      expect(outcomes.get('refused') ?? 0).toBeGreaterThan(20)
    },
    PATIENCE_MILLISECONDS,
  )
})

describe('what once went wrong', () => {
  test.each(onceWentWrong)('goes right: $story', ({ happenings: all }) => {
    for (const place of [chicago, auckland]) lifeLived(place, all, { alternatives: true })
  })
})

describe('turns that are looked at again', () => {
  test(
    'stand the same, some looked at at a time or all at once, and a second look moves no plan that holds',
    () => {
      let looked = 0
      fc.assert(
        fc.property(life, (all) => {
          const stale = lifeLived(chicago, all)
          const someAtATime = workedOff(stale, 2)
          expect(statuses(someAtATime)).toEqual(statuses(workedOff(stale, 1000)))
          expect(judgedOnOtherInputs(someAtATime)).toEqual([])
          const moved = judgedAnew(someAtATime).filter(({ before, after }) => {
            const holds = before?.status === 'ready' && before.judgement.hands.assumed === 0
            return holds && (after.status !== 'ready' || !isSame(before.plan, after.plan))
          })
          expect(moved).toEqual([])
          if (stale.judgedThroughAt !== null) looked += 1
        }),
        { seed, numRuns: runs(8) },
      )
      expect(looked).toBeGreaterThan(0)
    },
    PATIENCE_MILLISECONDS,
  )
})

/** Of turns to come, by id. */
const statuses = ({ turns, now }: SiteSnapshot): Record<string, string> =>
  Object.fromEntries(
    turns
      .filter(({ status, dueAt }) => status !== 'dropped' && dueAt > now)
      .map(({ id, status }) => [id, status] as const)
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  )

/** Turns whose work has not begun, and that were made from something else than follows from all there is. */
function judgedOnOtherInputs(all: SiteSnapshot): string[] {
  const world = worldOf(all)
  return world.bookings.flatMap((booking) => {
    const inputs = [turnInputOf(world, booking), homeTurnInputOf(world, booking)]
    return inputs.flatMap((input) => {
      const turn = input && world.turnsById.get(input.turnId)
      const isToCome = turn && turn.dueAt > all.now && (turn.plan === null || turn.plan.startsAt > all.now)
      return isToCome && turn.inputHash !== input.inputHash ? [turn.id] : []
    })
  })
}

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b)

interface Question {
  readonly snapshot: SiteSnapshot
  readonly operations: readonly Operation[]
}

/** What was asked in a life, every so often. */
function questionsIn(all: readonly Happening[]): Question[] {
  const questions: Question[] = []
  let snapshot: SiteSnapshot = aBusyHall(chicago)
  for (const [index, one] of all.entries()) {
    const place = { ...chicago, name: `n${index + 1}` }
    const call = callOf(snapshot, one, place)
    if (call?.kind === 'ask' && index % 2 === 0 && operationProblems(snapshot, call.operations).length === 0)
      questions.push({ snapshot, operations: call.operations })
    snapshot = lived(snapshot, one, place, { alternatives: false }).snapshot
  }
  return questions
}

describe('the same question', () => {
  let questions: readonly Question[] = []
  let answers: readonly string[] = []
  beforeAll(() => {
    questions = fc.sample(life, { seed, numRuns: runs(4) }).flatMap(questionsIn)
    answers = questions.map(({ snapshot, operations }) => JSON.stringify(decide(snapshot, operations)))
  }, PATIENCE_MILLISECONDS)

  test('gets the same bytes for an answer, whatever was decided in between', () => {
    expect(answers.length).toBeGreaterThan(20)
    for (const [index, question] of questions.entries()) {
      const { snapshot, operations } = structuredClone(question)
      expect(JSON.stringify(decide(snapshot, operations))).toBe(answers[index])
    }
  })

  test(
    'gets them from another process too, last question first',
    async () => {
      const script = fileURLToPath(new URL('./random-life/decide-elsewhere.ts', import.meta.url))
      const elsewhere = spawn(process.execPath, ['--import', 'tsx', script], {
        stdio: ['pipe', 'pipe', 'inherit'],
      })
      const said = text(elsewhere.stdout)
      for (const question of questions.toReversed()) elsewhere.stdin.write(`${JSON.stringify(question)}\n`)
      elsewhere.stdin.end()
      expect((await said).trim().split('\n').toReversed()).toEqual(answers)
    },
    PATIENCE_MILLISECONDS,
  )
})
