/** A turn as the scheduler plans it, and what is told of it where it goes as planned. */
import type { PlannedTask } from '../../../src/domain/plan.ts'
import type { TurnProgress } from '../../../src/domain/turn-progress.ts'
import { decide, isTurnWork } from '../../../src/scheduler/decide/index.ts'
import { aHall, book, snapshotAfter } from '../decide/a-hall.ts'
import { NOTHING_TOLD, type PartDone } from './a-part-done-turn.ts'

/** Games until nine, a dinner at half past ten, as the scheduler plans it. */
export function aDinnerPlanned(): PartDone & { readonly tasks: readonly PlannedTask[] } {
  const hall = aHall({ hands: 5 })
  const operations = [
    book({ name: 'games', layout: 'long-games', doors: '2026-06-05T18:00', clear: '2026-06-05T21:00' }),
    book({ name: 'dinner', layout: 'long-banquet', doors: '2026-06-05T22:30', clear: '2026-06-05T23:50' }),
  ]
  const { changes } = decide(hall, operations)
  if (!changes) throw new Error('the dinner does not fit')
  const snapshot = snapshotAfter(hall, changes)
  const turn = snapshot.turns.find(({ bookingId }) => bookingId === 'booking_dinner')
  if (!turn?.plan) throw new Error('the turn has no plan')
  return { snapshot, turn, tasks: turn.plan.tasks.filter(isTurnWork) }
}

/** What would be told at that moment if everything had gone as planned. */
export function asPlanned(tasks: readonly PlannedTask[], now: number): TurnProgress {
  return {
    ...NOTHING_TOLD,
    done: tasks.filter(({ endsAt }) => endsAt <= now).map(({ key }) => ({ taskKey: key, doneAt: null })),
    running: tasks
      .filter(({ startsAt, endsAt }) => startsAt <= now && now < endsAt)
      .map(({ key, endsAt }) => ({
        taskKey: key,
        laneIds: null,
        secondsLeft: Math.ceil((endsAt - now) / 1000),
      })),
  }
}
