import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Common practice, no source: up to so many chairs are carried sooner than a trolley is fetched. */
const CHAIRS_MOST = 50

export function chairsWithoutTrolley({ setup, usesOf }: SetupReading): Found[] {
  return setup.furnishings.flatMap((furnishing): Found[] => {
    const { kind, method, trolley } = furnishing
    if (kind !== 'stacking-chair' && kind !== 'folding-chair') return []
    // One that goes by trolley and has none is said elsewhere.
    if (trolley !== null || method === 'trolley') return []
    const [most] = [...usesOf(furnishing.id)].sort((a, b) => b.count - a.count)
    if (!most || most.count <= CHAIRS_MOST) return []
    return [
      {
        code: 'chairs-without-trolley',
        about: aboutRow('furnishing', furnishing),
        message: `layout ${most.layout.name} has ${most.count} ${furnishing.namePlural}, carried one by one: there is no trolley for them`,
        fix: 'enter the trolleys if there are some; if not, one is the first thing to buy',
        field: '/trolley',
      },
    ]
  })
}
