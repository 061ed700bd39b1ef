/** The floor that two polygons have in common. */
import type { FloorPoint } from '../../domain/floor.ts'
import { polygonSides } from '../geometry/index.ts'
import type { Side } from '../geometry/polygon-sides.ts'

/**
 * @param a  corners in order of a polygon that does not cross itself, as of `b`
 * @returns square metres; 0 where they only touch
 */
export function overlapSquareMetres(a: readonly FloorPoint[], b: readonly FloorPoint[]): number {
  const [boxA, boxB] = [boxOf(a), boxOf(b)]
  const [from, to] = [Math.max(boxA.lowest, boxB.lowest), Math.min(boxA.highest, boxB.highest)]
  if (from >= to || boxA.leftmost >= boxB.rightmost || boxB.leftmost >= boxA.rightmost) return 0
  const [sidesA, sidesB] = [polygonSides(a), polygonSides(b)]
  const heights = [...a, ...b].map(({ yMetres }) => yMetres)
  for (const side of sidesA) for (const other of sidesB) heights.push(...crossingHeight(side, other))
  const steps = [...new Set(heights)].filter((y) => from <= y && y <= to).sort((one, other) => one - other)
  // Between two heights at which nothing turns or crosses, widths change evenly: the one in the middle is their mean.
  let area = 0
  for (let index = 0; index + 1 < steps.length; index += 1) {
    const [low, high] = [steps[index]!, steps[index + 1]!]
    const y = (low + high) / 2
    area += (high - low) * commonLength(crossingsAt(sidesA, y), crossingsAt(sidesB, y))
  }
  return area
}

function boxOf(corners: readonly FloorPoint[]) {
  const [xs, ys] = [corners.map(({ xMetres }) => xMetres), corners.map(({ yMetres }) => yMetres)]
  return {
    leftmost: Math.min(...xs),
    rightmost: Math.max(...xs),
    lowest: Math.min(...ys),
    highest: Math.max(...ys),
  }
}

/** The height at which two sides cross; none where they do not, or run alongside. */
function crossingHeight({ from: a, to: b }: Side, { from: c, to: d }: Side): number[] {
  const [abX, abY] = [b.xMetres - a.xMetres, b.yMetres - a.yMetres]
  const [cdX, cdY] = [d.xMetres - c.xMetres, d.yMetres - c.yMetres]
  const determinant = abX * cdY - abY * cdX
  if (determinant === 0) return []
  const [acX, acY] = [c.xMetres - a.xMetres, c.yMetres - a.yMetres]
  const alongAb = (acX * cdY - acY * cdX) / determinant
  const alongCd = (acX * abY - acY * abX) / determinant
  return alongAb > 0 && alongAb < 1 && alongCd > 0 && alongCd < 1 ? [a.yMetres + alongAb * abY] : []
}

/** Where the outline crosses a height, from left to right: in, out, in, out. */
const crossingsAt = (sides: readonly Side[], y: number): number[] =>
  sides
    .filter(({ from, to }) => from.yMetres > y !== to.yMetres > y)
    .map(
      ({ from, to }) =>
        from.xMetres + ((y - from.yMetres) / (to.yMetres - from.yMetres)) * (to.xMetres - from.xMetres),
    )
    .sort((one, other) => one - other)

function commonLength(a: readonly number[], b: readonly number[]): number {
  let length = 0
  for (let one = 0; one + 1 < a.length; one += 2) {
    for (let other = 0; other + 1 < b.length; other += 2) {
      length += Math.max(0, Math.min(a[one + 1]!, b[other + 1]!) - Math.max(a[one]!, b[other]!))
    }
  }
  return length
}
