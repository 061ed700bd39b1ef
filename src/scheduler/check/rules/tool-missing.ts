import { listText } from '../../wording/list-text.ts'
import { methodsUsed, methodText, toolsFor } from '../floor-cleaning.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { toolsAway, toolsAwayText } from '../tools-away.ts'

/**
 * Ways of cleaning for which no tool is entered, or all are away while nothing that needs them is booked. A site that
 * entered no tool for any of them leaves tools out.
 */
export const toolMissing = (reading: SetupReading): Found[] => [...notEntered(reading), ...allAway(reading)]

function notEntered(reading: SetupReading): Found[] {
  const { policy, tools } = reading.setup
  const entered = [...new Set(tools.flatMap(({ cleaningMethods }) => cleaningMethods))]
  if (entered.length === 0) return []
  return [...methodsUsed(reading)]
    .filter(([method]) => toolsFor(reading, method).length === 0)
    .map(([method, kind]) => ({
      code: 'tool-missing',
      about: aboutRow('policy', { id: policy.id, name: 'policy' }),
      message: `after ${kind} the floor is to be cleaned by ${methodText(method)}, and no tool is entered for that, as there is for ${listText(entered.map(methodText))}`,
      fix: 'enter the tool with how many there are (as it is, nobody ever waits for one), or clean in another way',
      field: `/cleaning/${kind}`,
    }))
}

const allAway = (reading: SetupReading): Found[] =>
  toolsAway(reading)
    .filter(({ booked }) => booked.length === 0)
    .map((away) => ({
      code: 'tool-missing',
      about: aboutRow('tool', away.tools[0]),
      message: toolsAwayText(away, reading),
      fix: 'have one back or borrow one before something is booked, or clean in another way',
      field: null,
    }))
