/** What is done with pieces: taken down, put aside, put away, brought, set up. */
import type { FurnishingKind } from '../../../domain/furnishing.ts'
import type { Task } from '../../../domain/task.ts'
import type { NetworkInput } from '../network-input.ts'
import type { PieceJob } from '../piece-jobs.ts'
import { distanceText, peopleText, piecesText, taskText } from './words.ts'

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

/** @param zone  as it is called on the list */
export function pieceText(
  input: NetworkInput,
  job: PieceJob,
  count: number,
  zone: string,
  modes: Task['modes'],
): string {
  const { furnishing } = job
  const pieces = piecesText(furnishing, count)
  const it = count === 1 ? 'it' : 'them'
  const people = peopleText(modes, furnishing.handsPerPiece)
  if (job.direction === 'strike') {
    const where = job.withStore
      ? `and take ${it} to the ${storeText(input, job)}${tripText(job)}`
      : `and put ${it} aside, clear of every exit (${job.place}); ${count === 1 ? 'it is' : 'they are'} needed again`
    return taskText([`${STRIKE_VERB[furnishing.kind]} ${pieces} in ${zone} ${where}.`, people])
  }
  const phrase = SET_PHRASE[furnishing.kind](it, zone)
  return taskText([
    job.withStore
      ? `Bring ${pieces} from the ${storeText(input, job)}${tripText(job)}, and ${phrase}.`
      : `Fetch ${pieces} that ${count === 1 ? 'was' : 'were'} put aside (${job.place}) and ${phrase}.`,
    people,
  ])
}

function storeText({ units }: NetworkInput, { way }: PieceJob): string {
  const distance = way.distanceIsKnown ? ` (${distanceText(way.distanceMetres, units)})` : ''
  return `${way.store.name}${distance}`
}

/** `, 9 to a trolley`, `, 10 at a time`; nothing for pieces that go one by one. A full trolley may serve several lots. */
function tripText({ way, count }: PieceJob): string {
  if (way.byTrolley)
    return count <= way.piecesPerLoad ? ' with a trolley' : `, ${way.piecesPerLoad} to a trolley`
  const atATime = Math.min(count, way.piecesPerLoad)
  return atATime === 1 ? '' : `, ${atATime} at a time`
}
