/** The floor of a room, seen from above, in metres from a corner the site chooses: x to the right, y away from it. */
import { z } from 'zod'
import { TextLine } from './units.ts'

/** A place on the floor. Negative values are allowed: the corner need not be the outermost point. */
export const FloorPoint = z.object({
  xMetres: z.number().min(-500).max(500),
  yMetres: z.number().min(-500).max(500),
})
export type FloorPoint = z.infer<typeof FloorPoint>

/** Corners in order, either way round; the last one joins the first. */
export const FloorPolygon = z.array(FloorPoint).min(3).max(200)
export type FloorPolygon = z.infer<typeof FloorPolygon>

/** A rectangle begins at the corner (0, 0). */
export const Floor = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('rectangle'),
    widthMetres: z.number().positive().max(500),
    depthMetres: z.number().positive().max(500),
  }),
  z.object({ kind: z.literal('polygon'), corners: FloorPolygon }),
])
export type Floor = z.infer<typeof Floor>

/** A strip or corner of the floor that is worked as one, with a name the crew knows. */
export const FloorZone = z.object({
  name: TextLine(60),
  corners: FloorPolygon.meta({ description: 'Inside the floor of the room' }),
})
export type FloorZone = z.infer<typeof FloorZone>
