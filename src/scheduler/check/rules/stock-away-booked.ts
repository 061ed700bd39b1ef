import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { awayText, stockAway } from '../stock-away.ts'
import { bookingsText } from '../when-text.ts'

export function stockAwayBooked(reading: SetupReading): Found[] {
  return stockAway(reading).flatMap((away): Found[] => {
    const { furnishing, shortage, asks, booked } = away
    const [first] = booked
    if (!first) return []
    const use = asks.find(({ layout }) => layout.id === first.layoutId) ?? asks[0]
    return [
      {
        code: 'stock-away-booked',
        about: aboutRow('furnishing', furnishing),
        message: `${awayText(away, reading)}, and layout ${use.layout.name} asks ${use.count} for ${bookingsText(booked, reading)}`,
        fix: `borrow ${use.count - shortage.least}, have some back by then, or give the booking a smaller layout`,
        field: null,
      },
    ]
  })
}
