/** Tasks as the solver's activities: modes, skills as masks, resources by index. */
import type { Furnishing } from '../../../domain/furnishing.ts'
import { amountUsed, type Task, type TaskKind, type TaskNetwork } from '../../../domain/task.ts'
import { isChair, isTable } from '../../network/index.ts'
import { type Activity, type HandsNeed, TICK_SECONDS } from '../../turn/index.ts'
import { workKey } from './work-key.ts'

export const ADULT = 'adult'
/** Not one of a group that helps. */
export const CREW = 'crew'

/**
 * Every skill that the tasks ask for, then being an adult, and where groups help being of the crew, or who may help in
 * which turn: bit k of a mask is skill k.
 */
export const skillsAsked = (
  tasks: readonly Task[],
  groupsHelp: boolean,
  ofHelpers: readonly string[] = [],
): string[] => [
  ...[...new Set(tasks.flatMap(({ skill }) => skill ?? []))].sort(),
  ADULT,
  ...(groupsHelp ? [CREW, ...ofHelpers] : []),
]

type MaskOf = (names: readonly string[]) => number

/** Names that nobody asks for have no bit. */
export const maskIn =
  (skills: readonly string[]): MaskOf =>
  (names) =>
    names.reduce((mask, name) => {
      const bit = skills.indexOf(name)
      return bit < 0 ? mask : mask | (1 << bit)
    }, 0)

export interface ActivitiesPlace {
  readonly resourceIndex: (key: string) => number
  /** What else a task holds, whatever its mode. */
  readonly also: (task: Task) => readonly { readonly resource: string; readonly amount: number }[]
  /** Index of its turn in the instance. */
  readonly turnOf: (task: Task) => number
  readonly place: number
  /** Asked of hands at what a group may help with; none: anybody will do. */
  readonly ofHelpers: readonly string[]
  /** Index of the first of them in the instance. */
  readonly firstActivity: number
  readonly keyPrefix: string
}

export function activitiesOf(
  network: TaskNetwork,
  furnishings: readonly Pick<Furnishing, 'id' | 'kind'>[],
  maskOf: MaskOf,
  { resourceIndex, also, turnOf, place, ofHelpers, firstActivity, keyPrefix }: ActivitiesPlace,
): Activity[] {
  const indexByKey = new Map(network.tasks.map((task, index) => [task.key, firstActivity + index]))
  const forGroups = new Set<string>(
    furnishings.filter(({ kind }) => isChair(kind) || isTable(kind)).map(({ id }) => id),
  )
  const groups = new Map<string, number>()
  const groupOf = (task: Task): number => {
    const name = workKey(task)
    const group = groups.get(name) ?? firstActivity + groups.size
    groups.set(name, group)
    return group
  }
  return network.tasks.map((task) => {
    const held = also(task).map(({ resource, amount }) => ({ resource: resourceIndex(resource), amount }))
    const base = [
      ...(task.adultsOnly ? [ADULT] : []),
      ...(groupMayHelp(task, forGroups) ? ofHelpers : [CREW]),
    ]
    return {
      key: `${keyPrefix}${task.key}`,
      turn: turnOf(task),
      place,
      after: task.after.map((key) => indexByKey.get(key) ?? -1),
      group: groupOf(task),
      ...(task.zone === null ? {} : { zone: task.zone }),
      modes: task.modes.map((mode) => ({
        durationTicks: Math.max(1, Math.ceil(mode.seconds / TICK_SECONDS)),
        hands: handsNeeds(task, mode.hands, base, maskOf),
        uses: [
          ...task.uses.map((use) => ({
            resource: resourceIndex(use.resource),
            amount: amountUsed(use, mode.hands),
          })),
          ...held,
        ],
      })),
    }
  })
}

/** Right after its event a group takes down its own chairs and tables: common practice, no source. */
const groupKinds: ReadonlySet<TaskKind> = new Set(['strike', 'restack', 'park'])
const groupMayHelp = ({ kind, furnishingId, skill, adultsOnly }: Task, forGroups: ReadonlySet<string>) =>
  groupKinds.has(kind) &&
  furnishingId !== null &&
  forGroups.has(furnishingId) &&
  skill === null &&
  !adultsOnly

function handsNeeds(task: Task, hands: number, base: readonly string[], maskOf: MaskOf): HandsNeed[] {
  if (hands === 0) return []
  if (task.skill === null) return [{ count: hands, skillMask: maskOf(base) }]
  const skillMask = maskOf([...base, task.skill])
  // At the event everybody must have it, in a turn one of those who do the task.
  if (hands === 1 || task.kind === 'duty') return [{ count: hands, skillMask }]
  return [
    { count: 1, skillMask },
    { count: hands - 1, skillMask: maskOf(base) },
  ]
}
