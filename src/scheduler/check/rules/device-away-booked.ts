import { deviceAway, deviceAwayText } from '../device-away.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { bookingsText } from '../when-text.ts'

export function deviceAwayBooked(reading: SetupReading): Found[] {
  return deviceAway(reading).flatMap((away): Found[] => {
    const { device, asked, booked } = away
    const use = asked.find(({ layout }) => layout.id === booked[0]?.layoutId)
    if (!use) return []
    return [
      {
        code: 'device-away-booked',
        about: aboutRow('equipment', device),
        message: `${deviceAwayText(away, reading)}, and layout ${use.layout.name} asks for it for ${bookingsText(booked, reading)}`,
        fix: 'name a device that stands in, have it back by then, or give the booking a layout that does without it',
        field: '/standInIds',
      },
    ]
  })
}
