/** A bookable space: one section, or several that are opened into one. */
import { z } from 'zod'
import { FixedThing } from './fixed-thing.ts'
import { Floor, FloorZone } from './floor.ts'
import { LayoutId, RoomId, SectionId, SiteId } from './ids.ts'
import { Headcount, LocalTime, Name, SquareMetres, TextLine, Weekday } from './units.ts'

/** On these days from `opensLocal` until `closesLocal`; closing at or before opening means the next day. */
export const OpeningHours = z.object({
  weekdays: z.array(Weekday).min(1).max(7),
  opensLocal: LocalTime,
  closesLocal: LocalTime,
})
export type OpeningHours = z.infer<typeof OpeningHours>

/** Where pieces that are wanted again may stand for a while: along a wall, in front of the stage, in the foyer. */
export const ParkingPlace = z.object({
  name: TextLine(60),
  areaSquareMetres: SquareMetres.meta({ description: 'Floor for parked pieces; routes to exits left out' }),
})
export type ParkingPlace = z.infer<typeof ParkingPlace>

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
  floor: Floor.nullable().default(null).meta({ description: 'null: only the area of the sections is known' }),
  zones: z
    .array(FloorZone)
    .max(12)
    .default([])
    .meta({ description: 'Parts of the floor that are worked one by one; none: equal strips' }),
  fixedThings: z
    .array(FixedThing)
    .max(40)
    .default([])
    .meta({ description: 'A stage, columns: ways along the floor go around them' }),
  parking: z
    .array(ParkingPlace)
    .max(12)
    .default([])
    .meta({ description: 'none: the side of the room, a tenth of the floor' }),
  acousticallyJoinedRoomIds: z
    .array(RoomId)
    .max(50)
    .default([])
    .meta({ description: 'Rooms that hear this one. Said on one side, it holds for both' }),
  sprinklersAndVoiceAlarm: z.boolean().default(false).meta({
    description: 'Sprinklers throughout and a voice alarm: some codes then ask for less exit width',
  }),
})
export type Room = z.infer<typeof Room>
