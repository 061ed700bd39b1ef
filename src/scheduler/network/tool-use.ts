/** Tools that work is done with, where the site owns some for it; where it owns none, nobody waits for one. */
import type { CleaningMethod } from '../../domain/cleaning-method.ts'
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Task, TaskResource } from '../../domain/task.ts'
import type { Tool } from '../../domain/tool.ts'
import type { NetworkInput } from './network-input.ts'

export const toolKey = (tool: Tool): string => `tool:${tool.id}`

export const toolResource = (tool: Tool): TaskResource => ({
  key: toolKey(tool),
  label: tool.namePlural,
  capacity: tool.countOwned,
})

/** One for the task, as one team is at it. */
export const toolUse = (tool: Tool): Task['uses'][number] => ({ resource: toolKey(tool), amount: 1 })

/** One for each of the hands. */
export const toolUsePerHand = (tool: Tool): Task['uses'][number] => ({ ...toolUse(tool), perHand: true })

/** The tool each cleaner holds: of several kinds that serve, the one there are most of, then the first by id. */
export const toolOfCleaning = (input: NetworkInput, method: CleaningMethod): Tool | null =>
  mostOwned(input.tools.filter((tool) => tool.cleaningMethods.includes(method)))

/** The tool each team holds that sets up or takes down a furnishing. */
export const toolOfPieces = (input: NetworkInput, furnishing: Furnishing): Tool | null =>
  mostOwned(input.tools.filter((tool) => tool.furnishingIds.includes(furnishing.id)))

function mostOwned(tools: readonly Tool[]): Tool | null {
  let best: Tool | null = null
  for (const tool of tools) {
    const isBetter =
      best === null ||
      tool.countOwned > best.countOwned ||
      (tool.countOwned === best.countOwned && tool.id < best.id)
    if (isBetter) best = tool
  }
  return best
}
