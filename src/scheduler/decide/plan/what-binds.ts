/** The chain that decides when a room is ready, with names; and as a sentence that says where its minutes go. */
import type { ChainLink } from '../../../domain/chain-link.ts'
import { type HalfOpenInterval, unionOf } from '../../../domain/half-open-interval.ts'
import type { LaneId } from '../../../domain/ids.ts'
import type { PlannedTask } from '../../../domain/plan.ts'
import type { Task, TaskResource } from '../../../domain/task.ts'
import type { ChainStep } from '../../turn/index.ts'
import { ADULT } from './activities-of.ts'
import { agreed, beginning, waiting, working } from './what-binds-words.ts'

type Binds = ChainLink['binds']

/** What a `BuiltInstance` knows of names. */
interface NamedInstance {
  readonly instance: { readonly resources: readonly { readonly key: string }[] }
  readonly lanes: readonly { readonly laneId: LaneId }[]
  /** Bit k of a mask is skill k. */
  readonly skills: readonly string[]
  readonly parts: readonly NamedPart[]
}

interface NamedPart {
  readonly firstActivity: number
  readonly network: { readonly tasks: readonly Task[]; readonly resources: readonly TaskResource[] }
  readonly input: {
    readonly room: NamedPlace
    readonly network: {
      readonly storagePlaces: readonly NamedPlace[]
      readonly equipmentFrom: readonly { readonly equipment: NamedPlace }[]
    }
  }
}

interface NamedPlace {
  readonly id: string
  readonly name: string
}

/**
 * @param steps  as `criticalChain` gives them, for a turn of one of the parts
 * @returns only tasks of that part: where the chain comes from another turn planned together with it, its first task here
 *   is held from elsewhere
 */
export function chainLinks(built: NamedInstance, steps: readonly ChainStep[]): ChainLink[] {
  const last = steps.at(-1)
  const part = built.parts.findLast(({ firstActivity }) => last && firstActivity <= last.activity)
  if (!part) return []
  const keyOf = (activity: number | null): string | null =>
    activity === null ? null : (part.network.tasks[activity - part.firstActivity]?.key ?? null)
  const firstOwn = steps.findLastIndex(({ activity }) => keyOf(activity) === null) + 1
  return steps.slice(firstOwn).map(({ activity, binds }) => ({
    taskKey: keyOf(activity)!,
    binds: namedBinds(built, part, keyOf, binds),
  }))
}

function namedBinds(
  { instance, lanes, skills }: NamedInstance,
  part: NamedPart,
  keyOf: (activity: number | null) => string | null,
  binds: ChainStep['binds'],
): Binds {
  switch (binds.kind) {
    case 'release':
      return { kind: 'release' }
    case 'after':
      return { kind: 'after', taskKey: keyOf(binds.activity)! }
    case 'lane': {
      const { laneId } = lanes[binds.lane]!
      const taskKey = keyOf(binds.activity)
      return taskKey === null ? { kind: 'held-elsewhere', laneId } : { kind: 'hands', laneId, taskKey }
    }
    case 'lane-held':
      return { kind: 'held-elsewhere', laneId: lanes[binds.lane]!.laneId }
    case 'duty':
      return { kind: 'duty-begins', laneId: lanes[binds.lane]!.laneId }
    case 'resource': {
      const { key } = instance.resources[binds.resource]!
      return { kind: 'resource', key, label: labelOf(part, key), taskKey: keyOf(binds.activity) }
    }
    case 'skill': {
      // Named skills come first: who must have one of them is not described by being an adult.
      const skill = skills.find((_, bit) => (binds.skillMask & (1 << bit)) !== 0) ?? ADULT
      return { kind: 'skill', skill, taskKey: keyOf(binds.activity) }
    }
    case 'none':
      return { kind: 'nothing' }
    default:
      return binds satisfies never
  }
}

