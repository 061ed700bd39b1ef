/** Lifting by hand: the revised NIOSH lifting equation, teams, and the British guideline weights. */

export {
  assessLift,
  type HandPosition,
  type Lift,
  type LiftAssessment,
  type LiftEnd,
  type LiftEndAssessment,
  type LiftingMultipliers,
} from './assess-lift.ts'
export { burstFrequency } from './burst-frequency.ts'
export {
  CARRY_METRES_MOST,
  CARRY_SOURCE,
  carryProblem,
  PUSH_PULL_GUIDELINES,
  type PushPullGuideline,
} from './carrying-and-pushing.ts'
export { durationClass, type LiftingSession, recoveryWantedSeconds } from './duration-class.ts'
export {
  type DurationClass,
  FREQUENCY_TABLE,
  FREQUENCY_TABLE_SOURCE,
  type FrequencyRow,
  frequencyMultiplier,
} from './frequency-multiplier.ts'
export { guidelineTeamKilograms } from './guideline-team-kilograms.ts'
export {
  GUIDELINE_WEIGHTS,
  type GuidelineLift,
  type GuidelineWeight,
  guidelineKilograms,
  type HandZone,
  type LiftingPerson,
  MINOR_SHARE_OF_ADULT,
  MINOR_SHARE_SOURCE,
  REPETITION_SOURCE,
  type Reach,
  repetitionFactor,
} from './guideline-weights.ts'
export { horizontalFromBoxWidth } from './horizontal-from-box-width.ts'
export { type LiftingIndexReading, liftingIndexReading } from './lifting-index-reading.ts'
export {
  asymmetryMultiplier,
  couplingMultiplier,
  type Grip,
  horizontalMultiplier,
  travelMultiplier,
  verticalMultiplier,
} from './lifting-multipliers.ts'
export {
  LIFTING_CONSTANTS,
  type LiftingConstants,
  type LiftingUnits,
  type MultiplierRounding,
} from './lifting-units.ts'
export { OUTSIDE_THE_EQUATION, type OutsideTheEquation } from './outside-the-equation.ts'
export { pieceLiftingIndex } from './piece-lifting-index.ts'
export { TEAM_LIFT_SOURCE, TEAM_LIFT_STAIRS_NOTE, teamLiftKilograms } from './team-lift.ts'
