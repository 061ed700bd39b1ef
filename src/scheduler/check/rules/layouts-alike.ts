import type { Layout } from '../../../domain/layout.ts'
import { homeSetting } from '../../network/equipment-setting.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Same room, kind, seats, pieces, places and devices; a device at home counts like one that is not named. */
export function layoutsAlike(reading: SetupReading): Found[] {
  const known = new Map<string, Layout>()
  const outlines = new Map<string, number>()
  for (const layout of reading.setup.layouts) {
    outlines.set(outlineOf(layout), (outlines.get(outlineOf(layout)) ?? 0) + 1)
  }
  return reading.setup.layouts.flatMap((layout): Found[] => {
    if (outlines.get(outlineOf(layout)) === 1) return []
    const content = contentOf(reading, layout)
    const same = known.get(content)
    if (!same) {
      known.set(content, layout)
      return []
    }
    return [
      {
        code: 'layouts-alike',
        about: aboutRow('layout', layout),
        message: `layout ${layout.name} is no different from layout ${same.name}`,
        fix: 'take one of them out of use, or add what makes the difference',
        field: null,
      },
    ]
  })
}

/** Told apart by this, layouts need not be compared place by place: a plan may hold thousands. */
const outlineOf = ({ roomId, kind, seats, placements }: Layout): string =>
  [roomId, kind, seats, placements.length].join(' ')

function contentOf({ devices }: SetupReading, layout: Layout): string {
  const { roomId, kind, seats, amplified, placements } = layout
  const settings = layout.equipment.filter(({ equipmentId, setting }) => {
    const device = devices.get(equipmentId)
    return !device || JSON.stringify(homeSetting(device)) !== JSON.stringify(setting)
  })
  return JSON.stringify([
    roomId,
    kind,
    seats,
    amplified,
    layout.furnishings.map((piece) => JSON.stringify(piece)).sort(),
    settings.map((setting) => JSON.stringify(setting)).sort(),
    placements.map((placement) => JSON.stringify(placement)).sort(),
  ])
}
