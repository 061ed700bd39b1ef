/** What is done with pieces: taken down, put aside, put away, brought, set up. */
import type { FurnishingKind } from '../../../domain/furnishing.ts'
import type { Task } from '../../../domain/task.ts'
import { counted } from '../../wording/counted.ts'
import { listText } from '../../wording/list-text.ts'
import { piecesText } from '../../wording/pieces-text.ts'
import type { LoadLot } from '../lots.ts'
import type { NetworkInput } from '../network-input.ts'
import { type TurnOutline, zoneName } from '../outline.ts'
import type { PieceJob } from '../piece-jobs.ts'
import type { StoreWay } from '../travel.ts'
import { distanceText, peopleText, taskText } from './words.ts'

const STRIKE_VERB: Readonly<Record<FurnishingKind, string>> = {
  'stacking-chair': 'Stack',
  'folding-chair': 'Fold',
  'round-table': 'Fold up',
  'long-table': 'Fold up',
  'stage-deck': 'Take down',
  'post-pair': 'Take down',
  'games-table': 'Fold up',
  'table-cloth': 'Take off and fold',
  'place-setting': 'Clear and sort',
  'stage-rail': 'Take off',
  'dance-floor-panel': 'Take up',
  other: 'Collect',
}

const SET_PHRASE: Readonly<Record<FurnishingKind, (them: string, place: string) => string>> = {
  'stacking-chair': (them, place) => `put ${them} in place in ${place}`,
  'folding-chair': (them, place) => `unfold ${them} in place in ${place}`,
  'round-table': (them, place) => `set ${them} up in ${place}`,
  'long-table': (them, place) => `set ${them} up in ${place}`,
  'stage-deck': (them, place) => `build ${them} up in ${place}`,
  'post-pair': (them, place) => `put ${them} up in ${place}`,
  'games-table': (them, place) => `set ${them} up in ${place}`,
  'table-cloth': (them, place) => `lay ${them} on the tables in ${place}`,
  'place-setting': (them, place) => `lay ${them} on the tables in ${place}`,
  'stage-rail': (them, place) => `fix ${them} to the stage in ${place}`,
  'dance-floor-panel': (them, place) => `lay ${them} and lock ${them} together in ${place}`,
  other: (them, place) => `put ${them} in place in ${place}`,
}

/** Dirty pieces by where they are washed; the way there is taken to be as far as to the store. */
const washedPhrase = (it: string, place: string): string => `take ${it} to ${place} to be washed`

/** @param zone  as it is called on the list; null: wherever in the room they stand */
export function pieceText(
  outline: Pick<TurnOutline, 'input' | 'zones'>,
  job: PieceJob,
  lot: LoadLot,
  zone: string | null,
  modes: Task['modes'],
): string {
  const { input } = outline
  const { furnishing, soiled } = job
  const count = lot.pieces
  const pieces = piecesText(count, furnishing)
  const it = count === 1 ? 'it' : 'them'
  const people = peopleText(modes, furnishing.handsPerPiece)
  if (job.direction === 'strike') {
    const store = storeText(input, job)
    const away = soiled
      ? `${washedPhrase(it, job.place)}, not to the clean ones in the ${job.way.store.name}`
      : null
    const where = job.withStore
      ? `and ${away ?? `take ${it} to the ${store}`}${tripText(job.way, lot)}`
      : `and put ${it} aside, clear of every exit (${job.place}); ${count === 1 ? 'it is' : 'they are'} needed again${againText(outline, job, zone)}`
    return taskText([
      `${STRIKE_VERB[furnishing.kind]} ${pieces} in ${zone ?? input.room.name} ${where}.`,
      people,
    ])
  }
  const place = zone ?? `${input.room.name}, by the plan of ${input.toLayout.name}`
  const phrase = SET_PHRASE[furnishing.kind](it, place)
  const brought = soiled
    ? counted(count, `clean ${furnishing.name}`, `clean ${furnishing.namePlural}`)
    : pieces
  if (job.straight) {
    const where = `by the plan of ${input.toLayout.name}`
    const said = `Move ${pieces} in ${zone ?? input.room.name} straight to where ${count === 1 ? 'it is' : 'they are'} wanted, a few steps away or only turned, ${where}.`
    return taskText([said, people])
  }
  return taskText([
    job.withStore
      ? `Bring ${brought} from the ${storeText(input, job)}${tripText(job.way, lot)}, and ${phrase}.`
      : `Fetch ${pieces}${originText(outline, job, lot)} that ${count === 1 ? 'was' : 'were'} put aside (${job.place}) and ${phrase}.`,
    people,
  ])
}

/** ` in zone 2 and zone 3`, where it is known and is not only where they stand. */
function againText(
  outline: Pick<TurnOutline, 'input' | 'zones'>,
  { neededIn }: PieceJob,
  zone: string | null,
): string {
  const names = neededIn.map((index) => zoneName(outline, outline.zones[index]!))
  return names.every((name) => name === zone) ? '' : ` in ${listText(names)}`
}

/** ` from zone 1 (about 12 m, 2 at a time)`, where they come from elsewhere or are carried farther than a few steps. */
function originText(
  outline: Pick<TurnOutline, 'input' | 'zones'>,
  { onFloor, load }: PieceJob,
  lot: LoadLot,
): string {
  if (!onFloor) return ''
  const { fromZone, toZone, metres } = onFloor.carry
  if (fromZone === toZone && load === null) return ''
  const from = fromZone === toZone ? '' : ` from ${zoneName(outline, outline.zones[fromZone]!)}`
  const distance = distanceText(metres, outline.input.units)
  return `${from} (about ${distance}${load ? tripText(onFloor, lot) : ''})`
}

function storeText({ units }: NetworkInput, { way }: PieceJob): string {
  const distance = way.distanceIsKnown ? ` (${distanceText(way.distanceMetres, units)})` : ''
  return `${way.store.name}${distance}`
}

/** `, 5 to a trolley`, `, on one trolley with 3 more`, `, 10 at a time`; nothing for pieces that go one by one. */
function tripText(way: Pick<StoreWay, 'byTrolley'>, { pieces, loads, piecesOnALoad }: LoadLot): string {
  if (way.byTrolley) {
    const others = piecesOnALoad - pieces
    if (loads < 1 && others > 0) return `, on one trolley with ${others} more`
    return loads <= 1 ? ' with a trolley' : `, ${piecesOnALoad} to a trolley`
  }
  const atATime = Math.min(pieces, piecesOnALoad)
  return atATime === 1 ? '' : `, ${atATime} at a time`
}
