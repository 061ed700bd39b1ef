/** What concerns the whole room: briefing, walkthrough, bins, what is in the way in a store, sign-off. */
import type { Furnishing } from '../../../domain/furnishing.ts'
import type { Task } from '../../../domain/task.ts'
import { listText } from '../../wording/list-text.ts'
import { piecesText } from '../../wording/pieces-text.ts'
import type { NetworkInput } from '../network-input.ts'
import type { InFront } from '../pieces-in-front.ts'
import type { Zone } from '../zones.ts'
import { peopleText, taskText } from './words.ts'

export const briefingText = ({ room, toLayout }: NetworkInput): string =>
  taskText([
    `Brief everybody in ${room.name}: what stands now, the layout ${toLayout.name} that is wanted, who works with whom, where things go.`,
    'The lead talks, everybody listens; nobody starts before.',
  ])

/** @param zones  those the turn works in; not empty */
export function walkthroughText(
  { room }: NetworkInput,
  zones: readonly Zone[],
  staysAsItIs: boolean,
  modes: Task['modes'],
): string {
  const isNamed = zones[0]!.name !== null
  return taskText([
    `Walk through ${room.name}: everybody out, lost property aside, count what stands, look for damage and wet floor.`,
    ...(zones.length > 1 && !staysAsItIs
      ? [
          isNamed
            ? `Agree on the ${zones.length} zones and where each of them ends.`
            : `Agree on the ${zones.length} zones, equal strips across the room, and which end is zone 1.`,
        ]
      : []),
    peopleText(modes),
  ])
}

export const binsText = ({ room }: NetworkInput, bins: number, modes: Task['modes']): string =>
  taskText([
    bins === 1
      ? `Empty 1 bin from ${room.name} at the waste point and put in a new bag.`
      : `Empty ${bins} bins from ${room.name} at the waste point and put in new bags.`,
    'Tie the bags, carry them one in each hand; never press waste down by hand.',
    peopleText(modes),
  ])

export function restackText(
  { store, furnishing, justStruck, fetched, putAway }: InFront,
  count: number,
  modes: Task['modes'],
): string {
  const it = count === 1 ? 'it' : 'them'
  const named = (all: readonly Furnishing[]) => `the ${listText(all.map((one) => one.namePlural))}`
  const reasons = [
    ...(fetched.length > 0 ? [`${named(fetched)} stand behind ${it}`] : []),
    ...(putAway.length > 0 ? [`${named(putAway)} go behind ${it}`] : []),
  ]
  return taskText([
    `In the ${store.name}, move ${piecesText(count, furnishing)}${justStruck ? ', just put away,' : ''} out of the way: ${listText(reasons)}.`,
    peopleText(modes, furnishing.handsPerPiece),
  ])
}

export function putBackText(
  { store, furnishing, fetched, putAway }: InFront,
  count: number,
  modes: Task['modes'],
): string {
  const named = (all: readonly Furnishing[]) => `the ${listText(all.map((one) => one.namePlural))}`
  const done = [
    ...(fetched.length > 0 ? [`${named(fetched)} are out`] : []),
    ...(putAway.length > 0 ? [`${named(putAway)} are in`] : []),
  ]
  return taskText([
    `Put ${piecesText(count, furnishing)} back in ${count === 1 ? 'its place' : 'their place'} in the ${store.name}, now that ${listText(done)}.`,
    peopleText(modes, furnishing.handsPerPiece),
  ])
}

export function signOffText({ room, toLayout, equipmentFrom }: NetworkInput, modes: Task['modes']): string {
  const checks = [
    'exits and aisles clear',
    ...(toLayout.seats ? [`${toLayout.seats} seats counted`] : []),
    ...(equipmentFrom.length > 0 ? ['each device in the state it must be in'] : []),
  ]
  return taskText([
    `Check ${room.name} against the layout ${toLayout.name}: ${checks.join(', ')}.`,
    'Then say that the room is ready.',
    peopleText(modes),
  ])
}
