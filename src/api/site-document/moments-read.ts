/** From what travels to the program's values: the mirror image of `wire`. */
import type { InstantReader } from '../instant-text.ts'

/**
 * The same value with every text in a field that ends in `At` read as a moment, at any depth. What cannot be read
 * becomes null, and the reader then has a fault.
 * @param at  JSON pointer of the value
 */
export function momentsRead(value: unknown, at: string, reader: InstantReader): unknown {
  if (Array.isArray(value)) return value.map((item, index) => momentsRead(item, `${at}/${index}`, reader))
  if (typeof value !== 'object' || value === null) return value
  const read: Record<string, unknown> = {}
  for (const [name, field] of Object.entries(value)) {
    read[name] =
      typeof field === 'string' && name.endsWith('At')
        ? reader.read(`${at}/${name}`, field)
        : momentsRead(field, `${at}/${name}`, reader)
  }
  return read
}
