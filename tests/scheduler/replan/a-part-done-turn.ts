/** A turn of four tasks for two hands, planned by hand; and what is told of it while it is done. */
import { LaneId } from '../../../src/domain/ids.ts'
import { instantPlusSeconds } from '../../../src/domain/instant.ts'
import { Plan, type PlannedTask } from '../../../src/domain/plan.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import type { Task } from '../../../src/domain/task.ts'
import { Turn } from '../../../src/domain/turn.ts'
import { TurnProgress } from '../../../src/domain/turn-progress.ts'
import { type ReplanAnswer, type ReplannedTurn, replannedTurn } from '../../../src/scheduler/replan/index.ts'
import { aBooking, aHall, at, type HallWishes } from '../decide/a-hall.ts'

export const lane = (hand: number): LaneId => LaneId.parse(`shift_crew#${hand}`)

/** `21:10` on the evening of the turn. */
export const evening = (time: string) => at(`2026-06-05T${time}`)

export interface TaskWishes {
  readonly key: string
  readonly hands: readonly number[]
  readonly startsAt: string
  /** With the hands that it has. */
  readonly minutes: number
  readonly after?: readonly string[]
  readonly parts?: Partial<Task>
}

export function plannedTask(wishes: TaskWishes): PlannedTask {
  const { key, hands, startsAt, minutes, after = [], parts = {} } = wishes
  const seconds = minutes * 60
  return {
    key,
    kind: 'strike',
    zone: null,
    text: `Do ${key}. For whoever has it.`,
    count: null,
    furnishingId: null,
    equipmentId: null,
    fromPlace: null,
    toPlace: 'Long Room',
    workPersonSeconds: seconds * hands.length,
    modes: [{ hands: hands.length, seconds }],
    skill: null,
    adultsOnly: false,
    uses: [],
    after: [...after],
    safetyNotes: [],
    ...parts,
    hands: hands.length,
    laneIds: hands.map(lane),
    startsAt: evening(startsAt),
    endsAt: instantPlusSeconds(evening(startsAt), seconds),
  }
}

/**
 * 21:00 to 21:30: hand 1 clears (10 min), then marks out (10 min, it can be left out); hand 2 cleans (15 min); then both
 * check (10 min, one alone needs 20). Doors are at 21:40.
 */
export const fourTasks = (): PlannedTask[] => [
  plannedTask({ key: 'clear', hands: [1], startsAt: '21:00', minutes: 10 }),
  plannedTask({ key: 'clean', hands: [2], startsAt: '21:00', minutes: 15 }),
  plannedTask({
    key: 'mark',
    hands: [1],
    startsAt: '21:10',
    minutes: 10,
    after: ['clear'],
    parts: { kind: 'mark-out', optional: true },
  }),
  plannedTask({
    key: 'check',
    hands: [1, 2],
    startsAt: '21:20',
    minutes: 10,
    after: ['clean', 'mark'],
    parts: {
      kind: 'sign-off',
      modes: [
        { hands: 1, seconds: 1200 },
        { hands: 2, seconds: 600 },
      ],
    },
  }),
]

export interface PartDone {
  readonly snapshot: SiteSnapshot
  readonly turn: Turn
}

/** @param doors  `21:40` where left out; with a day where that is the next one */
export function partDone(
  tasks: readonly PlannedTask[] = fourTasks(),
  { doors = '21:40', hands = 2, hall = {} }: { doors?: string; hands?: number; hall?: HallWishes } = {},
): PartDone {
  const games = aBooking({
    name: 'games',
    layout: 'long-games',
    doors: '2026-06-05T18:00',
    clear: '2026-06-05T21:00',
  })
  const dinner = aBooking({
    name: 'dinner',
    layout: 'long-banquet',
    doors: doors.includes('T') ? doors : `2026-06-05T${doors}`,
    clear: doors.includes('T') ? '2026-06-06T23:50' : '2026-06-05T23:50',
  })
  const inOrder = tasks.toSorted((a, b) => a.startsAt - b.startsAt || (a.key < b.key ? -1 : 1))
  const readyAt = Math.max(...tasks.map(({ endsAt }) => endsAt))
  const plan = Plan.parse({
    tasks: inOrder,
    resources: [],
    startsAt: inOrder[0]?.startsAt,
    readyAt,
    criticalTaskKeys: [],
    solverVersion: 'by hand',
    workDone: 0,
  })
  const turn = Turn.parse({
    id: dinner.turnId,
    siteId: dinner.siteId,
    bookingId: dinner.id,
    roomId: dinner.roomId,
    predecessorBookingIds: [games.id],
    fromLayoutIds: [games.layoutId],
    toLayoutId: dinner.layoutId,
    releaseAt: games.clearAt,
    dueAt: dinner.doorsAt,
    inputHash: 'by hand',
    status: 'ready',
    judgement: {
      verdict: 'fits',
      reasons: [],
      judgedAt: at('2026-06-01T09:00'),
      policyId: 'policy_test',
      staffedWindowSeconds: 0,
      neededSeconds: 0,
      lowerBoundSeconds: 0,
      proof: null,
      readyAt,
      slackSeconds: 0,
      hands: { needed: hands, onDuty: hands, assumed: 0 },
    },
    plan,
  })
  const snapshot = { ...aHall({ hands, ...hall }), bookings: [games, dinner], turns: [turn] }
  return { snapshot, turn }
}

export const NOTHING_TOLD: TurnProgress = { done: [], running: [], missing: [], added: [], stands: null }

export interface Told {
  readonly done?: readonly string[]
  /** Minutes left of each. */
  readonly running?: Readonly<Record<string, number>>
  readonly missing?: readonly { readonly laneId: string; readonly fromAt?: number; readonly toAt?: number }[]
  readonly added?: readonly unknown[]
  readonly stands?: unknown
}

export const told = ({
  done = [],
  running = {},
  missing = [],
  added = [],
  stands = null,
}: Told): TurnProgress =>
  TurnProgress.parse({
    done: done.map((taskKey) => ({ taskKey })),
    running: Object.entries(running).map(([taskKey, minutes]) => ({ taskKey, secondsLeft: minutes * 60 })),
    missing,
    added,
    stands,
  })

export const askedAt = (
  { snapshot, turn }: PartDone,
  time: string | number,
  progress: TurnProgress,
): ReplanAnswer => {
  const now = typeof time === 'number' ? evening('21:00') + time : evening(time)
  return replannedTurn(
    { ...snapshot, now: instantPlusSeconds(evening('21:00'), (now - evening('21:00')) / 1000) },
    turn,
    progress,
  )
}

/** @throws Error with what came instead of a plan */
export function replannedAt(part: PartDone, time: string | number, progress: TurnProgress): ReplannedTurn {
  const answer = askedAt(part, time, progress)
  if (answer.kind !== 'replanned') throw new Error(`${answer.kind}: ${JSON.stringify(answer)}`)
  return answer.replanned
}

/** `mark 21:10–21:20 1`: each task with its span and its hands. */
export const shown = ({ plan }: ReplannedTurn): string[] =>
  (plan?.tasks ?? []).map(
    ({ key, startsAt, endsAt, laneIds }) =>
      `${key} ${clock(startsAt)}–${clock(endsAt)} ${laneIds.map((id) => id.split('#')[1]).join('+')}`,
  )

/** Minutes after 21:00 as the clock shows them. */
const clock = (moment: number): string => {
  const minutes = (moment - evening('21:00')) / 60_000
  const rest = String(minutes % 60).padStart(2, '0')
  return `${21 + Math.floor(minutes / 60)}:${rest}`
}
