/**
 * What travels on a stream of events: lines of `field: value`, an empty line after each event.
 * @source WHATWG HTML Living Standard, section "Server-sent events", "Parsing an event stream"
 */
import { isoInZone } from '../../scheduler/timeline/wall-time.ts'
import type { ChangeLogEntry } from '../../store/store.ts'
import { resourcePath } from './resource-path.ts'

/** A client that has lost its stream waits so long before it comes back. */
const RETRY_MILLISECONDS = 3_000

/** A line that begins with a colon says nothing to the client; it shows everybody in between that the stream is open. */
export const OPENING = Buffer.from(`: changes of the hall\nretry: ${RETRY_MILLISECONDS}\n\n`)
export const KEEP_ALIVE = Buffer.from(': still here\n\n')

/** Ids, kinds and moments only: who a person is stands in no event. JSON text has no line breaks of its own. */
export function changeEvent(entry: ChangeLogEntry): string {
  const { sequence, siteId, resourceKind, resourceId, what, at, auditSequence, zone } = entry
  const href = resourcePath(entry)
  const data = { siteId, resourceKind, resourceId, what, at: isoInZone(at, zone), auditSequence, href }
  return `id: ${sequence}\nevent: change\ndata: ${JSON.stringify(data)}\n\n`
}

/** Everything up to this sequence has been sent; whoever comes back with its id misses nothing. */
export const readyEvent = (sequence: number): Buffer =>
  Buffer.from(`id: ${sequence}\nevent: ready\ndata: ${JSON.stringify({ sequence })}\n\n`)
