/** Everything that can be found in a set-up: a rule for each code, in the order of the codes. */
import type { Rule } from '../found.ts'
import { adultsOnlyNobody } from './adults-only-nobody.ts'
import { allowanceNone } from './allowance-none.ts'
import { chairsWithoutTrolley } from './chairs-without-trolley.ts'
import { clothsShort } from './cloths-short.ts'
import { crewNone } from './crew-none.ts'
import { depthOrderBackwards } from './depth-order-backwards.ts'
import { deviceAwayBooked } from './device-away-booked.ts'
import { deviceConditionNeverMet } from './device-condition-never-met.ts'
import { deviceNeverSet } from './device-never-set.ts'
import { deviceOutOfService } from './device-out-of-service.ts'
import { deviceOutTwice } from './device-out-twice.ts'
import { deviceSlow } from './device-slow.ts'
import { deviceWayMissing } from './device-way-missing.ts'
import { exitOffFloor } from './exit-off-floor.ts'
import { exitsAllClosed } from './exits-all-closed.ts'
import { exitsNotStepFree } from './exits-not-step-free.ts'
import { exitsTooFew } from './exits-too-few.ts'
import { floorAreaDiffers } from './floor-area-differs.ts'
import { floorCut } from './floor-cut.ts'
import { foodNotCleaned } from './food-not-cleaned.ts'
import { furnishingNeverUsed } from './furnishing-never-used.ts'
import { handsOverCrew } from './hands-over-crew.ts'
import { handsTooFew } from './hands-too-few.ts'
import { joinedOneSided } from './joined-one-sided.ts'
import { layoutCrowded } from './layout-crowded.ts'
import { layoutsAlike } from './layouts-alike.ts'
import { layoutsTogetherShort } from './layouts-together-short.ts'
import { linenForOneUse } from './linen-for-one-use.ts'
import { massUnusual } from './mass-unusual.ts'
import { methodWithoutTrolley } from './method-without-trolley.ts'
import { minorLimitHigh } from './minor-limit-high.ts'
import { minorWithAdultSkill } from './minor-with-adult-skill.ts'
import { nameTwice } from './name-twice.ts'
import { outOfUseNamed } from './out-of-use-named.ts'
import { paceUnusual } from './pace-unusual.ts'
import { passageLoadTooLow } from './passage-load-too-low.ts'
import { passageTooNarrow } from './passage-too-narrow.ts'
import { personOnNoShift } from './person-on-no-shift.ts'
import { personTwiceOnDuty } from './person-twice-on-duty.ts'
import { pieceOnFixedThing } from './piece-on-fixed-thing.ts'
import { piecesOverFloor } from './pieces-over-floor.ts'
import { placementsOverlap } from './placements-overlap.ts'
import { placesShort } from './places-short.ts'
import { protectionViolated } from './protection-violated.ts'
import { rateUnusual } from './rate-unusual.ts'
import { restrikeTooShort } from './restrike-too-short.ts'
import { roomNoExits } from './room-no-exits.ts'
import { roomNoHomeLayout } from './room-no-home-layout.ts'
import { roomNoLayouts } from './room-no-layouts.ts'
import { roomNoOpeningHours } from './room-no-opening-hours.ts'
import { roomNoPostedLimit } from './room-no-posted-limit.ts'
import { roomOpenUnstaffed } from './room-open-unstaffed.ts'
import { roomsAlike } from './rooms-alike.ts'
import { routeMissing } from './route-missing.ts'
import { seatsDiffer } from './seats-differ.ts'
import { seatsOverLimit } from './seats-over-limit.ts'
import { settingNotHeld } from './setting-not-held.ts'
import { sharedDeviceUnnamed } from './shared-device-unnamed.ts'
import { shiftEnded } from './shift-ended.ts'
import { shiftEnteredTwice } from './shift-entered-twice.ts'
import { shiftNever } from './shift-never.ts'
import { skillExpired } from './skill-expired.ts'
import { skillExpiresSoon } from './skill-expires-soon.ts'
import { skillMinorsOnly } from './skill-minors-only.ts'
import { skillNobody } from './skill-nobody.ts'
import { skillOffDuty } from './skill-off-duty.ts'
import { slackNone } from './slack-none.ts'
import { standInCannot } from './stand-in-cannot.ts'
import { stockAwayBooked } from './stock-away-booked.ts'
import { stockAwayShort } from './stock-away-short.ts'
import { stockChangeOverOwned } from './stock-change-over-owned.ts'
import { stockShort } from './stock-short.ts'
import { storeCutOff } from './store-cut-off.ts'
import { storeDoorOffFloor } from './store-door-off-floor.ts'
import { storeFloorShort } from './store-floor-short.ts'
import { storeLimitShort } from './store-limit-short.ts'
import { tablesWithoutChairs } from './tables-without-chairs.ts'
import { toolAwayBooked } from './tool-away-booked.ts'
import { toolMissing } from './tool-missing.ts'
import { trolleyOnStairs } from './trolley-on-stairs.ts'
import { zonesOffFloor } from './zones-off-floor.ts'
import { zonesOverlap } from './zones-overlap.ts'

export const rules: readonly Rule[] = [
  outOfUseNamed,
  stockShort,
  settingNotHeld,
  deviceWayMissing,
  deviceConditionNeverMet,
  protectionViolated,
  crewNone,
  skillNobody,
  skillMinorsOnly,
  adultsOnlyNobody,
  handsOverCrew,
  methodWithoutTrolley,
  storeLimitShort,
  storeFloorShort,
  routeMissing,
  roomNoPostedLimit,
  roomNoExits,
  exitsTooFew,
  exitsAllClosed,
  roomNoLayouts,
  stockAwayBooked,
  deviceAwayBooked,
  toolAwayBooked,
  stockAwayShort,
  stockChangeOverOwned,
  deviceOutOfService,
  deviceOutTwice,
  toolMissing,
  storeCutOff,
  standInCannot,
  restrikeTooShort,
  deviceSlow,
  skillOffDuty,
  skillExpired,
  minorWithAdultSkill,
  personTwiceOnDuty,
  shiftEnteredTwice,
  shiftNever,
  roomsAlike,
  nameTwice,
  seatsDiffer,
  seatsOverLimit,
  placesShort,
  tablesWithoutChairs,
  layoutCrowded,
  piecesOverFloor,
  placementsOverlap,
  pieceOnFixedThing,
  floorAreaDiffers,
  zonesOffFloor,
  zonesOverlap,
  exitOffFloor,
  storeDoorOffFloor,
  floorCut,
  handsTooFew,
  chairsWithoutTrolley,
  depthOrderBackwards,
  passageTooNarrow,
  passageLoadTooLow,
  trolleyOnStairs,
  slackNone,
  paceUnusual,
  allowanceNone,
  minorLimitHigh,
  layoutsTogetherShort,
  skillExpiresSoon,
  personOnNoShift,
  shiftEnded,
  roomOpenUnstaffed,
  roomNoHomeLayout,
  roomNoOpeningHours,
  exitsNotStepFree,
  joinedOneSided,
  clothsShort,
  linenForOneUse,
  layoutsAlike,
  furnishingNeverUsed,
  deviceNeverSet,
  sharedDeviceUnnamed,
  rateUnusual,
  massUnusual,
  foodNotCleaned,
]
