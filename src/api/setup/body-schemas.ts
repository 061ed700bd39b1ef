/** Schemas of request bodies, made from those of the domain. */
import { z } from 'zod'

/**
 * The same schema, refusing fields it does not know at any depth: a misspelt field that is passed over would be a wish
 * that nobody hears. Descriptions are kept.
 */
export function strictly<Schema extends z.ZodType>(schema: Schema): Schema
// What is rebuilt takes and gives the same values; the compiler cannot follow that through the kinds of schemas.
export function strictly(schema: z.core.$ZodType): z.core.$ZodType {
  return rebuilt(schema)
}

function rebuilt(schema: z.core.$ZodType): z.core.$ZodType {
  const meta = z.globalRegistry.get(schema)
  const made = strictKind(schema)
  if (made === schema || !meta) return made
  // An id names one schema only.
  const { id: _id, ...described } = meta
  return made instanceof z.ZodType ? made.meta(described) : made
}

function strictKind(schema: z.core.$ZodType): z.core.$ZodType {
  if (schema instanceof z.ZodObject) return z.strictObject(mapped(schema.shape, rebuilt))
  if (schema instanceof z.ZodArray) {
    const element = rebuilt(schema.element)
    return element === schema.element ? schema : schema.clone({ ...schema.def, element })
  }
  if (schema instanceof z.ZodNullable) return z.nullable(rebuilt(schema.unwrap()))
  if (schema instanceof z.ZodOptional) return z.optional(rebuilt(schema.unwrap()))
  if (schema instanceof z.ZodDefault)
    return z._default(rebuilt(schema.def.innerType), () => schema.def.defaultValue)
  if (schema instanceof z.ZodDiscriminatedUnion || schema instanceof z.ZodUnion)
    return schema.clone({ ...schema.def, options: schema.options.map(rebuilt) })
  if (schema instanceof z.ZodRecord)
    return schema.clone({ ...schema.def, valueType: rebuilt(schema.valueType) })
  return schema
}

/**
 * What a thing is changed with: each field of the body it was made from may be left out, and then has no default, so
 * that what is not named stays as it is. What is named is taken whole: defaults further in still count.
 */
export function patchOf<Shape extends z.ZodRawShape>(
  body: z.ZodObject<Shape>,
): z.ZodType<Partial<z.output<z.ZodObject<Shape>>>>
export function patchOf(body: z.ZodObject): z.ZodType {
  return z.strictObject(mapped(body.shape, (field) => z.optional(withoutDefault(field))))
}

function withoutDefault(field: z.core.$ZodType): z.core.$ZodType {
  if (!(field instanceof z.ZodDefault)) return field
  const inner = withoutDefault(field.def.innerType)
  const meta = z.globalRegistry.get(field)
  return meta && inner instanceof z.ZodType ? inner.meta(meta) : inner
}

/** Every field may be left out, at any depth; lists are taken whole. Numbers and lists may be null: as they were at first. */
export const deepPartial = (schema: z.ZodObject): z.ZodType =>
  z.strictObject(mapped(schema.shape, (field) => z.optional(partialField(field))))

function partialField(schema: z.core.$ZodType): z.core.$ZodType {
  if (schema instanceof z.ZodObject) return deepPartial(schema)
  return schema instanceof z.ZodRecord
    ? z.partialRecord(schema.keyType, partialField(schema.valueType))
    : z.nullable(schema)
}

const mapped = (
  shape: z.core.$ZodShape,
  change: (field: z.core.$ZodType) => z.core.$ZodType,
): Record<string, z.core.$ZodType> =>
  Object.fromEntries(Object.entries(shape).map(([name, field]) => [name, change(field)]))
