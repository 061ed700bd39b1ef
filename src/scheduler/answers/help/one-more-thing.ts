/** One more of a trolley or tool that the work waits for. */
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import { circumstancesOf } from '../circumstances.ts'
import { readyAtIn } from '../ready.ts'
import type { Candidate, HelpAsked } from './candidate.ts'

/** Of those that most work holds. */
const THINGS_MOST = 6

/** What can never bind, because there is enough of it for all tasks at once, is not looked at. */
export function oneMoreThingHelp({ snapshot, turn, circumstances, search }: HelpAsked): Candidate[] {
  const { instance } = circumstances.built
  const held = instance.resources
    .map(({ key, capacity }, resource) => {
      let together = 0
      let ticks = 0
      for (const { modes } of instance.activities) {
        const amounts = modes.map(({ uses }) => uses.find((use) => use.resource === resource)?.amount ?? 0)
        together += Math.max(...amounts)
        ticks += amounts[0]! * modes[0]!.durationTicks
      }
      const least = Math.min(...capacity.map(({ amount }) => amount))
      return { key, ticks, canBind: together > least }
    })
    .filter(({ canBind }) => canBind)
    .sort((a, b) => b.ticks - a.ticks || (a.key < b.key ? -1 : 1))
  return held
    .flatMap(({ key }): Candidate[] => {
      const added = withOneMore(snapshot, key)
      if (added === null) return []
      return [
        {
          change: { kind: 'thing', resource: key },
          what: `One more ${added.name}`,
          isNeverLater: true,
          readyAt: () => {
            const changed = circumstancesOf(added.snapshot, turn)
            return changed && readyAtIn(changed, search)
          },
        },
      ]
    })
    .slice(0, THINGS_MOST)
}

/** null: it is neither a trolley nor a tool, or of no part of the hall in use. */
function withOneMore(
  snapshot: SiteSnapshot,
  key: string,
): { readonly snapshot: SiteSnapshot; readonly name: string } | null {
  const furnishing = snapshot.furnishings.find(({ id }) => key === `trolley:${id}`)
  if (furnishing?.trolley) {
    const trolley = { ...furnishing.trolley, countOwned: furnishing.trolley.countOwned + 1 }
    const furnishings = snapshot.furnishings.map((one) => (one === furnishing ? { ...one, trolley } : one))
    return { snapshot: { ...snapshot, furnishings }, name: `trolley for ${furnishing.namePlural}` }
  }
  const tool = snapshot.tools.find(({ id }) => key === `tool:${id}`)
  if (!tool) return null
  const tools = snapshot.tools.map((one) => (one === tool ? { ...one, countOwned: one.countOwned + 1 } : one))
  return { snapshot: { ...snapshot, tools }, name: tool.name }
}
