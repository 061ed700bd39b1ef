import { someText } from '../../wording/list-text.ts'
import { carriedWays } from '../carried-ways.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export function routeMissing(reading: SetupReading): Found[] {
  const assumed = reading.rates.routeUnknownMetres
  return carriedWays(reading)
    .filter(({ routeIndex }) => routeIndex === null)
    .map(({ store, room, furnishings }) => ({
      code: 'route-missing',
      about: aboutRow('storagePlace', store),
      message: `the ${store.name} has no route to ${room.name}, which uses its ${someText(furnishings.map(({ namePlural }) => namePlural))}: ${assumed} m are assumed`,
      fix: `measure the way walked to the middle of ${room.name} and add it`,
      field: '/routes',
    }))
}
