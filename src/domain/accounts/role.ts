/** What somebody may do in one site. */
import { z } from 'zod'

/** Each may do what those before it may, but for the requester, who only asks for rooms. */
export const Role = z.enum(['requester', 'crew', 'crew-lead', 'coordinator', 'administrator'])
export type Role = z.infer<typeof Role>
