/** How many people the floor of a room holds in a layout, by the published tables of the site: as the advice tells it. */
import type { Layout } from '../../../domain/layout.ts'
import type { Room } from '../../../domain/room.ts'
import { sourcesOf } from '../../standards/advice/advice-item.ts'
import { layoutAdviceInput, layoutLoads } from '../../standards/advice/index.ts'
import type { World } from '../../timeline/world.ts'

export interface ComputedLoad {
  readonly people: number
  /** The table and its row, or rows. */
  readonly source: string
}

interface Remembered {
  /** Everything it follows from beside the layout. These are never changed in place: the same ones give the same load. */
  readonly madeFrom: readonly unknown[]
  readonly load: ComputedLoad | null
}

// Asked for every booking at every turn that is judged, and the same from one change of the set-up to the next.
const remembered = new WeakMap<Layout, Remembered>()

/**
 * The number that may be promised to guests: where more than one row of the table fits what stands there, that of the
 * row that gives the fewest. Nothing but the floor, its use and its stage is looked at: not exits, nor seats.
 * @returns null when the area of a section of the room is not known, so that nothing can be computed
 */
export function computedLoad(world: World, room: Room, layout: Layout): ComputedLoad | null {
  const { site, sections, furnishings, retired } = world.setup
  const madeFrom = [room, site.codeTables, sections, furnishings, retired]
  const known = remembered.get(layout)
  if (known?.madeFrom.every((part, index) => part === madeFrom[index])) return known.load
  const load = loadOf(world, room, layout)
  remembered.set(layout, { madeFrom, load })
  return load
}

function loadOf(world: World, room: Room, layout: Layout): ComputedLoad | null {
  if (!room.sectionIds.every((id) => world.sectionsById.has(id))) return null
  const facts = {
    site: world.setup.site,
    sections: [...world.sectionsById.values()],
    furnishings: [...world.furnishingsById.values()],
    exits: [],
  }
  // The load asks how many pieces stand there, not where.
  const { toPromise } = layoutLoads(layoutAdviceInput({ ...layout, placements: [] }, room, facts, null))
  return { people: toPromise.peopleToPromise, source: sourcesOf(toPromise.parts).source }
}
