import type { StockChange } from '../../../domain/stock-change.ts'
import { awayByDevice, awayWord } from '../device-away.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { whenText } from '../when-text.ts'

/** Each change that begins while another one of the same device lasts. */
export function deviceOutTwice(reading: SetupReading): Found[] {
  const byDevice = awayByDevice(reading)
  return reading.setup.equipment.flatMap((device): Found[] => {
    let longest: StockChange | null = null
    return (byDevice.get(device.id) ?? []).flatMap((change): Found[] => {
      const known = longest
      if (!known || ends(change) > ends(known)) longest = change
      if (!known || change.fromAt >= ends(known)) return []
      const toAt = ends(change) < ends(known) ? change.toAt : known.toAt
      const how =
        known.why === change.why ? awayWord(change.why) : `${awayWord(known.why)} and ${awayWord(change.why)}`
      return [
        {
          code: 'device-out-twice',
          about: aboutRow('stockChange', { id: change.id, name: device.name }),
          message: `the ${device.name} is ${how} twice at the same time, ${whenText({ fromAt: change.fromAt, toAt }, reading)}`,
          fix: 'take one of the two entries out of use, or correct their times',
          field: '/fromAt',
        },
      ]
    })
  })
}

const ends = ({ toAt }: StockChange): number => toAt ?? Number.POSITIVE_INFINITY
