/** Which rows a row names: every id in it but its own. */
import type { z } from 'zod'
import {
  EquipmentId,
  ExitId,
  FurnishingId,
  LayoutId,
  PassageId,
  PersonId,
  RoomId,
  SectionId,
  StoragePlaceId,
  ToolId,
} from '../../domain/ids.ts'
import type { SetupKind } from '../../domain/setup.ts'
import { isMadeFrom } from './document-form.ts'
import { walkSchema } from './schema-walk.ts'

/** Kinds that other rows name, with how they are called in sentences. */
const referable = [
  { kind: 'section', idSchema: SectionId, noun: 'section' },
  { kind: 'exit', idSchema: ExitId, noun: 'exit' },
  { kind: 'passage', idSchema: PassageId, noun: 'passage' },
  { kind: 'room', idSchema: RoomId, noun: 'room' },
  { kind: 'storagePlace', idSchema: StoragePlaceId, noun: 'storage place' },
  { kind: 'furnishing', idSchema: FurnishingId, noun: 'furnishing' },
  { kind: 'tool', idSchema: ToolId, noun: 'tool' },
  { kind: 'equipment', idSchema: EquipmentId, noun: 'equipment' },
  { kind: 'layout', idSchema: LayoutId, noun: 'layout' },
  { kind: 'person', idSchema: PersonId, noun: 'person' },
] as const satisfies readonly { kind: SetupKind; idSchema: z.ZodType; noun: string }[]

export type Referable = (typeof referable)[number]

// Schemas are few and live as long as the program; values are many.
const referables = new WeakMap<z.core.$ZodType, Referable | null>()

/** What an id of this schema names; null: the schema is not one of ids. */
export function referableBy(schema: z.core.$ZodType): Referable | null {
  const known = referables.get(schema)
  if (known !== undefined) return known
  const found = referable.find(({ idSchema }) => isMadeFrom(schema, idSchema)) ?? null
  referables.set(schema, found)
  return found
}

export interface Reference {
  readonly kind: SetupKind
  readonly noun: string
  readonly id: string
  /** JSON pointer into the row. */
  readonly at: string
}

/** In the order of the row. @param schema  of the row, as the domain or a document has it */
export function referencesOf(schema: z.core.$ZodType, row: unknown): Reference[] {
  const references: Reference[] = []
  walkSchema(schema, row, '', (part, value, at) => {
    if (typeof value !== 'string' || at === '/id') return
    const named = referableBy(part)
    if (named) references.push({ kind: named.kind, noun: named.noun, id: value, at })
  })
  return references
}
