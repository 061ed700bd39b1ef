import { deviceUses } from '../device-use.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Lifts, stand-ins and what is there to be protected serve without being named by a layout. */
export function deviceNeverSet(reading: SetupReading): Found[] {
  const { equipment } = reading.setup
  const standIns = new Set(equipment.flatMap(({ standInIds }) => standInIds))
  return equipment
    .filter(
      (device) =>
        device.kind !== 'lift' &&
        device.protections.length === 0 &&
        !standIns.has(device.id) &&
        deviceUses(reading, device).every(({ index }) => index === null),
    )
    .map((device) => ({
      code: 'device-never-set',
      about: aboutRow('equipment', device),
      message: `no layout sets the ${device.name}`,
      fix: 'say in the layouts that need it how it must be, or take it out of use',
      field: null,
    }))
}
