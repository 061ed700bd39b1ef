/** What can be left out, and what that would save at this moment. */
import { type Instant, secondsBetween } from '../../domain/instant.ts'
import type { Task, TaskKey, TaskNetwork } from '../../domain/task.ts'
import { withoutTasks } from '../network/without-tasks.ts'
import { dropSentence } from './replan-words.ts'

export interface Drop {
  /** In order of key. */
  readonly taskKeys: readonly TaskKey[]
  /** Of the time until the room is ready, 0 or more. */
  readonly savedSeconds: number
  /** When it is ready without them. */
  readonly readyAt: Instant
  readonly sentence: string
}

export interface DropList {
  /** One for each task that can be left out and has not begun: most saved first, then by start, then by key. */
  readonly items: readonly Drop[]
  /** All of them together; null: there are not two of them. */
  readonly all: Drop | null
  /** So many more are not gone through one by one; they are part of all together. */
  readonly notListed: number
}

/** More are no use to anybody, and each takes a plan. */
const ITEMS_MOST = 24

export interface DropQuestion {
  readonly network: TaskNetwork
  readonly readyAt: Instant
  /** By task, of the plan as it is now. */
  readonly startsAt: ReadonlyMap<TaskKey, Instant>
  readonly isRunning: (key: TaskKey) => boolean
  /** When the room is ready with only these tasks. */
  readonly readyWith: (network: TaskNetwork) => Instant
  readonly zone: string
}

export function dropList(question: DropQuestion): DropList {
  const { network, isRunning, startsAt } = question
  const startOf = (key: TaskKey) => startsAt.get(key) ?? question.readyAt
  const optional = network.tasks
    .filter(({ key, optional }) => optional === true && !isRunning(key))
    .sort((a, b) => startOf(a.key) - startOf(b.key) || (a.key < b.key ? -1 : 1))
  const items = optional
    .slice(0, ITEMS_MOST)
    .map((task) => ({ task, drop: dropOf(question, [task]) }))
    .sort((a, b) => b.drop.savedSeconds - a.drop.savedSeconds)
    .map(({ drop }) => drop)
  const most = items.map(({ savedSeconds }) => savedSeconds)
  const all = optional.length < 2 ? null : dropOf(question, optional, Math.max(...most))
  return { items, all, notListed: Math.max(0, optional.length - ITEMS_MOST) }
}

/** @param atLeast  seconds that leaving out a part of them saves: all of them save no less */
function dropOf(
  { network, readyAt, readyWith, zone }: DropQuestion,
  tasks: readonly Task[],
  atLeast = 0,
): Drop {
  const taskKeys = tasks.map(({ key }) => key).sort()
  const found = readyWith(withoutTasks(network, new Set(taskKeys)))
  const savedSeconds = Math.max(atLeast, secondsBetween(found, readyAt))
  const without = (readyAt - savedSeconds * 1000) as Instant
  return {
    taskKeys,
    savedSeconds,
    readyAt: without,
    sentence: dropSentence(tasks, savedSeconds, without, zone),
  }
}
