import type { Equipment } from '../../../domain/equipment.ts'
import { someText } from '../amount-text.ts'
import { deviceUses } from '../device-use.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Only what layouts ask for by name, and only where no stand-in is in service now. */
export function deviceOutOfService(reading: SetupReading): Found[] {
  const { setup, devices } = reading
  return setup.equipment.flatMap((device): Found[] => {
    if (!isOut(reading, device)) return []
    const standsIn = device.standInIds.some((id) => {
      const standIn = devices.get(id)
      return standIn && !isOut(reading, standIn)
    })
    const asked = deviceUses(reading, device).filter(({ index }) => index !== null)
    if (standsIn || asked.length === 0) return []
    const layouts = someText(asked.map(({ layout }) => layout.name))
    return [
      {
        code: 'device-out-of-service',
        about: aboutRow('equipment', device),
        message: `the ${device.name} is out of service now, nothing stands in for it, and ${asked.length === 1 ? 'layout' : 'layouts'} ${layouts} ${asked.length === 1 ? 'asks' : 'ask'} for it`,
        fix: 'name a device that stands in, or book layouts that do without it until it is back',
        field: '/standInIds',
      },
    ]
  })
}

const isOut = ({ setup, now }: SetupReading, { id }: Equipment): boolean =>
  setup.stockChanges.some(
    ({ of, why, fromAt, toAt }) =>
      of.kind === 'equipment' &&
      of.equipmentId === id &&
      why !== 'borrowed' &&
      fromAt <= now &&
      (toAt === null || now < toAt),
  )
