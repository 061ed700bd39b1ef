/** How a domain schema looks in a document: moments are text, and a member that nobody knows is refused. */
import { z } from 'zod'
import { Instant } from '../../domain/instant.ts'
import { InstantText } from '../instant-text.ts'

/**
 * The same schema, at any depth, with strict objects and moments as text. Checks, defaults and descriptions stay; the
 * name under which the schema is published does not.
 * @param schema  made of objects, lists, records, unions by a discriminator, nullable, optional and default values
 */
export function documentForm(schema: z.core.$ZodType): z.ZodType {
  if (isMadeFrom(schema, Instant)) return InstantText
  const form = formOf(schema)
  if (form === schema) return form
  const { id, ...meta } = z.globalRegistry.get(schema) ?? {}
  return Object.keys(meta).length === 0 ? form : form.meta(meta)
}

function formOf(schema: z.core.$ZodType): z.ZodType {
  if (schema instanceof z.ZodObject) {
    return schema.clone({ ...schema.def, shape: formsOf(schema.shape), catchall: z.never() })
  }
  if (schema instanceof z.ZodArray) {
    return schema.clone({ ...schema.def, element: documentForm(schema.def.element) })
  }
  if (schema instanceof z.ZodRecord) {
    return schema.clone({ ...schema.def, valueType: documentForm(schema.def.valueType) })
  }
  if (schema instanceof z.ZodDiscriminatedUnion) {
    return schema.clone({ ...schema.def, options: schema.def.options.map(documentForm) })
  }
  if (schema instanceof z.ZodNullable) return documentForm(schema.def.innerType).nullable()
  if (schema instanceof z.ZodOptional) return documentForm(schema.def.innerType).optional()
  if (schema instanceof z.ZodDefault) {
    return documentForm(schema.def.innerType).default(schema.def.defaultValue)
  }
  if (schema instanceof z.ZodType) return schema
  throw new Error(`a schema of type ${schema._zod.def.type} has no form in a document`)
}

const formsOf = (shape: Readonly<Record<string, z.core.$ZodType>>): Record<string, z.ZodType> =>
  Object.fromEntries(Object.entries(shape).map(([name, field]) => [name, documentForm(field)]))

/** Whether the schema is this other one, perhaps described anew or narrowed: then it has the other one's last check. */
export function isMadeFrom(schema: z.core.$ZodType, other: z.core.$ZodType): boolean {
  const check = other._zod.def.checks?.at(-1)
  return check !== undefined && (schema._zod.def.checks?.includes(check) ?? false)
}
