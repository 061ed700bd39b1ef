import { someText } from '../../wording/list-text.ts'
import { deviceAway, deviceAwayText } from '../device-away.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Where it is booked at that time, that is said in place of this. */
export function deviceOutOfService(reading: SetupReading): Found[] {
  return deviceAway(reading)
    .filter(({ booked }) => booked.length === 0)
    .map((away): Found => {
      const { device, asked } = away
      const layouts = someText(asked.map(({ layout }) => layout.name))
      return {
        code: 'device-out-of-service',
        about: aboutRow('equipment', device),
        message: `${deviceAwayText(away, reading)}, and ${asked.length === 1 ? 'layout' : 'layouts'} ${layouts} ${asked.length === 1 ? 'asks' : 'ask'} for it`,
        fix: 'name a device that stands in, or book layouts that do without it until it is back',
        field: '/standInIds',
      }
    })
}
