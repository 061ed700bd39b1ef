/** Advice on a layout from published tables: occupancy, exits and aisles, access, lifting. */
export { accessAdvice } from './access-advice.ts'
export type { AdviceInput, AdvicePlacement } from './advice-input.ts'
export type { AdviceItem } from './advice-item.ts'
export { ADVICE_CAUTION } from './advice-item.ts'
export { liftingAdvice } from './lifting-advice.ts'
export { occupancyAdvice } from './occupancy-advice.ts'
