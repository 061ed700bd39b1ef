/** A bookable space: one section, or several that are opened into one. */
import { z } from 'zod'
import { LayoutId, RoomId, SectionId, SiteId } from './ids.ts'
import { Headcount, LocalTime, Name, Weekday } from './units.ts'

/** On these days from `opensLocal` until `closesLocal`; closing at or before opening means the next day. */
export const OpeningHours = z.object({
  weekdays: z.array(Weekday).min(1).max(7),
  opensLocal: LocalTime,
  closesLocal: LocalTime,
})
export type OpeningHours = z.infer<typeof OpeningHours>

export const Room = z.object({
  id: RoomId,
  siteId: SiteId,
  name: Name,
  sectionIds: z.array(SectionId).min(1).max(20),
  occupantLimitPosted: Headcount.nullable().meta({
    description: 'The posted limit; null when none has been entered',
  }),
  homeLayoutId: LayoutId.nullable().meta({
    description: 'What stands when nothing else was set up; null: the bare floor',
  }),
  openingHours: z.array(OpeningHours).min(1).max(50).nullable().meta({ description: 'null: always open' }),
})
export type Room = z.infer<typeof Room>
