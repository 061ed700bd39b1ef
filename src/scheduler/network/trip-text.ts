/** How pieces are taken along. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Rates } from './rates.ts'

/**
 * `, 9 to a trolley`, `, 10 at a time`; nothing for pieces that go one by one.
 * @param piecesInAll  of the whole turn: a full trolley may serve several lots
 */
export function tripText(furnishing: Furnishing, piecesInAll: number, rates: Rates): string {
  if (furnishing.trolley) {
    const { capacityPieces } = furnishing.trolley
    return piecesInAll <= capacityPieces ? ' with a trolley' : `, ${capacityPieces} to a trolley`
  }
  const atATime = Math.min(piecesInAll, rates.piecesPerCarry[furnishing.kind])
  return atATime === 1 ? '' : `, ${atATime} at a time`
}
