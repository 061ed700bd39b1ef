/**
 * The demo site, as plain data; `../load-demo.ts` parses it like anything that comes from outside. Everything is
 * invented: the place, the people, the times. Ids are written out, so that the examples in the README can name them.
 */
export { bookings } from './bookings.ts'
export { closures, people, personDetails, shifts } from './crew.ts'
export { equipment } from './equipment.ts'
export { furnishings, storagePlaces, tools } from './furnishings.ts'
export { layouts } from './layouts.ts'
export { exits, passages, rooms, sections } from './rooms.ts'

export const site = {
  id: 'site_harrow-lane',
  name: 'Harrow Lane Commons',
  zone: 'America/Chicago',
  units: 'metric',
  codeTables: 'us',
}
