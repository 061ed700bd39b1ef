import type { Furnishing } from '../../../domain/furnishing.ts'
import { counted } from '../../wording/counted.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** What stands behind must be used by twice as many layouts and by two more: anything less is a matter of taste. */
const TIMES_MORE = 2
const LAYOUTS_MORE = 2

/** The worst pair of each store. */
export function depthOrderBackwards({ setup, furnishings, usesOf }: SetupReading): Found[] {
  return setup.storagePlaces.flatMap((store): Found[] => {
    const inOrder = store.depthOrder.flatMap((id) => furnishings.get(id) ?? [])
    const layouts = (furnishing: Furnishing): number => usesOf(furnishing.id).length
    let worst: { front: Furnishing; back: Furnishing; more: number } | null = null
    for (const [index, front] of inOrder.entries()) {
      for (const back of inOrder.slice(index + 1)) {
        const more = layouts(back) - layouts(front)
        if (more < LAYOUTS_MORE || layouts(back) < TIMES_MORE * layouts(front)) continue
        if (!worst || more > worst.more) worst = { front, back, more }
      }
    }
    if (!worst) return []
    const used = (furnishing: Furnishing): string =>
      `${furnishing.namePlural} (${counted(layouts(furnishing), 'layout')})`
    return [
      {
        code: 'depth-order-backwards',
        about: aboutRow('storagePlace', store),
        message: `in the ${store.name} the ${used(worst.back)} stand behind the ${used(worst.front)}`,
        fix: `put the ${worst.back.namePlural} nearer the door`,
        field: '/depthOrder',
      },
    ]
  })
}
