/** What the routes of one part of the set-up need to know of it. */
import { z } from 'zod'
import type { SiteId } from '../../domain/ids.ts'
import { Instant } from '../../domain/instant.ts'
import type { PersonDetails } from '../../domain/person.ts'
import type { SetupKind, SetupRows } from '../../domain/setup.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { ApiContext } from '../context.ts'
import type { InstantReader } from '../instant-text.ts'
import type { Fault } from '../problems.ts'
import { patchOf } from './body-schemas.ts'

/** What the routes that read it need. */
export interface SetupReading<Kind extends SetupKind> {
  /** Last part of the path, in the plural. */
  readonly segment: string
  readonly kind: Kind
  /** How one is called in sentences. */
  readonly noun: string
  /** As it is answered: see `storedSchema`. */
  readonly answerSchema: z.ZodObject
  /** Rows as they are answered; as they are, where left out. */
  readonly present?: (
    context: ApiContext,
    rows: readonly SetupRows[Kind][],
    siteId: SiteId,
  ) => Promise<readonly object[]>
  /** Something to know about all of its routes. */
  readonly description?: string
}

/** What the routes that add, change and retire it need as well. */
export interface SetupResource<Kind extends SetupKind> extends SetupReading<Kind> {
  /** What its ids begin with. */
  readonly prefix: string
  readonly bodies: SetupBodies
  /** false: a new one has no part in any turn yet, so nothing has to be decided. */
  readonly additionTouchesTurns: boolean
  /** From the fields of the body; where left out they are those of the row, as its schema completes them. */
  readonly rowFrom?: (fields: object, id: string, setup: SiteSetup) => SetupRows[Kind]
  /** The one whose place a new one takes, of kinds of which one is in force at a time. */
  readonly inForce?: (setup: SiteSetup) => SetupRows[Kind] | null
  /** What speaks against a change, beyond what is wrong with the row as it shall be. */
  readonly changeFaults?: (change: SetupRowChange<Kind>) => readonly Fault[] | Promise<readonly Fault[]>
  /** What is kept apart from the row, and answered with it. */
  readonly details?: SetupDetails<Kind>
}

export interface SetupRowChange<Kind extends SetupKind> {
  readonly before: SetupRows[Kind]
  readonly after: SetupRows[Kind]
  readonly setup: SiteSetup
  readonly context: ApiContext
}

export interface SetupDetails<Kind extends SetupKind> {
  readonly read: (context: ApiContext, row: SetupRows[Kind]) => Promise<PersonDetails | null>
  /** null: there are none to write. */
  readonly after: (row: SetupRows[Kind], before: PersonDetails | null, fields: object) => PersonDetails | null
}

/** What a new one is made from, and what it is changed with. */
export interface SetupBodies {
  readonly create: z.ZodType
  readonly change: z.ZodType
  /** The fields of the row that the body names, moments read; faults of reading are with the reader. */
  readonly created: (body: unknown, reader: InstantReader) => object
  readonly changed: (body: unknown, reader: InstantReader) => object
}

/** @param fields  from the body to the fields of the row; where left out they are the same */
export function setupBodies<Shape extends z.ZodRawShape>(
  create: z.ZodObject<Shape>,
  fields: (body: Partial<z.output<z.ZodObject<Shape>>>, reader: InstantReader) => object = (body) => body,
): SetupBodies {
  const change = patchOf(create)
  return {
    create,
    change,
    created: (body, reader) => fields(create.parse(body), reader),
    changed: (body, reader) => fields(change.parse(body), reader),
  }
}

/** A row as it is answered, under a name in the OpenAPI document. */
export const storedSchema = (row: z.ZodObject, id: string): z.ZodObject =>
  row
    .extend({
      version: z.int().min(1).meta({ description: 'One more with each change; the ETag is made of it' }),
      retiredAt: Instant.nullable().meta({ description: 'Out of use since then; null: in force' }),
    })
    .meta({ id })
