import { equipmentPath } from '../../network/equipment-path.ts'
import { spanText } from '../amount-text.ts'
import { deviceUses, statesUsed, stateText } from '../device-use.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

const OFF = 'off'

/**
 * A way from one lit state to another that goes through `off`: the lamp is hot there, and the step out of it may not
 * be shorter than the restrike. From cold, `off` to lit is quick, which is no fault.
 */
export function restrikeTooShort(reading: SetupReading): Found[] {
  return reading.setup.equipment.flatMap((device) => {
    const { control, restrikeSeconds } = device
    if (control.kind !== 'states' || restrikeSeconds === 0) return []
    const lit = statesUsed(device, deviceUses(reading, device)).filter((state) => state !== OFF)
    const steps = new Set(
      lit.flatMap((from) =>
        lit.flatMap((to) => (from === to ? [] : (equipmentPath(control, from, to) ?? []))),
      ),
    )
    return control.transitions.flatMap((step, index): Found[] => {
      if (!steps.has(step) || step.from !== OFF || step.seconds >= restrikeSeconds) return []
      return [
        {
          code: 'restrike-too-short',
          about: aboutRow('equipment', device),
          message: `the ${device.name} goes through off with a hot lamp: off to ${stateText(step.to)} in ${spanText(step.seconds)}, lamp restrike is ${spanText(restrikeSeconds)}`,
          fix: 'add transitions that leave the lamp on from one state to the other, or give this one the time the lamp needs',
          field: `/control/transitions/${index}/seconds`,
        },
      ]
    })
  })
}
