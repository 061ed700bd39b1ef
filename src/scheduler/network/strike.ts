/** Taking down what is not wanted where it stands: surplus goes to its store, what is wanted again to the side. */
import type { FurnishingKind } from '../../domain/furnishing.ts'
import type { KeysByZone, TurnOutline, ZonedTasks } from './outline.ts'
import { zoneName, zonePlace } from './outline.ts'
import type { PieceJob, PieceWording } from './piece-tasks.ts'
import { pieceTaskCount, pieceTasks } from './piece-tasks.ts'
import { peopleText, piecesText, taskText } from './task-text.ts'
import { tripText } from './trip-text.ts'

/** Cloths off before chairs, chairs out of the way of tables, the stage last. */
const STRIKE_ORDER: readonly (readonly FurnishingKind[])[] = [
  ['table-cloth'],
  ['stacking-chair', 'folding-chair'],
  ['games-table', 'post-pair', 'other'],
  ['round-table', 'long-table'],
  ['stage-deck'],
]

const STRIKE_VERB: Record<FurnishingKind, string> = {
  'stacking-chair': 'Stack',
  'folding-chair': 'Fold',
  'round-table': 'Fold up',
  'long-table': 'Fold up',
  'stage-deck': 'Take down',
  'post-pair': 'Take down',
  'games-table': 'Fold up',
  'table-cloth': 'Take off and fold',
  other: 'Collect',
}

/** Waits for the entries of each zone; see `pieceTasks` for the order within it. */
export const strikeTasks = (outline: TurnOutline, entriesByZone: KeysByZone): ZonedTasks =>
  pieceTasks(outline, strikeJobs(outline), strikeWording(outline), entriesByZone)

export const strikeTaskCount = (outline: TurnOutline): number =>
  pieceTaskCount(outline, strikeJobs(outline), strikeWording(outline))

const strikeJobs = (outline: TurnOutline): PieceJob[] =>
  outline.pieceMoves.flatMap(({ furnishing, store, toStore, moves }) => [
    { furnishing, count: toStore, store },
    { furnishing, count: moves, store: null },
  ])

function strikeWording(outline: TurnOutline): PieceWording {
  const side = `${outline.input.room.name}, at the side`
  return {
    kind: 'strike',
    inRoomName: 'aside',
    order: STRIKE_ORDER,
    rate: (rate, furnishing) => furnishing.strikePersonSeconds ?? rate.strikePersonSeconds,
    text: ({ furnishing, store, count: piecesInAll }, count, zone, modes) => {
      const it = count === 1 ? 'it' : 'them'
      const where = store
        ? `and take ${it} to the ${store.name}${tripText(furnishing, piecesInAll, outline.input.rates)}`
        : `and put ${it} at the side of the room, clear of every exit; ${count === 1 ? 'it is' : 'they are'} needed again`
      return taskText([
        `${STRIKE_VERB[furnishing.kind]} ${piecesText(furnishing, count)} in ${zoneName(outline, zone)} ${where}.`,
        peopleText(modes, furnishing.handsPerPiece),
      ])
    },
    places: ({ store }, zone) => ({
      fromPlace: zonePlace(outline, zone),
      toPlace: store ? store.name : side,
    }),
  }
}
