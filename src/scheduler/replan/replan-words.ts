/** What a plan made anew comes to, in sentences. */
import { type Instant, secondsBetween } from '../../domain/instant.ts'
import type { Task } from '../../domain/task.ts'
import { dayAndTimeOf, localDateOf, localTimeOf } from '../timeline/wall-time.ts'
import { counted } from '../wording/counted.ts'
import { minutesDown, shownBeside, shownReadyAt, spanText } from '../wording/shown-minutes.ts'

/** With the day where that is not the same one. */
export function readySentence(readyAt: Instant, dueAt: Instant, zone: string): string {
  const shown = shownBeside(readyAt, dueAt)
  const isSameDay = localDateOf(shown.readyAt, zone) === localDateOf(dueAt, zone)
  const timeOf = isSameDay ? localTimeOf : dayAndTimeOf
  const at = isSameDay ? `Ready at ${timeOf(shown.readyAt, zone)}` : `Ready ${timeOf(shown.readyAt, zone)}`
  const by = isSameDay ? `at ${timeOf(dueAt, zone)}` : timeOf(dueAt, zone)
  if (shown.lateMinutes > 0) return `${at}, ${spanText(shown.lateMinutes)} after it must be, ${by}.`
  if (shown.lateMinutes === 0) return `${at}, just when it must be.`
  return `${at}, ${spanText(-shown.lateMinutes)} before it must be, ${by}.`
}

/** @param tasks  one, or all that can be left out */
export function dropSentence(
  tasks: readonly Task[],
  savedSeconds: number,
  readyAt: Instant,
  zone: string,
): string {
  const [first] = tasks
  const what =
    tasks.length === 1 && first
      ? leftOutText(first)
      : `all ${counted(tasks.length, 'task')} that can be left out`
  if (savedSeconds === 0) return `Leave out ${what}: that saves no time now.`
  return `Leave out ${what}: ready ${savedText(savedSeconds)} sooner, at ${localTimeOf(shownReadyAt(readyAt), zone)}.`
}

/** `lining up 40 chairs in Long Room, zone 1`: what is not done, in a few words. */
function leftOutText({ kind, count, toPlace, fromPlace }: Task): string {
  const where = toPlace === null ? '' : ` in ${toPlace}`
  switch (kind) {
    case 'mark-out':
      return `marking out${where}`
    case 'settings':
      return `laying ${counted(count ?? 1, 'place setting')}${where}`
    case 'bins':
      return `emptying ${counted(count ?? 1, 'bin')}${fromPlace === null ? '' : ` in ${fromPlace}`}`
    case 'set':
      return `lining up ${counted(count ?? 1, 'chair')} in rows${where}`
    default:
      return `a task${where}`
  }
}

/** To the minute, which is rounded down; under one to the second. */
const savedText = (seconds: number): string =>
  seconds < 60 ? `${seconds} s` : spanText(minutesDown(seconds))

/** Longer ones are cut where they begin to list. */
const TEXT_CHARACTERS_MOST = 60

/** The first sentence of what a task says, without its full stop: enough to know which one is meant. */
export function taskText({ text }: Pick<Task, 'text'>): string {
  const sentence = (text.split('. ')[0] ?? text).replace(/\.$/, '')
  return sentence.length <= TEXT_CHARACTERS_MOST ? sentence : (sentence.split(/[:;] /)[0] ?? sentence)
}

export const secondsToSpare = (readyAt: Instant | null, dueAt: Instant): number | null =>
  readyAt && secondsBetween(readyAt, dueAt)
