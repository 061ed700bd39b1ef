/** How far from a picture, and how near, people may sit. */
import { numberInRange } from '../work-measurement/number-in-range.ts'

/** `detail`: plans, spreadsheets. `reading`: words to read or sing. `video`: moving pictures. */
export type ViewingUse = 'detail' | 'reading' | 'video'

export interface FarthestViewer {
  /** Times the height of the picture. */
  readonly imageHeights: number
  readonly source: string
}

const TRADE_RULE = 'AV trade rule of 4, 6 and 8, since replaced by AVIXA ISCR; from memory'

export const FARTHEST_VIEWERS: Readonly<Record<ViewingUse, FarthestViewer>> = {
  detail: { imageHeights: 4, source: TRADE_RULE },
  reading: { imageHeights: 6, source: TRADE_RULE },
  video: { imageHeights: 8, source: TRADE_RULE },
}

export const NEAREST_VIEWER_IMAGE_HEIGHTS = 2
export const NEAREST_VIEWER_SOURCE = 'experiencingworship.com, video projection formulas, 2003; read'

/**
 * @param imageHeightMetres  0 or more
 * @throws RangeError for what is negative or no number
 */
export const farthestViewerMetres = (imageHeightMetres: number, use: ViewingUse): number =>
  numberInRange('imageHeightMetres', imageHeightMetres, 0) * FARTHEST_VIEWERS[use].imageHeights

/**
 * @param imageHeightMetres  0 or more
 * @throws RangeError for what is negative or no number
 */
export const nearestViewerMetres = (imageHeightMetres: number): number =>
  numberInRange('imageHeightMetres', imageHeightMetres, 0) * NEAREST_VIEWER_IMAGE_HEIGHTS
