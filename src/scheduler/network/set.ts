/** Putting up what is wanted: what was put aside comes from the side of the room, what is missing from its store. */
import type { FurnishingKind } from '../../domain/furnishing.ts'
import type { KeysByZone, TurnOutline, ZonedTasks } from './outline.ts'
import { zoneName, zonePlace } from './outline.ts'
import type { PieceJob, PieceWording } from './piece-tasks.ts'
import { pieceTaskCount, pieceTasks } from './piece-tasks.ts'
import { peopleText, piecesText, taskText } from './task-text.ts'
import { tripText } from './trip-text.ts'

/** The stage before tables, cloths on tables, chairs last: they would be in the way of everything else. */
const SET_ORDER: readonly (readonly FurnishingKind[])[] = [
  ['stage-deck'],
  ['round-table', 'long-table'],
  ['table-cloth'],
  ['post-pair', 'games-table', 'other'],
  ['stacking-chair', 'folding-chair'],
]

const SET_PHRASE: Record<FurnishingKind, (them: string, place: string) => string> = {
  'stacking-chair': (them, place) => `put ${them} in place in ${place}`,
  'folding-chair': (them, place) => `unfold ${them} in place in ${place}`,
  'round-table': (them, place) => `set ${them} up in ${place}`,
  'long-table': (them, place) => `set ${them} up in ${place}`,
  'stage-deck': (them, place) => `build ${them} up in ${place}`,
  'post-pair': (them, place) => `put ${them} up in ${place}`,
  'games-table': (them, place) => `set ${them} up in ${place}`,
  'table-cloth': (them, place) => `lay ${them} on the tables in ${place}`,
  other: (them, place) => `put ${them} in place in ${place}`,
}

/** Waits for the entries of each zone; see `pieceTasks` for the order within it. */
export const setTasks = (outline: TurnOutline, entriesByZone: KeysByZone): ZonedTasks =>
  pieceTasks(outline, setJobs(outline), setWording(outline), entriesByZone)

export const setTaskCount = (outline: TurnOutline): number =>
  pieceTaskCount(outline, setJobs(outline), setWording(outline))

const setJobs = (outline: TurnOutline): PieceJob[] =>
  outline.pieceMoves.flatMap(({ furnishing, store, fromStore, moves }) => [
    { furnishing, count: fromStore, store },
    { furnishing, count: moves, store: null },
  ])

function setWording(outline: TurnOutline): PieceWording {
  const side = `${outline.input.room.name}, at the side`
  return {
    kind: 'set',
    inRoomName: 'from-side',
    order: SET_ORDER,
    rate: (rate, furnishing) => furnishing.setPersonSeconds ?? rate.setPersonSeconds,
    text: ({ furnishing, store, count: piecesInAll }, count, zone, modes) => {
      const phrase = SET_PHRASE[furnishing.kind](count === 1 ? 'it' : 'them', zoneName(outline, zone))
      const pieces = piecesText(furnishing, count)
      const first = store
        ? `Bring ${pieces} from the ${store.name}${tripText(furnishing, piecesInAll, outline.input.rates)}, and ${phrase}.`
        : `Fetch ${pieces} from the side of the room and ${phrase}.`
      return taskText([first, peopleText(modes, furnishing.handsPerPiece)])
    },
    places: ({ store }, zone) => ({
      fromPlace: store ? store.name : side,
      toPlace: zonePlace(outline, zone),
    }),
  }
}
