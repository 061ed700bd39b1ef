/**
 * What reading a whole set-up can bring up. Every code there is stands below, what matters most first: that is the
 * order in which findings are listed.
 */
import { z } from 'zod'
import { setupKinds } from './setup.ts'

/**
 * `missing`: without it plans are wrong or bookings are refused. `odd`: it can hardly be meant so. `note`: it may well
 * be meant so, and is worth a look.
 */
export const FindingWeight = z.enum(['missing', 'odd', 'note'])
export type FindingWeight = z.infer<typeof FindingWeight>

export const findingKinds = [
  { code: 'out-of-use-named', weight: 'missing', says: 'a row names another one that is out of use' },
  { code: 'stock-short', weight: 'missing', says: 'a layout asks more pieces than the site owns' },
  {
    code: 'setting-not-held',
    weight: 'missing',
    says: 'a layout asks a state or level that a device does not have',
  },
  {
    code: 'device-way-missing',
    weight: 'missing',
    says: 'nothing says how a device gets from one layout to another',
  },
  {
    code: 'device-condition-never-met',
    weight: 'missing',
    says: 'a device changes only with a wall open that is not there',
  },
  {
    code: 'protection-violated',
    weight: 'missing',
    says: 'a layout leaves a device where its use can damage it',
  },
  { code: 'crew-none', weight: 'missing', says: 'nobody is on duty in the next four weeks' },
  { code: 'skill-nobody', weight: 'missing', says: 'a device needs a skill that nobody has today' },
  { code: 'skill-minors-only', weight: 'missing', says: 'a skill for adults is held by minors only' },
  {
    code: 'adults-only-nobody',
    weight: 'missing',
    says: 'pieces are for adults only and no adult is on duty',
  },
  {
    code: 'hands-over-crew',
    weight: 'missing',
    says: 'a piece or device takes more hands than are ever on duty at once',
  },
  {
    code: 'method-without-trolley',
    weight: 'missing',
    says: 'pieces go by trolley and there is none for them',
  },
  {
    code: 'store-limit-short',
    weight: 'missing',
    says: 'a store takes fewer pieces than a layout leaves to put away',
  },
  {
    code: 'store-floor-short',
    weight: 'missing',
    says: 'a store has less floor than what a layout leaves to put away',
  },
  {
    code: 'route-missing',
    weight: 'missing',
    says: 'nothing says how far a store is from a room that uses its pieces',
  },
  { code: 'room-no-posted-limit', weight: 'missing', says: 'a room has no posted occupant limit' },
  { code: 'room-no-exits', weight: 'missing', says: 'a room has no exit' },
  {
    code: 'exits-too-few',
    weight: 'missing',
    says: 'a room has fewer exits than its occupant load asks, or closures leave it fewer',
  },
  { code: 'exits-all-closed', weight: 'missing', says: 'closures shut every exit of a room that stays open' },
  { code: 'room-no-layouts', weight: 'missing', says: 'a room has no layout, so it cannot be booked' },
  {
    code: 'stock-away-booked',
    weight: 'missing',
    says: 'pieces are lent out or out of service while a booking needs them',
  },
  {
    code: 'device-away-booked',
    weight: 'missing',
    says: 'a device is lent out or out of service while a booking asks for it, and nothing stands in',
  },
  {
    code: 'tool-away-booked',
    weight: 'missing',
    says: 'every tool that a floor is cleaned with is away when a booking needs it clean',
  },
  {
    code: 'stock-away-short',
    weight: 'odd',
    says: 'what is out of service or lent out leaves less than a layout asks, without a booking of it in that time',
  },
  {
    code: 'stock-change-over-owned',
    weight: 'odd',
    says: 'more pieces are out of service or lent out than the site owns',
  },
  {
    code: 'device-out-of-service',
    weight: 'odd',
    says: 'a device that layouts ask for is out of service, and nothing stands in, without a booking of it in that time',
  },
  {
    code: 'device-out-twice',
    weight: 'odd',
    says: 'a device is out of service or lent out twice at the same time',
  },
  {
    code: 'tool-missing',
    weight: 'odd',
    says: 'there is no tool for a way in which floors are cleaned, or all are away for a time',
  },
  {
    code: 'store-cut-off',
    weight: 'odd',
    says: 'a store is closed, or the way to it, all the time there is to turn a room for a booking',
  },
  {
    code: 'stand-in-cannot',
    weight: 'odd',
    says: 'a stand-in does not have a condition that layouts ask for',
  },
  { code: 'restrike-too-short', weight: 'odd', says: 'a lamp is said to light again sooner than it can' },
  { code: 'device-slow', weight: 'odd', says: 'a device is said to take over an hour to change or warm up' },
  {
    code: 'skill-off-duty',
    weight: 'odd',
    says: 'those who have a skill that a device needs are on no shift',
  },
  { code: 'skill-expired', weight: 'odd', says: 'a skill of somebody on a shift has expired' },
  { code: 'minor-with-adult-skill', weight: 'odd', says: 'a minor has a skill that is for adults' },
  { code: 'person-twice-on-duty', weight: 'odd', says: 'somebody is on two shifts at the same time' },
  {
    code: 'shift-entered-twice',
    weight: 'odd',
    says: 'two shifts are the same in everything: hands would count twice',
  },
  { code: 'shift-never', weight: 'odd', says: 'a shift never happens' },
  { code: 'rooms-alike', weight: 'odd', says: 'two rooms are of the same sections' },
  { code: 'name-twice', weight: 'odd', says: 'two rooms, or two layouts of a room, have the same name' },
  { code: 'seats-differ', weight: 'odd', says: 'a layout seats other than its chairs do' },
  { code: 'seats-over-limit', weight: 'odd', says: 'a layout seats more than the posted limit of its room' },
  { code: 'places-short', weight: 'odd', says: 'a banquet seats more than its tables have places' },
  { code: 'tables-without-chairs', weight: 'odd', says: 'a layout seats people at tables without chairs' },
  {
    code: 'layout-crowded',
    weight: 'odd',
    says: 'a layout leaves each guest less floor than is comfortable',
  },
  { code: 'pieces-over-floor', weight: 'odd', says: 'the pieces of a layout cover more than the floor' },
  { code: 'placements-overlap', weight: 'odd', says: 'pieces of a layout stand inside each other' },
  { code: 'piece-on-fixed-thing', weight: 'odd', says: 'a piece of a layout stands where a fixed thing is' },
  { code: 'floor-area-differs', weight: 'odd', says: 'the floor of a room is not the area of its sections' },
  { code: 'zones-off-floor', weight: 'odd', says: 'the zones of a room do not add up to its floor' },
  { code: 'zones-overlap', weight: 'odd', says: 'zones of a room overlap' },
  { code: 'exit-off-floor', weight: 'odd', says: 'an exit is nowhere near the floor of its rooms' },
  {
    code: 'store-door-off-floor',
    weight: 'odd',
    says: 'the way from a store comes onto the floor nowhere near it',
  },
  { code: 'floor-cut', weight: 'odd', says: 'fixed things cut off a part of a floor that is used' },
  {
    code: 'hands-too-few',
    weight: 'odd',
    says: 'a piece is handled by fewer people than usual, or is too heavy for them',
  },
  { code: 'chairs-without-trolley', weight: 'odd', says: 'many chairs are carried one by one' },
  {
    code: 'depth-order-backwards',
    weight: 'odd',
    says: 'what is used most stands behind what is used least',
  },
  { code: 'passage-too-narrow', weight: 'odd', says: 'a way is narrower than what goes through it' },
  { code: 'passage-load-too-low', weight: 'odd', says: 'a lift carries less than what goes into it' },
  { code: 'trolley-on-stairs', weight: 'odd', says: 'trolleys would have to go by stairs' },
  { code: 'slack-none', weight: 'odd', says: 'the policy wants no time to spare before doors' },
  {
    code: 'pace-unusual',
    weight: 'odd',
    says: 'the crew is said to be far quicker or slower than crews are',
  },
  { code: 'allowance-none', weight: 'odd', says: 'the policy leaves nobody time to breathe' },
  { code: 'minor-limit-high', weight: 'odd', says: 'minors may lift more than is cautious' },
  {
    code: 'layouts-together-short',
    weight: 'note',
    says: 'layouts of two rooms together ask more than the site owns',
  },
  {
    code: 'skill-expires-soon',
    weight: 'note',
    says: 'a skill of somebody on a shift expires within a month',
  },
  { code: 'person-on-no-shift', weight: 'note', says: 'somebody is on no shift' },
  { code: 'shift-ended', weight: 'note', says: 'a weekly shift has ended' },
  {
    code: 'room-open-unstaffed',
    weight: 'note',
    says: 'nobody is on duty on a weekday on which a room is open',
  },
  {
    code: 'room-no-home-layout',
    weight: 'note',
    says: 'nothing says what stands in a room when nothing was set up',
  },
  { code: 'room-no-opening-hours', weight: 'note', says: 'a room has no opening hours: it is always open' },
  { code: 'exits-not-step-free', weight: 'note', says: 'no exit of a room is free of steps' },
  { code: 'joined-one-sided', weight: 'note', says: 'of two rooms that hear each other only one says so' },
  {
    code: 'cloths-short',
    weight: 'note',
    says: 'a banquet has tables without cloths, though the site owns cloths',
  },
  {
    code: 'linen-for-one-use',
    weight: 'note',
    says: 'there are cloths or place settings for one meal, and not for the next while they are washed',
  },
  { code: 'layouts-alike', weight: 'note', says: 'two layouts of a room differ in nothing but their name' },
  { code: 'furnishing-never-used', weight: 'note', says: 'no layout uses a furnishing' },
  { code: 'device-never-set', weight: 'note', says: 'no layout sets a device' },
  {
    code: 'shared-device-unnamed',
    weight: 'note',
    says: 'a layout says nothing of a device that another room shares and needs',
  },
  { code: 'rate-unusual', weight: 'note', says: 'a rate that the site has set is far from what is usual' },
  {
    code: 'mass-unusual',
    weight: 'note',
    says: 'a piece is far heavier or lighter than its kind usually is',
  },
  { code: 'food-not-cleaned', weight: 'note', says: 'nothing is cleaned after a banquet' },
] as const satisfies readonly {
  readonly code: string
  readonly weight: FindingWeight
  readonly says: string
}[]

export const FindingCode = z.enum(findingKinds.map(({ code }) => code)).meta({
  description: findingKinds.map(({ code, weight, says }) => `${code} (${weight}): ${says}`).join('. '),
})
export type FindingCode = z.infer<typeof FindingCode>

export const Finding = z.object({
  code: FindingCode,
  weight: FindingWeight,
  about: z.object({
    kind: z.enum(setupKinds),
    id: z.string(),
    name: z
      .string()
      .meta({ description: 'As the site calls it; of what has no name, its id or a word for it' }),
  }),
  message: z.string().meta({ description: 'One sentence, with the numbers' }),
  fix: z.string().meta({ description: 'What to do about it' }),
  field: z
    .string()
    .nullable()
    .meta({ description: 'JSON pointer into that row; null: it is about the row as a whole' }),
})
export type Finding = z.infer<typeof Finding>
