/** What the starts of a search leave behind, to begin one more start from. */
import { mutateList, mutateModes } from './mutation.ts'
import { writeHandover } from './side.ts'
import { isDone, type Search, tryList } from './trial.ts'

export interface Reunion {
  readonly lists: Int32Array
  readonly modes: Int32Array
  readonly room: number
  remembered: number
}

/** Room for so many lists; the oldest gives way. */
export function preparedReunion(taskCount: number, room: number): Reunion {
  return {
    lists: new Int32Array(room * taskCount),
    modes: new Int32Array(room * taskCount),
    room,
    remembered: 0,
  }
}

/** Keeps the best of the forward side. */
export function remember(own: Search, reunion: Reunion): void {
  const { taskCount } = own.problem
  const at = (reunion.remembered % reunion.room) * taskCount
  reunion.lists.set(own.sides[0].handover.subarray(0, taskCount), at)
  reunion.modes.set(own.sides[0].modes.subarray(0, taskCount), at)
  reunion.remembered++
}

/** Fills the backward side with what was remembered, and with changed copies of it. Forgets it. */
export function reunite(own: Search, reunion: Reunion): void {
  const { work, settings, problem } = own
  const { taskCount } = problem
  const known = Math.min(reunion.remembered, reunion.room)
  for (let place = 0; place < settings.populationSize && !isDone(own); place++) {
    const at = (place % known) * taskCount
    work.list.set(reunion.lists.subarray(at, at + taskCount))
    work.modes.set(reunion.modes.subarray(at, at + taskCount))
    if (place >= known) {
      mutateList(work, problem.backward, settings.movesPerHundredCopies)
      mutateModes(work, settings.changeModePerMille)
    }
    tryList(own, own.sides[1], place, false)
    writeHandover(work, own.sides[1], place)
  }
  reunion.remembered = 0
}
