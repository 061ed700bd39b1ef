/** In which ways floors are cleaned after which use, as turns reckon with it. */
import type { CleaningMethod } from '../../domain/cleaning-method.ts'
import { LayoutKind } from '../../domain/layout-kind.ts'
import type { Room } from '../../domain/room.ts'
import type { Tool } from '../../domain/tool.ts'
import { cleaningJobs } from '../network/cleaning-methods.ts'
import type { OutgoingUse } from '../network/network-input.ts'
import type { SetupReading } from './setup-reading.ts'

/** Each way once, in the order of the work; none where nothing is cleaned. */
export function methodsAfter(
  { setup, rates, floorKindsOf }: SetupReading,
  room: Room,
  outgoing: OutgoingUse,
): CleaningMethod[] {
  const jobs = cleaningJobs({ outgoing, policy: setup.policy, floorKinds: floorKindsOf(room), rates })
  return [...new Set(jobs.map(({ method }) => method))]
}

/** Each way that the policy leads to after a use there are layouts for, with the first such use. */
export function methodsUsed(reading: SetupReading): ReadonlyMap<CleaningMethod, LayoutKind> {
  const used = new Map<CleaningMethod, LayoutKind>()
  for (const kind of LayoutKind.options) {
    for (const room of reading.setup.rooms) {
      if (!reading.layoutsOf(room.id).some((layout) => layout.kind === kind)) continue
      const outgoing = { kind, foodServed: false, floorWet: false, headcount: 0 }
      for (const method of methodsAfter(reading, room, outgoing)) {
        if (!used.has(method)) used.set(method, kind)
      }
    }
  }
  return used
}

export const toolsFor = ({ setup }: SetupReading, method: CleaningMethod): Tool[] =>
  setup.tools.filter(({ cleaningMethods }) => cleaningMethods.includes(method))

/** `dust mop` */
export const methodText = (method: CleaningMethod): string => method.replaceAll('-', ' ')
