/**
 * An instance of one turn as an integer program: for each activity, mode and tick whether it starts so, and for each of
 * its hands whether it is that lane. The ready tick is what is made least. It knows nothing of the solver.
 * The form is that of A. Pritsker, L. Watters and P. Wolfe (1969), with lanes and modes; from memory.
 */
import type { Mode, TurnInstance } from '../../../src/scheduler/turn/instance.ts'

interface Start {
  readonly name: string
  readonly activity: number
  readonly mode: Mode
  readonly from: number
  readonly to: number
}

interface Held {
  readonly name: string
  readonly lane: number
  readonly start: Start
}

/**
 * As text in the LP format.
 * @param instance  one turn, one place, nothing pinned, no budgets; hands in one group a mode at most
 */
export function timeIndexedModel(instance: TurnInstance): string {
  const starts = startsIn(instance)
  const held = starts.flatMap((start) => heldFor(instance, start))
  const rows = [
    ...instance.activities.map((_, activity) => `${sum(ofActivity(starts, activity), () => 1)} = 1`),
    ...precedenceRows(instance, starts),
    ...resourceRows(instance, starts),
    ...consumableRows(instance, starts),
    ...handRows(starts, held),
    ...laneRows(instance, held),
    ...instance.activities.map(
      (_, activity) => `ready ${sum(ofActivity(starts, activity), ({ to }) => -to)} >= 0`,
    ),
  ]
  const { releaseTick } = instance.turns[0]!
  return [
    'Minimize',
    ' ready',
    'Subject To',
    ...rows.map((row, index) => ` r${index}: ${row}`),
    'Bounds',
    ` ${releaseTick} <= ready <= ${instance.horizonTick}`,
    'Binary',
    ...[...starts, ...held].map(({ name }) => ` ${name}`),
    'End',
  ].join('\n')
}

/** Every tick at which an activity could start in a mode, for itself. */
const startsIn = ({ turns, activities, horizonTick }: TurnInstance): Start[] =>
  activities.flatMap(({ modes }, activity) =>
    modes.flatMap((mode, at) => {
      const first = turns[0]!.releaseTick
      const count = Math.max(0, horizonTick - mode.durationTicks - first + 1)
      return Array.from({ length: count }, (_, after): Start => {
        const from = first + after
        const to = from + mode.durationTicks
        return { name: `x_${activity}_${at}_${from}`, activity, mode, from, to }
      })
    }),
  )

/** The lanes with the skills that are on duty and held by nothing from start to end. */
function heldFor({ lanes }: TurnInstance, start: Start): Held[] {
  const { name, mode, from, to } = start
  const [need] = mode.hands
  if (!need) return []
  return lanes.flatMap(({ skillMask, available, busy }, lane) => {
    const isThere = available.some((span) => span.from <= from && to <= span.to)
    const isFree = busy.every((span) => span.to <= from || to <= span.from)
    return isThere && isFree && (skillMask & need.skillMask) === need.skillMask
      ? [{ name: `h_${lane}_${name.slice(2)}`, lane, start }]
      : []
  })
}

const precedenceRows = ({ activities }: TurnInstance, starts: readonly Start[]): string[] =>
  activities.flatMap(({ after }, activity) =>
    after.map(
      (before) =>
        `${sum(ofActivity(starts, activity), ({ from }) => from)} ${sum(ofActivity(starts, before), ({ to }) => -to)} >= 0`,
    ),
  )

function resourceRows({ resources, horizonTick }: TurnInstance, starts: readonly Start[]): string[] {
  return resources.flatMap(({ capacity }, resource) =>
    Array.from({ length: horizonTick }, (_, tick) => {
      const running = starts.filter(({ from, to }) => from <= tick && tick < to)
      const there = capacity.filter(({ fromTick }) => fromTick <= tick).at(-1)?.amount ?? 0
      return limited(running, ({ mode }) => amountOf(mode.uses, (use) => use.resource === resource), there)
    }).flat(),
  )
}

const consumableRows = ({ consumables = [] }: TurnInstance, starts: readonly Start[]): string[] =>
  consumables.flatMap(({ amountMost }, consumable) =>
    limited(
      starts,
      ({ mode }) => amountOf(mode.consumes ?? [], (one) => one.consumable === consumable),
      amountMost,
    ),
  )

/** As many lanes as the mode asks for, if it starts so. */
const handRows = (starts: readonly Start[], held: readonly Held[]): string[] =>
  starts.flatMap((start) => {
    const [need] = start.mode.hands
    const own = held.filter((one) => one.start === start)
    return need ? [`${sum(own, () => 1)} - ${need.count} ${start.name} = 0`] : []
  })

const laneRows = ({ lanes, horizonTick }: TurnInstance, held: readonly Held[]): string[] =>
  lanes.flatMap((_, lane) =>
    Array.from({ length: horizonTick }, (_, tick) => {
      const running = held.filter((one) => one.lane === lane && one.start.from <= tick && tick < one.start.to)
      return limited(running, () => 1, 1)
    }).flat(),
  )

const ofActivity = (starts: readonly Start[], activity: number): Start[] =>
  starts.filter((start) => start.activity === activity)

function amountOf<Use extends { readonly amount: number }>(
  uses: readonly Use[],
  isMeant: (use: Use) => boolean,
): number {
  return uses.filter(isMeant).reduce((all, { amount }) => all + amount, 0)
}

function limited<Term extends { readonly name: string }>(
  terms: readonly Term[],
  amountIn: (term: Term) => number,
  most: number,
): string[] {
  const row = sum(terms, amountIn)
  return row === '' ? [] : [`${row} <= ${most}`]
}

/** A term a line; '' when nothing counts. */
const sum = <Term extends { readonly name: string }>(
  terms: readonly Term[],
  factorOf: (term: Term) => number,
): string =>
  terms
    .flatMap((term) => {
      const factor = factorOf(term)
      return factor === 0 ? [] : [`${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${term.name}`]
    })
    .join('\n')
