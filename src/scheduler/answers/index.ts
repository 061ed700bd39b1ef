/** Answers around the plan of a stored turn. */
export { type CurveAsked, handsCurve } from './hands-curve.ts'
export { momentText } from './moment-text.ts'
export type { Solver } from './search.ts'
export { whatWouldHelp } from './what-would-help.ts'
