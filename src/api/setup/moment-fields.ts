/** Fields of a body that hold moments as text. */
import type { Instant } from '../../domain/instant.ts'
import type { InstantReader } from '../instant-text.ts'

/**
 * @param names  fields of the body that are text, null or left out
 * @param under  pointer of the object that has them
 * @returns those that are there, as moments; what cannot be read is left out and is among the faults of the reader
 */
export function momentFields<const Name extends string>(
  reader: InstantReader,
  body: { readonly [Field in NoInfer<Name>]?: string | null | undefined },
  names: readonly Name[],
  under = '',
): { [Field in Name]?: Instant | null } {
  const moments: { [Field in Name]?: Instant | null } = {}
  for (const name of names) {
    const text = body[name]
    if (text === undefined) continue
    const moment = text === null ? null : reader.read(`${under}/${name}`, text)
    if (moment !== null || text === null) moments[name] = moment
  }
  return moments
}
