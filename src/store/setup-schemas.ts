/** Each kind of set-up row with its schema, in the order in which rows can be added: what is referred to comes first. */
import type { z } from 'zod'
import { Closure } from '../domain/closure.ts'
import { Equipment } from '../domain/equipment.ts'
import { Furnishing } from '../domain/furnishing.ts'
import { Layout } from '../domain/layout.ts'
import { Person } from '../domain/person.ts'
import { Policy } from '../domain/policy.ts'
import { Room } from '../domain/room.ts'
import { Section } from '../domain/section.ts'
import { Shift } from '../domain/shift.ts'
import { StoragePlace } from '../domain/storage-place.ts'
import type { SetupKind, SetupRows } from './store.ts'

export const setupSchemas: { readonly [Kind in SetupKind]: z.ZodType<SetupRows[Kind]> } = {
  section: Section,
  room: Room,
  layout: Layout,
  storagePlace: StoragePlace,
  furnishing: Furnishing,
  equipment: Equipment,
  person: Person,
  shift: Shift,
  closure: Closure,
  policy: Policy,
}

export const setupKindsInOrder: readonly SetupKind[] = [
  'section',
  'room',
  'layout',
  'storagePlace',
  'furnishing',
  'equipment',
  'person',
  'shift',
  'closure',
  'policy',
]
