/** What can be wrong with a tool beyond its shape. */
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { Tool } from '../../domain/tool.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import type { Fault } from '../problems.ts'

export function toolFaults(tool: Tool, setup: SiteSetup): Fault[] {
  const at = (index: number) => `/furnishingIds/${index}`
  return [
    ...repeated((index) => `/cleaningMethods/${index}`, tool.cleaningMethods, 'cleaning method'),
    ...unknownIds(at, tool.furnishingIds, setup.furnishings, 'furnishing', setup.retired.furnishings),
    ...repeated(at, tool.furnishingIds, 'furnishing'),
  ]
}
