import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { sharesSection } from '../shares-section.ts'

/** Silent where a room over the same floor has one, as a half of a hall does, and where there is no layout at all. */
export function roomNoHomeLayout({ setup, layoutsOf }: SetupReading): Found[] {
  return setup.rooms
    .filter(
      (room) =>
        layoutsOf(room.id).length > 0 &&
        setup.rooms.every((other) => other.homeLayoutId === null || !sharesSection(room, other)),
    )
    .map((room) => ({
      code: 'room-no-home-layout',
      about: aboutRow('room', room),
      message: `${room.name} has no home layout, so a bare floor is taken to stand there at first`,
      fix: 'say what stands when nothing else was set up, if anything does',
      field: '/homeLayoutId',
    }))
}
