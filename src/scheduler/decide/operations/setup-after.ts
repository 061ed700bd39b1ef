/** A snapshot as it would be once rows of the set-up are added, changed or retired. */
import type { SetupWrite } from '../../../domain/setup.ts'
import type { RetiredSetup, SiteSnapshot } from '../../../domain/snapshot.ts'

export const setupAfter = (snapshot: SiteSnapshot, writes: readonly SetupWrite[]): SiteSnapshot =>
  writes.reduce(withWrite, snapshot)

function withWrite(snapshot: SiteSnapshot, write: SetupWrite): SiteSnapshot {
  const retired = (rows: Partial<RetiredSetup>): RetiredSetup => ({ ...snapshot.retired, ...rows })
  switch (write.kind) {
    case 'section':
      return {
        ...snapshot,
        sections: inForce(snapshot.sections, write),
        retired: retired({ sections: outOfUse(snapshot.retired.sections, write) }),
      }
    case 'exit':
      return { ...snapshot, exits: inForce(snapshot.exits, write) }
    case 'passage':
      return { ...snapshot, passages: inForce(snapshot.passages, write) }
    case 'room':
      return {
        ...snapshot,
        rooms: inForce(snapshot.rooms, write),
        retired: retired({ rooms: outOfUse(snapshot.retired.rooms, write) }),
      }
    case 'storagePlace':
      return {
        ...snapshot,
        storagePlaces: inForce(snapshot.storagePlaces, write),
        retired: retired({ storagePlaces: outOfUse(snapshot.retired.storagePlaces, write) }),
      }
    case 'furnishing':
      return {
        ...snapshot,
        furnishings: inForce(snapshot.furnishings, write),
        retired: retired({ furnishings: outOfUse(snapshot.retired.furnishings, write) }),
      }
    case 'tool':
      return { ...snapshot, tools: inForce(snapshot.tools, write) }
    case 'equipment':
      return {
        ...snapshot,
        equipment: inForce(snapshot.equipment, write),
        retired: retired({ equipment: outOfUse(snapshot.retired.equipment, write) }),
      }
    case 'layout':
      return {
        ...snapshot,
        layouts: inForce(snapshot.layouts, write),
        retired: retired({ layouts: outOfUse(snapshot.retired.layouts, write) }),
      }
    case 'person':
      return { ...snapshot, people: inForce(snapshot.people, write) }
    case 'shift':
      return {
        ...snapshot,
        shifts: inForce(snapshot.shifts, write),
        retired: retired({ shifts: outOfUse(snapshot.retired.shifts, write) }),
      }
    case 'closure':
      return {
        ...snapshot,
        closures: inForce(snapshot.closures, write).sort((a, b) => a.fromAt - b.fromAt || byId(a, b)),
      }
    case 'stockChange':
      return { ...snapshot, stockChanges: inForce(snapshot.stockChanges, write) }
    case 'observation':
      return {
        ...snapshot,
        observations: inForce(snapshot.observations, write).sort((a, b) => a.seenAt - b.seenAt || byId(a, b)),
      }
    case 'rateSet':
      return { ...snapshot, rateSet: write.after }
    case 'policy':
      return { ...snapshot, policy: write.after }
    default:
      return write satisfies never
  }
}

interface RowWrite<Row> {
  readonly after: Row
  readonly retire: boolean
}

/** By id, as a snapshot has them. */
const inForce = <Row extends { readonly id: string }>(
  rows: readonly Row[],
  { after, retire }: RowWrite<Row>,
): Row[] => [...rows.filter(({ id }) => id !== after.id), ...(retire ? [] : [after])].sort(byId)

const outOfUse = <Row extends { readonly id: string }>(
  rows: readonly Row[],
  { after, retire }: RowWrite<Row>,
): Row[] => [...rows.filter(({ id }) => id !== after.id), ...(retire ? [after] : [])].sort(byId)

const byId = (a: { readonly id: string }, b: { readonly id: string }): number =>
  a.id < b.id ? -1 : a.id > b.id ? 1 : 0
