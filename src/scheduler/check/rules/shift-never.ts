import { listText } from '../../wording/list-text.ts'
import { weekdayText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { shiftHappens } from '../shift-life.ts'

export function shiftNever({ setup }: SetupReading): Found[] {
  return setup.shifts
    .filter((shift) => !shiftHappens(shift))
    .map((shift) => ({
      code: 'shift-never',
      about: aboutRow('shift', shift),
      message: `shift ${shift.name} never happens: ${why(shift.times)}`,
      fix: 'correct its days, or take it out of use',
      field: '/times',
    }))
}

function why(times: SetupReading['setup']['shifts'][number]['times']): string {
  if (times.kind === 'once') return 'it ends before it starts'
  const days = listText([...new Set(times.weekdays)].sort((a, b) => a - b).map(weekdayText), 'or')
  const until = times.lastDate === null ? '' : ` to ${times.lastDate}`
  return `there is no ${days} from ${times.firstDate}${until} that is not taken out`
}
