/** What is built as one thing stands in one place: a stage with its rails, a dance floor, posts with what is between. */
import type { FurnishingKind } from '../../domain/furnishing.ts'
import type { Placement } from '../../domain/layout.ts'

export type BuiltAs = 'stage' | 'dance floor' | 'posts'

const BUILT_AS: Partial<Readonly<Record<FurnishingKind, BuiltAs>>> = {
  'stage-deck': 'stage',
  'stage-rail': 'stage',
  'dance-floor-panel': 'dance floor',
  'post-pair': 'posts',
}

/** null: pieces of the kind stand all over the floor. */
export const builtAs = (kind: FurnishingKind): BuiltAs | null => BUILT_AS[kind] ?? null

/**
 * The zone, by index, that plans take a thing to be in when nobody has said where it stands: a stage at the end of the
 * room, anything else in the middle. Common practice, no source; good enough to order the work by, not to tell anybody.
 * @param zones  1 or more
 */
export const likelyZone = (thing: BuiltAs, zones: number): number =>
  thing === 'stage' ? zones - 1 : Math.floor((zones - 1) / 2)

/** Places of whatever a thing is built of, by thing; those of which no places are known are left out. */
export function placesByThing(
  known: readonly { readonly kind: FurnishingKind; readonly places: readonly Placement[] | null }[],
): Map<BuiltAs, Placement[]> {
  const places = new Map<BuiltAs, Placement[]>()
  for (const one of known) {
    const thing = builtAs(one.kind)
    if (thing === null || one.places === null) continue
    places.set(thing, [...(places.get(thing) ?? []), ...one.places])
  }
  return places
}
