/** How the hall is set up: what changes seldom. One list of kinds, which store, API, import and check all walk. */
import { z } from 'zod'
import { Closure } from './closure.ts'
import { Equipment } from './equipment.ts'
import { Exit } from './exit.ts'
import { Furnishing } from './furnishing.ts'
import { Layout } from './layout.ts'
import { Observation } from './observation.ts'
import { Passage } from './passage.ts'
import { Person } from './person.ts'
import { Policy } from './policy.ts'
import { RateSet } from './rate-set.ts'
import { Room } from './room.ts'
import { Section } from './section.ts'
import { Shift } from './shift.ts'
import { StockChange } from './stock-change.ts'
import { StoragePlace } from './storage-place.ts'
import { Tool } from './tool.ts'

/** The parts of the set-up by the name of their table, with what each row is. */
export interface SetupRows {
  section: Section
  exit: Exit
  passage: Passage
  room: Room
  storagePlace: StoragePlace
  furnishing: Furnishing
  tool: Tool
  equipment: Equipment
  layout: Layout
  person: Person
  shift: Shift
  closure: Closure
  stockChange: StockChange
  observation: Observation
  rateSet: RateSet
  policy: Policy
}
export type SetupKind = keyof SetupRows

/** In an order in which rows can be added: what is referred to comes first, a room's home layout apart. */
export const setupKinds = [
  'section',
  'exit',
  'passage',
  'room',
  'storagePlace',
  'furnishing',
  'tool',
  'equipment',
  'layout',
  'person',
  'shift',
  'closure',
  'stockChange',
  'observation',
  'rateSet',
  'policy',
] as const satisfies readonly SetupKind[]

export const setupSchemas: { readonly [Kind in SetupKind]: z.ZodType<SetupRows[Kind]> } = {
  section: Section,
  exit: Exit,
  passage: Passage,
  room: Room,
  storagePlace: StoragePlace,
  furnishing: Furnishing,
  tool: Tool,
  equipment: Equipment,
  layout: Layout,
  person: Person,
  shift: Shift,
  closure: Closure,
  stockChange: StockChange,
  observation: Observation,
  rateSet: RateSet,
  policy: Policy,
}

/**
 * One row of the set-up added (`before` null), changed, or taken out of use (`retire`, with `after` as it was). Nothing
 * is deleted. A new policy and a new rate set take the place of the one in force, which is retired by the same write.
 */
export type SetupWrite = {
  [Kind in SetupKind]: {
    readonly kind: Kind
    readonly before: SetupRows[Kind] | null
    readonly after: SetupRows[Kind]
    readonly retire: boolean
  }
}[SetupKind]

/** For what crosses a thread or comes from a file: the rows are checked by their own schemas. */
export const SetupWriteSchema: z.ZodType<SetupWrite> = z.discriminatedUnion('kind', [
  setupWrite('section', Section),
  setupWrite('exit', Exit),
  setupWrite('passage', Passage),
  setupWrite('room', Room),
  setupWrite('storagePlace', StoragePlace),
  setupWrite('furnishing', Furnishing),
  setupWrite('tool', Tool),
  setupWrite('equipment', Equipment),
  setupWrite('layout', Layout),
  setupWrite('person', Person),
  setupWrite('shift', Shift),
  setupWrite('closure', Closure),
  setupWrite('stockChange', StockChange),
  setupWrite('observation', Observation),
  setupWrite('rateSet', RateSet),
  setupWrite('policy', Policy),
])

function setupWrite<Kind extends SetupKind, Row extends z.ZodType>(kind: Kind, row: Row) {
  return z.object({ kind: z.literal(kind), before: row.nullable(), after: row, retire: z.boolean() })
}
