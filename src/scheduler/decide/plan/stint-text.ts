/** A stint in a few words, as it would stand on a card: `Set round tables, zones 1 and 2`. */
import type { TaskKind } from '../../../domain/task.ts'
import { listText } from '../../wording/list-text.ts'
import type { Stint } from './stints-of.ts'

/** What is done, and to what; null: to the pieces it is about. */
const words: Readonly<Record<Exclude<TaskKind, 'duty'>, readonly [string, string | null]>> = {
  briefing: ['brief everybody', ''],
  walkthrough: ['walk through', ''],
  bus: ['clear and wipe', 'tables'],
  'linen-off': ['take off', 'linen'],
  restack: ['move out of the way or back', null],
  strike: ['take away', null],
  park: ['put aside', null],
  clean: ['clean', 'the floor'],
  dry: ['let dry', 'the floor'],
  'mark-out': ['mark out', 'where things go'],
  set: ['set', null],
  'linen-on': ['lay', 'linen'],
  settings: ['lay', 'place settings'],
  bins: ['empty', 'bins'],
  switch: ['switch', 'devices'],
  'warm-up': ['warm up', 'devices'],
  'sound-check': ['try out', 'picture and sound'],
  'sign-off': ['sign off', ''],
  event: ['keep quiet', ''],
}

/** @param pieces  the name of what it is about, as several are called; null: it is about nothing of the kind */
export function stintText({ kinds, zones, tasks }: Stint, pieces: string | null): string {
  const [first] = kinds
  // A duty at the event has the words of who asked for it.
  if (first === undefined || first === 'duty') return tasks[0]?.text ?? ''
  const verbs = kinds.map((kind) => (kind === 'duty' ? '' : words[kind][0]))
  const object = words[first][1] ?? pieces ?? 'pieces'
  const done = `${listText(verbs)} ${object}`.trim()
  const where =
    zones.length === 0 ? '' : `, zone${zones.length > 1 ? 's' : ''} ${listText(zones.map(String))}`
  return `${done.slice(0, 1).toUpperCase()}${done.slice(1)}${where}`
}
