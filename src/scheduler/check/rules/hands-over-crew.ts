import type { Equipment } from '../../../domain/equipment.ts'
import { deviceUses, distinctSettings, stateText, stepsUsed } from '../device-use.ts'
import { aboutRow, type Found } from '../found.ts'
import { mostHandsAtOnce } from '../most-hands-at-once.ts'
import type { SetupReading } from '../setup-reading.ts'

/** What layouts use. Silent while nobody at all is on duty: that is said once. */
export function handsOverCrew(reading: SetupReading): Found[] {
  const most = mostHandsAtOnce(reading.lanes)
  return most === 0 ? [] : [...heavyPieces(reading, most), ...heavySteps(reading, most)]
}

const crew = (most: number): string => `at most ${most} ${most === 1 ? 'is' : 'are'} on duty at once`

const heavyPieces = ({ setup, usesOf }: SetupReading, most: number): Found[] =>
  setup.furnishings
    .filter(({ id, handsPerPiece }) => handsPerPiece > most && usesOf(id).length > 0)
    .map((furnishing) => ({
      code: 'hands-over-crew',
      about: aboutRow('furnishing', furnishing),
      message: `one ${furnishing.name} takes ${furnishing.handsPerPiece} hands, ${crew(most)}`,
      fix: `have ${furnishing.handsPerPiece} on duty together, or correct the hands a piece takes`,
      field: '/handsPerPiece',
    }))

const heavySteps = (reading: SetupReading, most: number): Found[] =>
  reading.setup.equipment.flatMap((device) =>
    worksOn(reading, device)
      .filter(({ hands }) => hands > most)
      .map(
        ({ hands, what, field }): Found => ({
          code: 'hands-over-crew',
          about: aboutRow('equipment', device),
          message: `${hands} hands are needed at the ${device.name} ${what}, ${crew(most)}`,
          fix: `have ${hands} on duty together, or correct the hands it takes`,
          field,
        }),
      ),
  )

interface DeviceWork {
  readonly hands: number
  readonly what: string
  readonly field: string
}

/** What somebody does with a device between the layouts there are. */
function worksOn(reading: SetupReading, device: Equipment): DeviceWork[] {
  const { control, readinessCheck } = device
  const uses = deviceUses(reading, device)
  const works: DeviceWork[] = []
  if (control.kind === 'states') {
    for (const step of stepsUsed(device, uses)) {
      const field = `/control/transitions/${control.transitions.indexOf(step)}/hands`
      works.push({ hands: step.hands, what: `from ${stateText(step.from)} to ${stateText(step.to)}`, field })
    }
  } else if (distinctSettings(uses).length > 1) {
    works.push({ hands: control.hands, what: 'to set a level', field: '/control/hands' })
  }
  if (readinessCheck && uses.some(({ index }) => index !== null)) {
    works.push({
      hands: readinessCheck.hands,
      what: `for the ${readinessCheck.what}`,
      field: '/readinessCheck/hands',
    })
  }
  return works
}
