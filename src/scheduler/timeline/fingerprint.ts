/**
 * A short name for a text: equal texts have equal names, different ones practically never.
 * Two 32-bit FNV-1a hashes (Fowler, Noll, Vo; the second with another start), as 16 hex digits. Not for secrets.
 */
export function fingerprint(text: string): string {
  let a = 0x811c9dc5
  let b = 0x9e3779b9
  for (let index = 0; index < text.length; index += 1) {
    const code = text.charCodeAt(index)
    a = Math.imul(a ^ code, 0x01000193)
    b = Math.imul(b ^ (code + index), 0x01000193)
  }
  return hex(a) + hex(b)
}

const hex = (word: number): string => (word >>> 0).toString(16).padStart(8, '0')
