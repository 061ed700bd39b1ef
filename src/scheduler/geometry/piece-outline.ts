/** The floor that a piece takes where it stands. */
import type { FloorPoint } from '../../domain/floor.ts'

/**
 * @param rotationDegrees  from the x axis, against the clock
 * @returns its four corners in order
 */
export function pieceOutline(
  middle: FloorPoint,
  widthMetres: number,
  depthMetres: number,
  rotationDegrees: number,
): readonly FloorPoint[] {
  const angle = (rotationDegrees * Math.PI) / 180
  const [cosine, sine] = [Math.cos(angle), Math.sin(angle)]
  const [x, y] = [widthMetres / 2, depthMetres / 2]
  const corners: readonly (readonly [number, number])[] = [
    [-x, -y],
    [x, -y],
    [x, y],
    [-x, y],
  ]
  return corners.map(([along, across]) => ({
    xMetres: middle.xMetres + along * cosine - across * sine,
    yMetres: middle.yMetres + along * sine + across * cosine,
  }))
}
