/** What a room is arranged for. */
import { z } from 'zod'

export const LayoutKind = z.enum(['worship', 'banquet', 'games', 'overflow', 'meeting', 'other'])
export type LayoutKind = z.infer<typeof LayoutKind>
