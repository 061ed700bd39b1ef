/**
 * What can be wrong with a row of the set-up beyond its shape, by kind: with the site as it is, or as a document to be
 * imported would make it. Pointers are relative to the row.
 */
import type { Instant } from '../../domain/instant.ts'
import type { SetupKind, SetupRows } from '../../domain/setup.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { closureFaults } from '../closures/closure-faults.ts'
import { equipmentFaults } from '../equipment/equipment-faults.ts'
import { exitFaults } from '../exits/exit-faults.ts'
import { furnishingFaults } from '../furnishings/furnishing-faults.ts'
import { layoutFaults } from '../layouts/layout-faults.ts'
import { observationFaults } from '../observations/observation-faults.ts'
import { passageFaults } from '../passages/passage-faults.ts'
import { personFaults } from '../people/person-faults.ts'
import { policyFaults } from '../policies/policy-faults.ts'
import type { Fault } from '../problems.ts'
import { rateSetFaults } from '../rate-sets/rate-set-faults.ts'
import { roomFaults } from '../rooms/room-faults.ts'
import { shiftFaults } from '../shifts/shift-faults.ts'
import { stockChangeFaults } from '../stock-changes/stock-change-faults.ts'
import { storagePlaceFaults } from '../storage-places/storage-place-faults.ts'
import { toolFaults } from '../tools/tool-faults.ts'

/**
 * @param setup  rows in force; whether the row itself is among them, at this version or another, makes no difference
 * @returns in order of the fields; empty: it can be taken
 */
export type FaultsOf<Row> = (row: Row, setup: SiteSetup, now: Instant) => Fault[]

export const setupFaults: { readonly [Kind in SetupKind]: FaultsOf<SetupRows[Kind]> } = {
  // A name, a number and a choice: nothing to contradict.
  section: () => [],
  exit: exitFaults,
  passage: passageFaults,
  room: roomFaults,
  storagePlace: storagePlaceFaults,
  furnishing: furnishingFaults,
  tool: toolFaults,
  equipment: equipmentFaults,
  layout: layoutFaults,
  person: personFaults,
  shift: shiftFaults,
  closure: closureFaults,
  stockChange: stockChangeFaults,
  observation: observationFaults,
  rateSet: rateSetFaults,
  policy: policyFaults,
}
