/** How long work takes, by published systems and by common practice: what the default rates are held against. */
export {
  ALLOWANCE_FIGURES,
  type Allowance,
  type AllowanceFigure,
  normalSeconds,
  standardSeconds,
  VOLUNTEER_PACE,
} from './allowances.ts'
export {
  ACTION_DISTANCES,
  type ActionDistance,
  actionIndexForMetres,
  actionIndexForSteps,
  BODY_MOTIONS,
  GAIN_CONTROL,
  type GeneralMoveIndex,
  generalMoveIndex,
  indexSeconds,
  PLACEMENTS,
} from './basic-most.ts'
export {
  CLEANING_RANGES,
  type CleaningRange,
  cleaningMinutes,
  DRYING_RANGES,
  type DryingRange,
  PIECE_CLEANING_RANGES,
  type PieceCleaningRange,
} from './cleaning-ranges.ts'
export { HANDLING_RANGES, type HandlingRange, type SecondsRange } from './handling-ranges.ts'
export { LEARNING_RATE_RANGE, learntSeconds } from './learning-curve.ts'
export {
  MTM_FIGURES,
  MTM_MOVE_WEIGHTS,
  MTM_PACES,
  type MtmFigure,
  type MtmMoveWeight,
  mtmWalkingMetresPerSecond,
  mtmWalkTmu,
} from './mtm-figures.ts'
export { numberAbove, numberInRange } from './number-in-range.ts'
export { SECONDS_PER_TMU, secondsFromTmu, TMU_SOURCE, tmuFromSeconds } from './tmu.ts'