function labelOf({ network, input }: NamedPart, key: string): string {
  const resource = network.resources.find((one) => one.key === key)
  if (resource) return resource.label
  // A place that is closed for a time.
  const place = [input.room, ...input.network.storagePlaces].find(({ id }) => key === `open:${id}`)
  if (place) return place.name
  const held = input.network.equipmentFrom.find(
    ({ equipment }) => key === `moved:${equipment.id}:${input.room.id}`,
  )
  return held?.equipment.name ?? key
}

/**
 * Where the time of a chain goes. What passes from the start of one task to the start of the next counts as work where
 * one has to be done first, or where hands of the next are at work meanwhile; only while they are idle they wait. The last
 * task counts by itself. Whole minutes that add up to the time from the first start to the last end.
 * @param tasks  of the plan that the chain explains
 */
export function chainSentence(links: readonly ChainLink[], tasks: readonly PlannedTask[]): string {
  const byKey = new Map(tasks.map((task) => [task.key, task]))
  const chain = links.map(({ taskKey }) => byKey.get(taskKey)!)
  const last = chain.at(-1)
  if (!last) return 'Ready at once: there is nothing to do.'
  const msByWords = new Map<string, number>()
  const add = (words: string, ms: number) => {
    if (ms > 0) msByWords.set(words, (msByWords.get(words) ?? 0) + ms)
  }
  for (const [index, { binds }] of links.entries()) {
    if (index === 0) continue
    const task = chain[index]!
    const span = { fromAt: chain[index - 1]!.startsAt, toAt: task.startsAt }
    const idleMs = binds.kind === 'after' ? 0 : idleMsOf(task, tasks, span)
    add(working(binds), span.toAt - span.fromAt - idleMs)
    add(waiting(binds), idleMs)
  }
  msByWords.set('are the last task', last.endsAt - last.startsAt)
  const minutes = wholeMinutes([...msByWords.values()])
  const total = minutes.reduce((sum, count) => sum + count, 0)
  const begins = beginning(links[0]!.binds)
  if (links.length === 1) return `Ready at the end of one task of ${total} min that ${begins}.`
  const clauses = [...msByWords.keys()]
    .map((words, index) => ({ words, count: minutes[index]!, isLast: index === msByWords.size - 1 }))
    .filter(({ count }) => count > 0)
    .sort((a, b) => Number(a.isLast) - Number(b.isLast) || b.count - a.count)
    .map(
      ({ words, count }, index) =>
        `${count}${index === 0 ? ` of its ${total} min` : ''} ${agreed(words, count)}`,
    )
  const when = links[0]!.binds.kind === 'release' ? '' : ` that ${begins}`
  return `Ready at the end of a chain of ${links.length} tasks${when}: ${clauses.join(', ')}.`
}

/** How much of a span none of its hands is at work; all of it for what no hands do. */
function idleMsOf(task: PlannedTask, tasks: readonly PlannedTask[], span: HalfOpenInterval): number {
  const atWork = tasks.filter(
    ({ key, laneIds }) => key !== task.key && laneIds.some((laneId) => task.laneIds.includes(laneId)),
  )
  const stretches = unionOf(atWork.map(({ startsAt, endsAt }) => ({ fromAt: startsAt, toAt: endsAt })))
  const workedMs = stretches
    .map(({ fromAt, toAt }) => Math.min(toAt, span.toAt) - Math.max(fromAt, span.fromAt))
    .reduce((sum, ms) => sum + Math.max(0, ms), 0)
  return span.toAt - span.fromAt - workedMs
}

/** In milliseconds; rounded up in all, each part down, then those up that lost most. */
function wholeMinutes(parts: readonly number[]): number[] {
  const minutes = parts.map((ms) => Math.floor(ms / 60_000))
  const total = Math.ceil(parts.reduce((sum, ms) => sum + ms, 0) / 60_000)
  const lostMost = parts.map((ms, index) => ({ index, lost: ms % 60_000 }))
  lostMost.sort((a, b) => b.lost - a.lost || a.index - b.index)
  const missing = total - minutes.reduce((sum, count) => sum + count, 0)
  for (const { index } of lostMost.slice(0, missing)) minutes[index]! += 1
  return minutes
}
