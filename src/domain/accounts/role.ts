/** What somebody may do in one site. */
import { z } from 'zod'

/** Each may do what those before it may, but for the requester, who only asks for rooms. */
export const Role = z.enum(['requester', 'crew', 'crew-lead', 'coordinator', 'administrator'])
export type Role = z.infer<typeof Role>

/** Not given out yet: what requesters may see of the bookings of others is not kept from them everywhere. */
export const RoleGiven = Role.exclude(['requester'])
