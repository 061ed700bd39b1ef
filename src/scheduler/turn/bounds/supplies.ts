/**
 * What work shares: lanes with certain skills, resources, and what follows from them. At no tick more of a supply is held
 * than there is.
 */
import type { PreparedInstance } from '../prepared-instance.ts'
import { combinedSupply, roundedSupplies } from './derived-supplies.ts'
import { laneSupplies } from './lane-supplies.ts'
import type { NeededWork } from './needed-work.ts'
import { resourceSupplies } from './resource-supplies.ts'
import type { Supply } from './supply.ts'

/** Beyond, what is derived is left out first. */
const SUPPLIES_MOST = 64

export interface Supplies {
  /** Those that are there, and then those that follow from them. */
  readonly all: readonly Supply[]
  readonly thereCount: number
  /** Of those that are there: what comes and goes. */
  readonly changing: readonly Supply[]
}

export function supplies(problem: PreparedInstance, work: NeededWork): Supplies {
  const lanes = laneSupplies(problem, work)
  const resources = resourceSupplies(problem, work)
  const [hands] = lanes
  const rounded = [...(hands ? [hands] : []), ...resources].flatMap((supply) => roundedSupplies(work, supply))
  const combined = hands ? resources.flatMap((other) => combinedSupply(work, hands, other) ?? []) : []
  const there = [...lanes, ...resources]
  return {
    all: [...there, ...rounded, ...combined].slice(0, SUPPLIES_MOST),
    thereCount: Math.min(there.length, SUPPLIES_MOST),
    changing: there.filter(({ level }) => level < 0),
  }
}
