/** What stands on the floor of a room for good: a stage, a column, a bar. Who carries something walks around it. */
import { z } from 'zod'
import { FloorPoint } from './floor.ts'
import { TextLine } from './units.ts'

/** Of a rectangle the corner with the least x and y. */
const FixedOutline = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('rectangle'),
    ...FloorPoint.shape,
    widthMetres: z.number().positive().max(500),
    depthMetres: z.number().positive().max(500),
  }),
  z.object({
    kind: z.literal('polygon'),
    corners: z
      .array(FloorPoint)
      .min(3)
      .max(16)
      .meta({ description: 'In order, either way round; a round column is good enough with eight' }),
  }),
])
export type FixedOutline = z.infer<typeof FixedOutline>

export const FixedThing = z.object({
  name: TextLine(60),
  outline: FixedOutline.meta({ description: 'Within the floor of the room' }),
  piecesMayStandOn: z
    .boolean()
    .default(false)
    .meta({ description: 'As on a stage; on a column nothing stands' }),
})
export type FixedThing = z.infer<typeof FixedThing>
