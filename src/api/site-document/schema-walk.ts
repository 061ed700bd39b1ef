/** Going through a value along its schema, to find what the schema knows of it: references, lists that are too long. */
import { z } from 'zod'
import { jsonPointer } from '../zod-requests.ts'

/** A schema, the value at its place, and the JSON pointer of that place. */
export type Visit = (schema: z.core.$ZodType, value: unknown, at: string) => void

/**
 * Calls `visit` for every place that both schema and value have. What does not match its schema is visited and not
 * entered. As deep as the schema, so its depth is bounded whatever the value holds.
 * @param enter  whether to go into a list or record; wherever this says no, its entries are left alone
 */
export function walkSchema(
  schema: z.core.$ZodType,
  value: unknown,
  at: string,
  visit: Visit,
  enter: (schema: z.core.$ZodType, value: unknown) => boolean = () => true,
): void {
  const inner = innerOf(schema)
  if (inner) {
    if (value !== null && value !== undefined) walkSchema(inner, value, at, visit, enter)
    return
  }
  visit(schema, value, at)
  if (typeof value !== 'object' || value === null) return
  if (schema instanceof z.ZodArray) {
    if (!Array.isArray(value) || !enter(schema, value)) return
    const { element } = schema.def
    for (const [index, item] of value.entries()) walkSchema(element, item, `${at}/${index}`, visit, enter)
  } else if (schema instanceof z.ZodRecord) {
    if (!isRecord(value) || !enter(schema, value)) return
    const { valueType } = schema.def
    for (const [name, item] of Object.entries(value)) {
      walkSchema(valueType, item, `${at}${jsonPointer([name])}`, visit, enter)
    }
  } else if (isRecord(value)) {
    const object = schema instanceof z.ZodDiscriminatedUnion ? optionFor(schema, value) : schema
    if (!(object instanceof z.ZodObject)) return
    const shape: Readonly<Record<string, z.core.$ZodType>> = object.shape
    for (const name in shape) {
      if (Object.hasOwn(value, name)) walkSchema(shape[name]!, value[name], `${at}/${name}`, visit, enter)
    }
  }
}

const wrapping: ReadonlySet<string> = new Set(['nullable', 'optional', 'default'])

/** What is wrapped into nullable, optional or a default; null: the schema is none of these. */
export function innerOf(schema: z.core.$ZodType): z.core.$ZodType | null {
  // Asked of every value there is, and `instanceof` is slow here.
  if (!wrapping.has(schema._zod.def.type)) return null
  const wraps =
    schema instanceof z.ZodNullable || schema instanceof z.ZodOptional || schema instanceof z.ZodDefault
  return wraps ? schema.def.innerType : null
}

/** The option that the discriminator of the value names. */
export function optionFor(
  { def }: z.ZodDiscriminatedUnion,
  value: Readonly<Record<string, unknown>>,
): z.core.$ZodType | null {
  const isNamed = (option: z.core.$ZodType): boolean => {
    const discriminator: unknown = option instanceof z.ZodObject ? option.shape[def.discriminator] : null
    return discriminator instanceof z.ZodType && discriminator.safeParse(value[def.discriminator]).success
  }
  return def.options.find(isNamed) ?? null
}

export const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
