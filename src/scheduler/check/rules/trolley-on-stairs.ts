import { goesByTrolley } from '../../network/travel.ts'
import { someText } from '../../wording/list-text.ts'
import { carriedWays } from '../carried-ways.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export function trolleyOnStairs(reading: SetupReading): Found[] {
  return carriedWays(reading).flatMap(({ store, room, furnishings, routeIndex, passages }): Found[] => {
    const stairs = passages.find(({ kind }) => kind === 'stairs')
    const byTrolley = furnishings.filter(goesByTrolley)
    if (!stairs || byTrolley.length === 0) return []
    const pieces = someText(byTrolley.map(({ namePlural }) => namePlural))
    return [
      {
        code: 'trolley-on-stairs',
        about: aboutRow('storagePlace', store),
        message: `the way from the ${store.name} to ${room.name} goes by stairs (${stairs.name}), where no trolley of ${pieces} can go`,
        fix: 'give the route by ramp or lift if there is one, or keep these pieces on that floor',
        field: `/routes/${routeIndex}/passageIds`,
      },
    ]
  })
}
