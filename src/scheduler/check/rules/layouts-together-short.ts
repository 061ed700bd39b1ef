import { aboutRow, type Found } from '../found.ts'
import { lastingChange } from '../put-away.ts'
import type { LayoutUse, SetupReading } from '../setup-reading.ts'
import { sharesSection } from '../shares-section.ts'

/** For each furnishing the two rooms that ask most of it at a time; each layout alone has enough. */
export function layoutsTogetherShort(reading: SetupReading): Found[] {
  return reading.setup.furnishings.flatMap((furnishing): Found[] => {
    const owned = furnishing.countOwned + Math.max(0, lastingChange(reading, furnishing))
    const uses = reading.usesOf(furnishing.id).filter(({ count }) => count <= owned)
    const pair = worstPair(reading, uses)
    if (!pair || pair[0].count + pair[1].count <= owned) return []
    const [a, b] = pair
    return [
      {
        code: 'layouts-together-short',
        about: aboutRow('furnishing', furnishing),
        message: `layouts ${a.layout.name} and ${b.layout.name} can stand at the same time and together ask ${a.count + b.count} ${furnishing.namePlural}, the site owns ${owned}`,
        fix: `do not book both at once, or have ${a.count + b.count - owned} more`,
        field: '/countOwned',
      },
    ]
  })
}

function worstPair({ rooms }: SetupReading, uses: readonly LayoutUse[]): [LayoutUse, LayoutUse] | null {
  // Of each room only the layout that asks most can be in the worst pair.
  const mostByRoom = new Map<string, LayoutUse>()
  for (const use of uses) {
    const known = mostByRoom.get(use.layout.roomId)
    if (!known || use.count > known.count) mostByRoom.set(use.layout.roomId, use)
  }
  const most = [...mostByRoom.values()]
  let worst: [LayoutUse, LayoutUse] | null = null
  for (const [index, a] of most.entries()) {
    for (const b of most.slice(index + 1)) {
      const [roomA, roomB] = [rooms.get(a.layout.roomId), rooms.get(b.layout.roomId)]
      if (!roomA || !roomB || sharesSection(roomA, roomB)) continue
      if (!worst || a.count + b.count > worst[0].count + worst[1].count) worst = [a, b]
    }
  }
  return worst
}
