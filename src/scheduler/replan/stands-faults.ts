/** What is wrong with what is told to stand. */
import type { Instant } from '../../domain/instant.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { StandsNow, TurnProgress } from '../../domain/turn-progress.ts'
import { countsById, type NetworkInput, zonesMost } from '../network/index.ts'
import type { World } from '../timeline/world.ts'
import { counted } from '../wording/counted.ts'
import type { ProgressFault } from './progress-fault.ts'

export function standsFaults(
  { setup, now }: World,
  input: NetworkInput,
  { stands }: TurnProgress,
): ProgressFault[] {
  if (stands === null) return []
  const { room, equipmentFrom } = input
  const seen = new Set<string>()
  const twice = (at: string, id: string): ProgressFault[] => {
    const isTwice = seen.has(id)
    seen.add(id)
    return isTwice ? [{ at, message: `furnishing ${id} is listed twice; list it once` }] : []
  }
  return [
    ...stands.pieces.flatMap((told, index): ProgressFault[] => {
      const at = `/stands/pieces/${index}`
      const { furnishingId: id } = told
      if (!setup.furnishings.some((one) => one.id === id))
        return [{ at: `${at}/furnishingId`, message: `there is no furnishing ${id} in this site` }]
      return [
        ...twice(`${at}/furnishingId`, id),
        ...countFaults(at, told, setup, now),
        ...wantedFaults(at, told, input),
        ...zoneFaults(at, told, zonesMost(input)),
      ]
    }),
    ...stands.equipment.flatMap(({ equipmentId }, index): ProgressFault[] => {
      if (equipmentFrom.some(({ equipment }) => equipment.id === equipmentId)) return []
      const at = `/stands/equipment/${index}/equipmentId`
      return [{ at, message: `${room.name} has no equipment ${equipmentId}` }]
    }),
  ]
}

type PiecesTold = StandsNow['pieces'][number]

function countFaults(
  at: string,
  { furnishingId, count, inPlace }: PiecesTold,
  { furnishings, stockChanges }: SiteSetup,
  now: Instant,
): ProgressFault[] {
  const { countOwned, namePlural } = furnishings.find(({ id }) => id === furnishingId)!
  const borrowed = stockChanges.reduce((sum, { of, why, fromAt, toAt }) => {
    const isOfThese = of.kind === 'furnishing' && of.furnishingId === furnishingId && why === 'borrowed'
    return isOfThese && fromAt <= now && (toAt === null || now < toAt) ? sum + of.count : sum
  }, 0)
  const has = borrowed > 0 ? `owns ${countOwned} and has borrowed ${borrowed}` : `owns ${countOwned}`
  return [
    ...(count > countOwned + borrowed
      ? [
          {
            at: `${at}/count`,
            message: `${count} ${namePlural} cannot stand there: the site ${has}; enter what else is borrowed as a stock change`,
          },
        ]
      : []),
    ...(inPlace !== null && inPlace > count
      ? [{ at: `${at}/inPlace`, message: `${inPlace} of ${count} cannot be in place` }]
      : []),
  ]
}

function wantedFaults(
  at: string,
  { furnishingId, inPlace }: PiecesTold,
  { toLayout }: NetworkInput,
): ProgressFault[] {
  const wanted = countsById(toLayout.furnishings).get(furnishingId) ?? 0
  return inPlace === null || inPlace <= wanted
    ? []
    : [{ at: `${at}/inPlace`, message: `${inPlace} cannot be in place: ${toLayout.name} has ${wanted}` }]
}

function zoneFaults(at: string, { count, inPlace, strayByZone }: PiecesTold, zones: number): ProgressFault[] {
  if (strayByZone === null) return []
  const stray = strayByZone.reduce((sum, one) => sum + one.count, 0)
  const numbers = strayByZone.map(({ zone }) => zone)
  const unknown = strayByZone.flatMap(({ zone }, index): ProgressFault[] =>
    numbers.indexOf(zone) < index
      ? [{ at: `${at}/strayByZone/${index}/zone`, message: `zone ${zone} is listed twice; list it once` }]
      : zone > zones
        ? [{ at: `${at}/strayByZone/${index}/zone`, message: `the floor has ${counted(zones, 'zone')}` }]
        : [],
  )
  if (inPlace === null)
    return [
      ...unknown,
      { at: `${at}/inPlace`, message: 'say how many are in place where you say where the others are' },
    ]
  if (stray === count - inPlace) return unknown
  const message = `${count - inPlace} of ${count} are not in place, and ${stray} are named by zone`
  return [...unknown, { at: `${at}/strayByZone`, message }]
}
