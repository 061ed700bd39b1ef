import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { toolsAway, toolsAwayText } from '../tools-away.ts'
import { bookingsText } from '../when-text.ts'

export function toolAwayBooked(reading: SetupReading): Found[] {
  return toolsAway(reading)
    .filter(({ booked }) => booked.length > 0)
    .map((away) => ({
      code: 'tool-away-booked',
      about: aboutRow('tool', away.tools[0]),
      message: `${toolsAwayText(away, reading)} before ${bookingsText(away.booked, reading)}`,
      fix: 'have one back by then or borrow one, or clean in another way',
      field: null,
    }))
}
