/** Which version of a thing somebody means to change (RFC 9110, sections 8.8.3 and 13.1.1). */
import { Problem } from './problems.ts'

export const etagOf = ({ version }: { readonly version: number }): string => `"${version}"`

/** @throws Problem precondition-required when there is no header */
export function requireIfMatch(header: string | undefined, noun: string): string {
  if (header !== undefined) return header
  throw new Problem('precondition-required', `Send If-Match with the ETag of the ${noun}.`)
}

/**
 * @param etag  of the current version
 * @throws Problem version-mismatch when the header names only versions that are not the current one
 */
export function refuseOtherEtag(header: string, etag: string, noun: string): void {
  const named = header.split(',').map((tag) => tag.trim())
  if (named.includes('*') || named.includes(etag)) return
  const current = `The ${noun} is at version ${etag}, If-Match says ${header.slice(0, 80)}.`
  throw new Problem('version-mismatch', `${current} Read it again before you change it.`)
}

/** @throws Problem version-mismatch when the header names only versions that are not the current one */
export const refuseStale = (header: string, current: { readonly version: number }, noun: string): void =>
  refuseOtherEtag(header, etagOf(current), noun)
