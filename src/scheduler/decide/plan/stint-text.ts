/** A stint in a few words, as it would stand on a card: `Set round tables, zones 1 and 2`. */
import type { TaskKind } from '../../../domain/task.ts'
import { listText } from '../../wording/list-text.ts'
import type { Stint } from './stints-of.ts'

/** What is done, and to what; null: to the pieces it is about. */
const words: Readonly<Record<Exclude<TaskKind, 'duty' | 'restack'>, readonly [string, string | null]>> = {
  briefing: ['brief everybody', ''],
  walkthrough: ['walk through', ''],
  bus: ['clear and wipe', 'tables'],
  'linen-off': ['take off', 'linen'],
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
export function stintText(stint: Stint, pieces: string | null): string {
  const [first] = stint.tasks
  // A duty at the event has the words of who asked for it.
  const done = first?.kind === 'duty' ? first.text : workText(stint, pieces ?? 'pieces')
  const zones = stint.zones.map(String)
  const where = zones.length === 0 ? '' : `, zone${zones.length > 1 ? 's' : ''} ${listText(zones)}`
  const said = stint.goesOn ? `go on: ${done}` : done
  return `${said.slice(0, 1).toUpperCase()}${said.slice(1)}${where}`
}

function workText({ kinds, furnishingId, tasks }: Stint, pieces: string): string {
  // Of what is set only the lining up of rows is about no piece of its own.
  if (kinds[0] === 'set' && furnishingId === null) return 'line up rows'
  if (kinds[0] === 'restack') return restackText(tasks, pieces)
  const said = kinds.flatMap((kind) => (kind === 'duty' || kind === 'restack' ? [] : [words[kind]]))
  const verbs = said.map(([verb]) => verb)
  return `${listText(verbs)} ${said[0]?.[1] ?? pieces}`.trim()
}

/** What stands in front of something in its store goes out of the way, or comes back. */
function restackText(tasks: Stint['tasks'], pieces: string): string {
  // The last part of its key says which way it goes.
  const areBack = tasks.map(({ key }) => /(^|-)back-[^/]*$/.test(key.split('/').at(-1) ?? ''))
  if (!areBack.includes(true)) return `put ${pieces} aside`
  return areBack.includes(false) ? `put ${pieces} aside and fetch them back` : `fetch ${pieces} back`
}
