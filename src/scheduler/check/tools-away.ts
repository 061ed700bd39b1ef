/** Times in which every tool for a way of cleaning is away, and the bookings before which it would be wanted. */
import type { Booking } from '../../domain/booking.ts'
import { CleaningMethod } from '../../domain/cleaning-method.ts'
import type { StockChange } from '../../domain/stock-change.ts'
import type { Tool } from '../../domain/tool.ts'
import { listText } from '../wording/list-text.ts'
import { type ComingTurn, comingTurns } from './coming-turns.ts'
import { methodsAfter, methodsUsed, methodText, toolsFor } from './floor-cleaning.ts'
import { piecesMore } from './put-away.ts'
import type { SetupReading } from './setup-reading.ts'
import { countsFromNow, holdsAt, isOver, meets, type Shortage, shortages } from './shortage.ts'
import { whenText } from './when-text.ts'

export interface ToolsAway {
  /** All that serve, at least one, by id. */
  readonly tools: readonly [Tool, ...Tool[]]
  readonly methods: readonly CleaningMethod[]
  readonly shortage: Shortage
  /** Turned within that time after a use that is cleaned so, by doors. */
  readonly booked: readonly Booking[]
}

/** By tools, then time. */
export function toolsAway(reading: SetupReading): ToolsAway[] {
  const { setup, now } = reading
  const coming = setup.stockChanges.filter((change) => change.of.kind === 'tool' && !isOver(change, now))
  if (coming.length === 0) return []
  const turns = comingTurns(reading)
  return toolGroups(reading, turns).flatMap(({ tools, methods }) => {
    const changesOf = (tool: Tool): StockChange[] =>
      coming.filter(({ of }) => of.kind === 'tool' && of.toolId === tool.id)
    const changes = new Map(tools.map((tool) => [tool, changesOf(tool)]))
    const countAt = (at: SetupReading['now']): number =>
      [...changes].reduce((sum, [{ countOwned }, own]) => {
        const more = own.filter((change) => holdsAt(change, at)).map(piecesMore)
        return (
          sum +
          Math.max(
            0,
            more.reduce((total, count) => total + count, countOwned),
          )
        )
      }, 0)
    return shortages(1, countsFromNow([...changes.values()].flat(), now, countAt)).map((shortage) => ({
      tools,
      methods,
      shortage,
      booked: turns
        .filter(
          (turn) =>
            meets(shortage, turn.span) &&
            methodsBefore(reading, turn).some((method) => methods.includes(method)),
        )
        .map(({ booking }) => booking),
    }))
  })
}

/** Ways of cleaning that the policy, or what is booked, leads to; those that the same tools serve go together. */
function toolGroups(reading: SetupReading, turns: readonly ComingTurn[]) {
  const wanted = new Set([
    ...methodsUsed(reading).keys(),
    ...turns.flatMap((turn) => methodsBefore(reading, turn)),
  ])
  const groups = new Map<string, { tools: [Tool, ...Tool[]]; methods: CleaningMethod[] }>()
  for (const method of CleaningMethod.options.filter((one) => wanted.has(one))) {
    const [first, ...others] = toolsFor(reading, method)
    if (!first) continue
    const key = [first, ...others].map(({ id }) => id).join(' ')
    const known = groups.get(key)
    if (known) known.methods.push(method)
    else groups.set(key, { tools: [first, ...others], methods: [method] })
  }
  return [...groups.values()]
}

function methodsBefore(reading: SetupReading, { room, after }: ComingTurn): CleaningMethod[] {
  if (!after) return []
  const { foodServed, floorWet, headcount } = after.booking
  return methodsAfter(reading, room, { kind: after.layout.kind, foodServed, floorWet, headcount })
}

/** `all dust mops are away until Sat 28 Nov 09:00, and the floor is cleaned by dust mop` */
export function toolsAwayText({ tools, methods, shortage }: ToolsAway, reading: SetupReading): string {
  const all = listText(tools.map(({ namePlural }) => namePlural))
  return `all ${all} are away ${whenText(shortage, reading)}, and the floor is to be cleaned by ${listText(methods.map(methodText))}`
}
