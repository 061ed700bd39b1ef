import type { Room } from '../../../domain/room.ts'
import { layoutAdviceInput, layoutLoads, peopleToServe } from '../../standards/advice/index.ts'
import { exitsNeeded } from '../../standards/occupancy/exits.ts'
import { codeTables } from '../../standards/occupancy/tables-of-locale.ts'
import { counted } from '../../wording/counted.ts'
import { aboutClosure, bookedThenText, exitsShort } from '../exits-open.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { whenText } from '../when-text.ts'

/**
 * By the posted limit, which an authority has set; without one by the layout that may hold most people. Also each time
 * that closures leave too few of enough exits open; that they leave none is said elsewhere.
 */
export function exitsTooFew(reading: SetupReading): Found[] {
  const { setup, exitsOf } = reading
  const tables = codeTables(setup.site.codeTables)
  return setup.rooms.flatMap((room): Found[] => {
    const exits = exitsOf(room).length
    const people = room.occupantLimitPosted ?? mostPeopleByLayout(reading, room)
    const needed = exitsNeeded(tables, people)
    if (exits === 0) return []
    const load = room.occupantLimitPosted === null ? `an occupant load of ${people}` : `a limit of ${people}`
    const asked = `for ${load}, and ${needed} are asked for (${tables.document})`
    if (exits >= needed) return whileClosed(reading, room, needed, asked)
    return [
      {
        code: 'exits-too-few',
        about: aboutRow('room', room),
        message: `${room.name} has ${counted(exits, 'exit')} ${asked}`,
        fix: 'enter the exits that are missing; if there are none, ask the fire authority before the next booking',
        field: null,
      },
    ]
  })
}

function whileClosed(reading: SetupReading, room: Room, needed: number, asked: string): Found[] {
  const exits = reading.exitsOf(room).length
  return exitsShort(reading, room, needed, 1).map((short): Found => {
    const { shortage, closure } = short
    return {
      code: 'exits-too-few',
      ...aboutClosure(closure),
      message: `${room.name} has ${shortage.least} of ${exits} exits open ${whenText(shortage, reading)} ${asked}${bookedThenText(short, reading)}`,
      fix: `leave ${needed} exits open or close ${room.name} for that time, or ask the fire authority how many people may be in then`,
    }
  })
}

/** As the advice judges the exits of its layouts: by what the floor gives and by what stands on it. */
function mostPeopleByLayout({ setup, layoutsOf }: SetupReading, room: Room): number {
  const people = layoutsOf(room.id).map((layout) => {
    const input = layoutAdviceInput(layout, room, setup, null)
    return peopleToServe(input, layoutLoads(input)).people
  })
  return Math.max(0, ...people)
}
