import type { Layout } from '../../../domain/layout.ts'
import type { StoragePlace } from '../../../domain/storage-place.ts'
import { areaText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import { leftToPutAway } from '../put-away.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Everything that lives in a store, against the layout that leaves most of it; what another store names goes there. */
export function storeFloorShort(reading: SetupReading): Found[] {
  const { setup, units } = reading
  return setup.storagePlaces.flatMap((store): Found[] => {
    const { areaSquareMetres } = store
    if (areaSquareMetres === null) return []
    const [worst] = floorLeft(reading, store).sort((a, b) => b.squareMetres - a.squareMetres)
    if (!worst || worst.squareMetres <= areaSquareMetres) return []
    return [
      {
        code: 'store-floor-short',
        about: aboutRow('storagePlace', store),
        message: `the ${store.name} has ${areaText(areaSquareMetres, units)} for pieces, layout ${worst.layout.name} leaves ${areaText(worst.squareMetres, units)} to put away`,
        fix: 'let some pieces live elsewhere, or correct the floor of the store or what one piece takes of it',
        field: '/areaSquareMetres',
      },
    ]
  })
}

/** For every layout the floor that what it leaves takes in this store. */
function floorLeft(reading: SetupReading, store: StoragePlace): { layout: Layout; squareMetres: number }[] {
  const { setup, rates, layouts } = reading
  const squareMetres = new Map([...layouts.values()].map((layout) => [layout, 0]))
  for (const furnishing of setup.furnishings) {
    if (furnishing.storagePlaceId !== store.id) continue
    const elsewhere = setup.storagePlaces
      .filter(({ id }) => id !== store.id)
      .flatMap(({ limits }) => limits.filter(({ furnishingId }) => furnishingId === furnishing.id))
      .reduce((sum, { countMost }) => sum + countMost, 0)
    const each = furnishing.storedAreaSquareMetres ?? rates.storedAreaSquareMetres[furnishing.kind]
    for (const { layout, left } of leftToPutAway(reading, furnishing)) {
      const here = Math.max(0, left - elsewhere) * each
      squareMetres.set(layout, (squareMetres.get(layout) ?? 0) + here)
    }
  }
  return [...squareMetres].map(([layout, sum]) => ({ layout, squareMetres: sum }))
}
