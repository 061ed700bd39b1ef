import type { Equipment, EquipmentKind } from '../../../domain/equipment.ts'
import { spanText } from '../amount-text.ts'
import { stateText } from '../device-use.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Common practice, no source: nothing that is switched or moved takes longer. */
const USUAL_MOST_SECONDS = 3_600
/** Common practice, no source: a cold hall may take half a day to get warm. */
const AIR_MOST_SECONDS = 12 * 3_600
const airKinds: ReadonlySet<EquipmentKind> = new Set(['heating-or-cooling', 'ventilation'])

/** The slowest transition of each device, and its warm-up. */
export function deviceSlow({ setup }: SetupReading): Found[] {
  return setup.equipment.flatMap((device): Found[] => {
    const most = airKinds.has(device.kind) ? AIR_MOST_SECONDS : USUAL_MOST_SECONDS
    return slowestOf(device)
      .filter(({ seconds }) => seconds > most)
      .map(({ seconds, what, field }) => ({
        code: 'device-slow',
        about: aboutRow('equipment', device),
        message: `the ${device.name} takes ${spanText(seconds)} ${what}`,
        fix: 'correct the time: it is in seconds',
        field,
      }))
  })
}

function slowestOf({ control, warmUpSeconds }: Equipment) {
  const warmUp = { seconds: warmUpSeconds, what: 'to warm up', field: '/warmUpSeconds' }
  if (control.kind === 'level') {
    return [{ seconds: control.setSeconds, what: 'to be set', field: '/control/setSeconds' }, warmUp]
  }
  const transitions = control.transitions.map(({ from, to, seconds }, index) => ({
    seconds,
    what: `to get from ${stateText(from)} to ${stateText(to)}`,
    field: `/control/transitions/${index}/seconds`,
  }))
  return [...transitions.sort((a, b) => b.seconds - a.seconds).slice(0, 1), warmUp]
}
