/**
 * Whether two values are the same when written down as JSON, whatever the order of their members: what was stored comes
 * back in that of the schema. Members that are undefined are not written. It stops at the first difference.
 */
export function isSameValue(one: unknown, other: unknown): boolean {
  if (one === other) return true
  if (!isStructured(one) || !isStructured(other)) return false
  if (Array.isArray(one) || Array.isArray(other)) {
    return (
      Array.isArray(one) &&
      Array.isArray(other) &&
      one.length === other.length &&
      one.every((value, index) => isSameValue(value, other[index]))
    )
  }
  const members = new Map(Object.entries(other))
  for (const [name, value] of Object.entries(one)) {
    if (!isSameValue(value, members.get(name))) return false
    members.delete(name)
  }
  return [...members.values()].every((value) => value === undefined)
}

const isStructured = (value: unknown): value is object => typeof value === 'object' && value !== null
